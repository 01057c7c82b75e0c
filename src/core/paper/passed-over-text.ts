import type { PassedOverBottle } from '../plan/result.ts';
import type { DecimalMark } from '../quantity/format.ts';
import { passedOverWords } from '../words/passed-over-words.ts';
import { amountText } from './amounts.ts';

/** Why a bottle was passed over, with its numbers as the desktop writes them. */
export function passedOverText(one: PassedOverBottle, mark: DecimalMark): string {
  const left = amountText({ value: one.left, unit: one.unit, digits: 3 }, mark);
  return passedOverWords(one, left, String(one.assayPercent ?? '').replace('.', mark));
}
