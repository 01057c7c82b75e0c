import type { ChargePlan, Take } from '../../../core/plan/result.ts';
import { formatAmount, formatDecimals, formatSignificant } from '../../../core/quantity/format.ts';
import { deviceWords } from '../../../core/words/device-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { windowWords } from '../../parts/window-words.ts';

const words = planWords.step;
const LARGE = 10_000;

/** The amount to take as the device can show it; null where it is not known. */
export function shownTake(take: Take): { readonly text: string; readonly unit: string } | null {
  if (take.by === 'unknown' || !take.exact) return null;
  return largeOrPlain(take.target, take.decimals, take.unit);
}

/** From ten thousand on in kilograms or litres, with the same digits. */
function largeOrPlain(value: number, decimals: number, unit: 'g' | 'mL'): { readonly text: string; readonly unit: string } {
  if (value < LARGE) return { text: formatDecimals(value, decimals, decimalMark), unit };
  return { text: formatDecimals(value / 1000, decimals + 3, decimalMark), unit: unit === 'g' ? 'kg' : 'L' };
}

/** The small lines under a charge: equivalents and density, portions, batches, how it is added, its note. */
export function chargeDetails(charge: ChargePlan, batches: number): readonly string[] {
  const figures = [
    charge.equivalents && !charge.isBasis && charge.rule !== words.equivalentsRule
      ? `${formatAmount(charge.equivalents, decimalMark).text} ${words.equivalents}`
      : '',
    densityWords(charge),
  ];
  const each = shownTake(charge.perBatch);
  const divided = [
    batches > 1 && each ? words.perBatch(batches, `${each.text} ${each.unit}`) : '',
    charge.portions > 1 && each ? words.portions(charge.portions, portion(charge.perBatch, charge.portions)) : '',
  ];
  const added = [
    windowWords(charge.temperature, charge.overMinutes, words.over),
    charge.endPoint === null ? '' : words.until(charge.endPoint),
  ];
  const device = deviceWords(charge.perBatch, decimalMark);
  const taken = device === '' ? [] : [words.with(device)];
  const lines = [figures, divided, added, taken].map((parts) => parts.filter((part) => part !== '').join(' · '));
  return [...lines, carriedWords(charge), charge.note].filter((line) => line !== '');
}

function carriedWords({ carried }: ChargePlan): string {
  if (!carried) return '';
  const { text, unit } = formatAmount(carried.millilitres, decimalMark);
  return words.carried(`${text} ${unit}`, carried.name);
}

function densityWords(charge: ChargePlan): string {
  const { density } = charge;
  if (!density || charge.total.by !== 'volume') return '';
  return `${words.density} ${formatSignificant(density.value, Math.min(4, Math.max(3, density.digits)), decimalMark)}`;
}

function portion(take: Take, count: number): string {
  const { text, unit } = largeOrPlain(take.target / count, take.decimals, take.unit);
  return `${text} ${unit}`;
}
