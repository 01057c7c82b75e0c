import type { Settings } from '../plan/settings.ts';
import type { Figure } from '../quantity/figure.ts';
import type { Notice } from '../words/notice.ts';
import { takeOfMass } from './take.ts';

/**
 * Whether a part of a solution is less than the laboratory's balances weigh within the tolerance of a reagent: said with
 * how much of the solution would have to be made for it to be enough.
 * @param what the part in words. @param part of it to weigh, g. @param whole the solution that is made, g.
 * @returns null where it can be weighed, and where nothing is taken.
 */
export function tooLittleOfSolution(
  what: string,
  part: Figure<'g'>,
  whole: Pick<Figure<'g'>, 'value'>,
  settings: Settings,
): Notice | null {
  if (!(part.value > 0)) return null;
  const { meets, device, least, tolerancePercent } = takeOfMass(part, settings);
  if (meets || !least) return null;
  const values = {
    material: what,
    amount: part.value,
    unit: 'g',
    device,
    percent: tolerancePercent,
    least: least.value,
    make: (whole.value * least.value) / part.value,
  };
  return { level: 'caution', code: 'too little for a solution', values, at: {} };
}
