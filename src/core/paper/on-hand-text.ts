import type { FetchLine } from '../plan/result.ts';
import type { StandingBottle } from '../shelf/standing.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { onHandWords as words } from '../words/on-hand-words.ts';
import { amountText } from './amounts.ts';

/** So many bottles are named; what is in the others is only counted. */
const MOST = 4;

/**
 * What a line has on hand, as it stands there: one amount where all is in the line's own form, else bottle by bottle
 * ("25.0 g in lot AC-9, 12.5 g in lot A-2"), never a sum corrected for assay that nobody could weigh. Paper has a
 * line `between` them.
 */
export function onHandText(line: Pick<FetchLine, 'onHand' | 'stands'>, mark: DecimalMark, between = ', '): string {
  return line.stands ? standsText(line.stands, mark).join(between) : amountText(line.onHand, mark);
}

/** What stands there, a bottle each; those beyond the first few only counted. */
export function standsText(stands: readonly StandingBottle[], mark: DecimalMark): readonly string[] {
  const named = stands
    .slice(0, MOST)
    .map(({ lot, bottle, left, unit, form }) => words.in(amountText({ value: left, unit, digits: 3 }, mark), form, lot, bottle));
  const more = stands.length - named.length;
  return [...named, ...(more > 0 ? [words.more(more)] : [])];
}
