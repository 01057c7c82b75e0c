import type { ChargePlan, Take } from '../../../core/plan/result.ts';
import { formatAmount, formatSignificant } from '../../../core/quantity/format.ts';
import { readingParts } from '../../../core/quantity/reading.ts';
import { deviceWords } from '../../../core/words/device-words.ts';
import { planWords } from '../../../core/words/plan-words.ts';
import { decimalMark } from '../../parts/locale.ts';
import { windowWords } from '../../parts/window-words.ts';

const words = planWords.step;

/** The amount to take as the device can show it; null where it is not known. */
export function shownTake(take: Take): { readonly text: string; readonly unit: string } | null {
  if (take.by === 'unknown' || !take.exact) return null;
  return readingParts(take.target, take.unit, take.decimals, decimalMark);
}

/** How a charge is added: at which temperature, over how long, until what; empty where the procedure does not say. */
export function additionText(charge: ChargePlan): string {
  const until = charge.endPoint === null ? '' : words.until(charge.endPoint);
  return [windowWords(charge.temperature, charge.overMinutes, words.over), until].filter((part) => part !== '').join(' · ');
}

/** The small lines under a charge: portions, batches, equivalents and density, its measure, its note. */
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
  const device = deviceWords(charge.perBatch, decimalMark);
  const taken = device === '' ? [] : [words.with(device)];
  const lines = [divided, figures, taken].map((parts) => parts.filter((part) => part !== '').join(' · '));
  const unlisted = charge.hazards === null && charge.supply.kind !== 'utility' ? words.noEntry : '';
  return [...lines, carriedWords(charge), unlisted, charge.note].filter((line) => line !== '');
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
  const { text, unit } = readingParts(take.target / count, take.unit, take.decimals, decimalMark);
  return `${text} ${unit}`;
}
