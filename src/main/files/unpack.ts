// The parts of a workbook that hold its cells, unpacked within a budget and packed again without compression: what reads
// them next can neither be fooled about their size nor find a part by another way than we did.
import { inflateRawSync } from 'node:zlib';
import { zipSync } from 'fflate';
import { fileWords, MOST_CELLS, MOST_UNPACKED, refuse } from './limits.ts';
import { scanSheet } from './scan-sheet.ts';

/** Signatures and lengths of PKWARE's APPNOTE.TXT 6.3.10, sections 4.3.7, 4.3.12 and 4.3.16. */
const END = 0x06054b50;
const ENTRY = 0x02014b50;
const LOCAL = 0x04034b50;
const MOST_PARTS = 5000;
/** Parts with cells, and what is needed to understand them; pictures, macros and the rest stay packed. */
const NEEDED =
  /^(\[Content_Types\]\.xml|_rels\/\.rels|xl\/(workbook|styles|sharedStrings)\.xml|xl\/_rels\/workbook\.xml\.rels|xl\/worksheets\/[^/]+\.xml)$/i;

interface Part {
  readonly name: string;
  readonly method: number;
  readonly packed: number;
  readonly at: number;
}

export interface Cells {
  /** A workbook again. */
  readonly bytes: Uint8Array;
  /** Of the longest sheet. */
  readonly rows: number;
}

/** The workbook with nothing but its needed parts, stored; refused where it is no workbook or unpacks too large. */
export function onlyCells(bytes: Uint8Array, mostBytes = MOST_UNPACKED, most = MOST_CELLS): Cells {
  const view = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts = partsOf(view);
  if (!parts.some((part) => /^xl\/workbook\.xml$/i.test(part.name))) refuse(fileWords.notWorkbook);
  const kept: Record<string, Uint8Array> = {};
  let left = mostBytes;
  let cells = 0;
  let rows = 0;
  for (const part of parts) {
    if (!NEEDED.test(part.name)) continue;
    const content = contentOf(view, part, left, mostBytes);
    left -= content.length;
    if (!/worksheets/i.test(part.name)) {
      kept[part.name] = content;
      continue;
    }
    const sheet = scanSheet(content, most - cells);
    cells += sheet.cells;
    rows = Math.max(rows, sheet.rows);
    kept[part.name] = sheet.content;
  }
  for (const name of Object.keys(kept)) {
    if (/^\[Content_Types\]\.xml$/i.test(name)) kept[name] = withoutOthers(kept[name] ?? new Uint8Array(), kept);
  }
  return { bytes: zipSync(kept, { level: 0 }), rows };
}

/** The list of parts without those that stay packed: a reader would look for every part that is listed. */
function withoutOthers(list: Uint8Array, kept: Readonly<Record<string, Uint8Array>>): Uint8Array {
  const names = new Set(Object.keys(kept).map((name) => `/${name.toLowerCase()}`));
  const text = Buffer.from(list).toString('utf8');
  return Buffer.from(
    text.replaceAll(/<(?:\w+:)?Override\b[^<>]*>/g, (one) => {
      const part = /PartName\s*=\s*["']([^"']*)["']/.exec(one)?.[1] ?? '';
      return names.has(part.toLowerCase()) ? one : '';
    }),
  );
}

function partsOf(view: Buffer): readonly Part[] {
  try {
    const end = endOf(view);
    const count = view.readUInt16LE(end + 10);
    if (count > MOST_PARTS) refuse(fileWords.damagedWorkbook);
    const parts: Part[] = [];
    for (let at = view.readUInt32LE(end + 16); parts.length < count; ) {
      if (view.readUInt32LE(at) !== ENTRY) return refuse(fileWords.damagedWorkbook);
      const length = view.readUInt16LE(at + 28);
      parts.push({
        name: view.toString('utf8', at + 46, at + 46 + length),
        method: view.readUInt16LE(at + 10),
        packed: view.readUInt32LE(at + 20),
        at: view.readUInt32LE(at + 42),
      });
      at += 46 + length + view.readUInt16LE(at + 30) + view.readUInt16LE(at + 32);
    }
    return parts;
  } catch (error) {
    if (error instanceof RangeError) return refuse(fileWords.damagedWorkbook);
    throw error;
  }
}

/** Where the directory's end record begins: the last one in the file. */
function endOf(view: Buffer): number {
  for (let at = view.length - 22; at >= Math.max(0, view.length - 22 - 0xffff); at -= 1) {
    if (view.readUInt32LE(at) === END) return at;
  }
  return refuse(fileWords.notWorkbook);
}

function contentOf(view: Buffer, part: Part, left: number, most: number): Uint8Array {
  try {
    if (view.readUInt32LE(part.at) !== LOCAL) return refuse(fileWords.damagedWorkbook);
    const from = part.at + 30 + view.readUInt16LE(part.at + 26) + view.readUInt16LE(part.at + 28);
    const packed = view.subarray(from, from + part.packed);
    if (packed.length !== part.packed) return refuse(fileWords.damagedWorkbook);
    if (part.method === 0) return packed.length > left ? refuse(fileWords.unpacksTooLarge(most)) : packed;
    if (part.method !== 8) return refuse(fileWords.damagedWorkbook);
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, left) });
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? String(error.code) : '';
    if (code === 'ERR_BUFFER_TOO_LARGE') return refuse(fileWords.unpacksTooLarge(most));
    if (error instanceof RangeError || code.startsWith('Z_')) return refuse(fileWords.damagedWorkbook);
    throw error;
  }
}
