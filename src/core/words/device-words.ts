import type { Take } from '../plan/result.ts';
import { marksOf } from '../quantity/figure.ts';
import { type DecimalMark, formatAmount } from '../quantity/format.ts';

/** In place of a balance, for a gas. How in particular is said before its charge. */
export const METERED = 'the gas meter or by the cylinder’s loss, not weighed out';

/**
 * What an amount is weighed or measured with: "cylinder 50 mL (ISO 4788, class A, ±0.5 mL, from memory), filled twice".
 * Empty where no device is known. A value that was not read from its standard says so.
 */
export function deviceWords(take: Take, mark: DecimalMark = '.'): string {
  if (take.device === '') return '';
  const standard = [take.standard, ...toleranceWords(take, mark)].filter((one) => one !== '').join(', ');
  const filled = filledWords(take);
  return `${take.device}${standard === '' ? '' : ` (${standard})`}${filled === '' ? '' : `, ${filled}`}`;
}

/** The same for a paper: the device with its tolerance, and what that rests on, which stands once under the table. */
export function deviceParts(take: Take, mark: DecimalMark = '.'): { readonly device: string; readonly from: string } {
  if (take.device === '') return { device: '', from: '' };
  const [tolerance, ...marks] = toleranceWords(take, mark);
  const device = [take.device, tolerance, filledWords(take)].filter(Boolean).join(', ');
  return { device, from: [take.standard, ...marks].filter((one) => one !== '').join(', ') };
}

function filledWords({ fills }: Take): string {
  if (fills === 1) return '';
  return `filled ${fills === 2 ? 'twice' : `${fills} times`}`;
}

function toleranceWords({ deviceTolerance }: Take, mark: DecimalMark): readonly string[] {
  if (!deviceTolerance) return [];
  const shown = formatAmount({ ...deviceTolerance, digits: 2 }, mark);
  const text = String(Number(shown.text.replace(',', '.'))).replace('.', mark);
  return [`±${text} ${shown.unit}`, ...marksOf(deviceTolerance)];
}
