import type { ParseProblem } from '../quantity/parse.ts';
import { chargeLineWords as words } from '../words/charge-line-words.ts';
import { blanked } from './tidy-line.ts';

/** To what end a charge goes, and how much of its printed amount at most. */
export interface LineUntil {
  readonly endPoint: string;
  readonly atMost: number;
}

const NUMBER = String.raw`\d+(?:[.,]\d+)?`;
const UNTIL = new RegExp(
  String.raw`[,;(]?\s*\b(?:(?:adjusted|brought|basified|acidified)\s+)?(?:until|to)\s+(?:a\s+)?(pH\s*(?:of\s+)?[<>~≥≤]?\s*${NUMBER}(?:\s*(?:-|–)\s*${NUMBER})?)\s*\)?(?:\s*,?\s*at\s+most\s+(${NUMBER})\s*(?:[x×*]|times)?(?=[\s,;.)]|$))?`,
  'i',
);

/**
 * Takes "until pH 8, at most 1.5 ×" out of a line: the printed amount is then an estimate. How much it may take at most is
 * never guessed: a line that names a pH and no such limit is asked for it.
 * @returns the line without it, every other character at its place; null for what names no pH to go to.
 */
export function untilIn(
  text: string,
): { readonly ok: true; readonly text: string; readonly until: LineUntil } | ParseProblem | null {
  const found = UNTIL.exec(text);
  if (!found) return null;
  const endPoint = (found[1] ?? '').replaceAll(/\s+/g, ' ').trim();
  const at = found.index + found[0].search(/[^\s,;(]/);
  if (found[2] === undefined) return { ok: false, at, words: words.untilAtMost(endPoint) };
  const atMost = Number(found[2].replace(',', '.'));
  if (!(atMost >= 1 && atMost <= 1000)) return { ok: false, at, words: words.untilRange };
  return { ok: true, text: blanked(text, found), until: { endPoint, atMost } };
}
