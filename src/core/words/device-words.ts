import type { Take } from '../plan/result.ts';
import { marksOf } from '../quantity/figure.ts';
import { type DecimalMark, formatAmount } from '../quantity/format.ts';

/**
 * What an amount is weighed or measured with: "cylinder 50 mL (ISO 4788, class A, ±0.5 mL, from memory), filled twice".
 * Empty where no device is known. A value that was not read from its standard says so.
 */
export function deviceWords(take: Take, mark: DecimalMark = '.'): string {
  if (take.device === '') return '';
  const standard = [take.standard, ...toleranceWords(take, mark)].filter((one) => one !== '').join(', ');
  const filled = take.fills === 1 ? '' : `, filled ${take.fills === 2 ? 'twice' : `${take.fills} times`}`;
  return `${take.device}${standard === '' ? '' : ` (${standard})`}${filled}`;
}

function toleranceWords({ deviceTolerance }: Take, mark: DecimalMark): readonly string[] {
  if (!deviceTolerance) return [];
  const shown = formatAmount({ ...deviceTolerance, digits: 2 }, mark);
  const text = String(Number(shown.text.replace(',', '.'))).replace('.', mark);
  return [`±${text} ${shown.unit}`, ...marksOf(deviceTolerance)];
}
