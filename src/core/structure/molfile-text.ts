import { structureWords } from '../words/structure-words.ts';

export type MolfileText =
  | { readonly ok: true; readonly text: string; readonly atoms: number }
  | { readonly ok: false; readonly words: string };

const COUNTS = /^\s*\d.*\bV[23]000\s*$/;
const HEADER_LINES = 3;
/** Letters of search patterns: any atom, any but carbon, a list, a rest. */
const ELEMENT = /^[A-Z][a-z]?$/;
const NO_ELEMENTS = new Set(['A', 'Q', 'X', 'M', 'L', 'R', 'E', 'G', 'Z', 'J']);

/**
 * Looks a pasted molfile over before it is read: whether it is whole and how many atoms it says it has, so that a
 * reader that stops half-way is found out. Lines lost or added above the counts line by pasting are put right.
 * Source: CTfile formats, V2000 and V3000.
 */
export function readMolfileText(pasted: string): MolfileText {
  const lines = pasted.split(/\r\n|\r|\n/);
  const counts = lines.findIndex((line) => COUNTS.test(line));
  if (counts < 0) return refused(structureWords.noCounts);
  const end = lines.findIndex((line) => /^M {2}END\s*$/.test(line));
  if (end < 0) return refused(structureWords.cutOff);
  const after = lines.slice(end + 1).join('\n');
  if (/^M {2}END/m.test(after)) return refused(structureWords.severalMolecules);
  const body = lines.slice(counts, end + 1);
  const header = lines.slice(Math.max(0, counts - HEADER_LINES), counts);
  const text = [...Array.from({ length: HEADER_LINES - header.length }, () => ''), ...header, ...body, ''].join('\n');
  const v3000 = /V3000/.test(body[0] ?? '');
  const symbols = v3000 ? symbolsOfV3000(body) : symbolsOfV2000(body);
  const atoms = v3000 ? countOfV3000(body) : Number((body[0] ?? '').slice(0, 3));
  if (!Number.isInteger(atoms)) return refused(structureWords.noCounts);
  if (symbols.length !== atoms) return refused(structureWords.atomsMissing(atoms, symbols.length));
  const wrong = symbols.findIndex((symbol) => !ELEMENT.test(symbol) || NO_ELEMENTS.has(symbol));
  if (wrong >= 0) return refused(structureWords.noElement(symbols[wrong] ?? '', wrong + 1));
  return { ok: true, text, atoms };
}

function refused(words: string): MolfileText {
  return { ok: false, words };
}

/** Atom lines: three coordinates, then the symbol. */
function symbolsOfV2000(body: readonly string[]): readonly string[] {
  const count = Number((body[0] ?? '').slice(0, 3)) || 0;
  return body
    .slice(1, 1 + count)
    .map((line) => /^\s*-?\d+\.\d+\s*-?\d+\.\d+\s*-?\d+\.\d+\s+(\S{1,3})(?=\s|$)/.exec(line)?.[1])
    .filter((symbol) => symbol !== undefined);
}

function symbolsOfV3000(body: readonly string[]): readonly string[] {
  const from = body.findIndex((line) => /^M {2}V30 BEGIN ATOM/.test(line));
  const to = body.findIndex((line) => /^M {2}V30 END ATOM/.test(line));
  return body
    .slice(from + 1, Math.max(from + 1, to))
    .map((line) => /^M {2}V30 \d+ (\S+) -?\d/.exec(line)?.[1])
    .filter((symbol) => symbol !== undefined);
}

function countOfV3000(body: readonly string[]): number {
  const line = body.find((one) => /^M {2}V30 COUNTS /.test(one)) ?? '';
  return Number(/COUNTS (\d+)/.exec(line)?.[1] ?? Number.NaN);
}
