import { readBalanceText } from '../../core/run/balance-text.ts';
import type { Asking } from './weigh-store.ts';
import { reference } from './workbook.ts';

/** Asked for in words: what a balance types by itself meanwhile is none. */
export const WORDS_ONLY: ReadonlySet<Asking['for']> = new Set(['why', 'deviation', 'remark', 'correct reason', 'end']);

/** Whether a line is a mass or a volume with its unit and nothing else, moving or standing still. */
export function typedByBalance(line: string): boolean {
  const tables = reference.value?.rows.balanceTexts;
  if (!tables || !/\d.*[a-z]/i.test(line)) return false;
  const read = readBalanceText(line, 'g', tables);
  return read.ok || read.why.code !== 'reading not understood';
}

/** Whether words look like an amount, with its unit or, as some balances type it, without. */
export const looksWeighed = (line: string): boolean => typedByBalance(line) || /^[+-]?\s*\d+(?:[.,]\d*)?$/.test(line);

/** The line that was taken last, and when. */
let last: { readonly line: string; readonly at: number } | null = null;

/** A print key that is held or bounces sends its line again this soon, ms; it must not be the next portion or charge. */
const BOUNCE = 800;

export function wasTaken(line: string): void {
  last = { line, at: performance.now() };
}

/** Whether a line is the one just taken, sent again at once; it is held back once, then it counts. */
export function cameTwice(line: string): boolean {
  const before = last;
  last = null;
  return before?.line === line && performance.now() - before.at < BOUNCE;
}

/** A label that is a bare number, such as 25, is no less a weight; a long number, as on a bar code, is none. */
export function isWeight(line: string, unit: 'g' | 'mL', tables: Parameters<typeof readBalanceText>[2]): boolean {
  return !BAR_CODE.test(line) && readBalanceText(line, unit, tables).ok;
}

const BAR_CODE = /^\d{8,}$/;
