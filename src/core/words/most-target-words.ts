import type { MostTarget } from '../plan/forward/most-target.ts';
import { formatAmount } from '../quantity/format.ts';
import { planWords } from './plan-words.ts';
import { sentence } from './sentences.ts';

const grams = (value: number): string => amount(value, 'g');

function amount(value: number, unit: 'g' | 'mL'): string {
  const shown = formatAmount({ value, unit, digits: 3 });
  return `${shown.text} ${shown.unit}`;
}

/** What limits a target, and what more of it would bring, in sentences. */
export function mostTargetWords(most: MostTarget): readonly string[] {
  const words = planWords.fromStock;
  if (most.kind === 'no limit') return [words.noLimit];
  if (most.kind === 'refused') return [sentence(most.why)];
  if (most.kind === 'no plan') return [words.noPlan];
  if (most.kind === 'nothing') return [words.nothing(most.material)];
  const { name, unit, perUnit, byBatch, anotherBatch, more, thenGrams, thenMaterial } = most.bottleneck;
  const relief =
    more !== null && thenGrams !== null && thenMaterial !== null
      ? words.more(amount(more, unit), name, grams(thenGrams), thenMaterial)
      : anotherBatch === null
        ? words.each(unit, grams(perUnit), name, byBatch)
        : words.nothingElse(name);
  const short = most.planShort.length > 0 ? [words.planShort(most.planShort.join(', '))] : [];
  const first = anotherBatch === null ? words.runsOut(name) : words.noBatch(name, amount(anotherBatch, unit));
  return [...short, first, relief];
}
