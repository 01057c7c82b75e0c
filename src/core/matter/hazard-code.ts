import type { Reference } from '../reference.ts';
import type { StatementRow } from '../reference-rows.ts';
import { materialWords } from '../words/material-words.ts';

const words = materialWords.hazard;

export type HazardCode = { readonly ok: true; readonly row: StatementRow } | { readonly ok: false; readonly words: string };

const SHAPE = /^(?:(?:EUH|H|P)\d{3}[A-Za-z]{0,2})(?:\+(?:EUH|H|P)\d{3}[A-Za-z]{0,2})*$/;

/**
 * Reads one hazard or precautionary statement: the row of the table that has its text and says which list it is in. A
 * combined statement (H302+H312) is one of a fixed set and has a fixed order; codes that each exist are not therefore
 * combined. Spaces do not matter, nor does the case of H, P and EUH; the letters behind the number do (H360D, H360d).
 * Source: CLP Annex III and IV; UN GHS Rev. 10, Annex 3.
 */
export function readHazardCode(typed: string, reference: Reference): HazardCode {
  const code = typed.replace(/\s+/g, '').replace(/(^|\+)(euh|h|p)(?=\d)/gi, (start) => start.toUpperCase());
  if (code.length > 60 || !SHAPE.test(code)) return { ok: false, words: words.shape };
  const row = reference.statementRow.get(code);
  if (row) return { ok: true, row };
  const parts = code.split('+');
  const unknown = parts.find((part) => !reference.statementRow.has(part));
  if (unknown !== undefined) return { ok: false, words: words.unknown(unknown) };
  const right = reference.rows.statements.find((one) => sameSet(one.code.split('+'), parts));
  return { ok: false, words: right ? words.order(code, right.code) : words.notCombined(code, parts) };
}

function sameSet(one: readonly string[], other: readonly string[]): boolean {
  return one.length === other.length && one.every((code) => other.includes(code));
}

/**
 * Reads a list of hazard statements as it may be pasted, apart by spaces, commas or lines, with or without their texts:
 * each code once, the combined ones taken apart. Fails with the place of the first that is none.
 */
export function readHazardCodes(
  typed: string,
  reference: Reference,
):
  | { readonly ok: true; readonly codes: readonly string[] }
  | { readonly ok: false; readonly at: number; readonly words: string } {
  // Spaces around a plus belong to the code; filled up, the places stay right.
  const joined = typed.replace(/\s*\+\s*/g, (plus) => '+'.padStart(plus.length, FILL));
  const codes = new Set<string>();
  for (const found of joined.matchAll(/[^\s,;:]+/g)) {
    const code = found[0].replaceAll(FILL, '').replace(/\.$/, '');
    if (!/\d/.test(code)) continue;
    const read = readHazardCode(code, reference);
    if (!read.ok) return { ok: false, at: found.index, words: read.words };
    if (read.row.code.startsWith('P')) return { ok: false, at: found.index, words: words.precaution(read.row.code) };
    for (const one of read.row.code.split('+')) codes.add(one);
  }
  return { ok: true, codes: [...codes] };
}

const FILL = '_';
