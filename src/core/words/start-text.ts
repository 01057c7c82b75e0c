import type { PlanResult } from '../plan/result.ts';
import { type DecimalMark, formatAmount, formatSignificant } from '../quantity/format.ts';

/** More materials than this are counted, not named. */
const MOST_NAMED = 2;

/**
 * What a list of a plan follows: "for a start of 35.7 g of benzaldehyde, at the likeliest yields". Named are the bases that
 * no running step makes, in working order; empty where nothing has to be started.
 */
export function startText(result: PlanResult, mark: DecimalMark = '.'): string {
  const running = result.steps.filter((step) => step.active);
  const made = new Set(running.map((step) => step.product.material));
  const first = running.filter((step) => !made.has(step.basis.material));
  const begun = first.length > 0 ? first : running.slice(0, 1);
  if (begun.length === 0) return '';
  const named = begun.slice(0, MOST_NAMED).map(({ basis: { grams, moles, material } }) => {
    const { text, unit } = formatAmount(Number.isFinite(grams.value) ? grams : moles, mark);
    return `${text} ${unit} of ${result.materials[material]?.name ?? material}`;
  });
  const all = begun.length > MOST_NAMED ? `${named.join(', ')} and ${begun.length - MOST_NAMED} more` : named.join(' and ');
  return `for a start of ${all}, ${chosenText(result.start, mark)}`;
}

function chosenText({ kind, chancePercent, multiplier }: PlanResult['start'], mark: DecimalMark): string {
  if (kind === 'likeliest') return 'at the likeliest yields';
  if (kind === 'chance') return `chosen for a chance of enough of ${formatSignificant(chancePercent ?? Number.NaN, 3, mark)} %`;
  return `chosen by hand: ${formatSignificant(multiplier.value, 4, mark)} times what has to be made`;
}
