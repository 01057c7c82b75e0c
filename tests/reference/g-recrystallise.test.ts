import { expect, test } from 'vitest';
import { crystallise, leastSolvent, recovered } from '../../src/core/crystallise/crystallise.ts';
import { inSaturated } from '../../src/core/crystallise/solubility.ts';
import { casesOf, expected, type ReferenceCase } from './cases.ts';

/** A number of a case's inputs; null where it has none of that name. */
function input(one: ReferenceCase, name: string): number | null {
  const found = one.inputs[name];
  return found && typeof found === 'object' && 'value' in found ? Number(found.value) : null;
}

/** What the product says to a case, by the names its source uses. */
function answers(one: ReferenceCase): Readonly<Record<string, number>> {
  const number = (name: string): number => input(one, name) ?? Number.NaN;
  const solution = input(one, 'solution');
  const crude = input(one, 'crude');
  if (crude !== null) {
    const { total, lost, recoveryPercent } = recovered(crude, [number('crop1'), number('crop2')]);
    return { total, recovery: recoveryPercent, lost };
  }
  const hot = input(one, 'sHot') ?? Infinity;
  const saturated = solution === null ? null : inSaturated(solution, hot);
  const grams = saturated?.solute ?? input(one, 'mass') ?? hot;
  const solvent = saturated?.solvent ?? input(one, 'V') ?? 100;
  const crop = crystallise({ grams, solvent, hot, cold: number('sCold'), wash: input(one, 'wash') ?? 0 });
  return {
    'capacity hot': crop.capacity,
    'left in liquor': crop.liquor,
    'left in liquor and wash': crop.liquor + crop.washed,
    crystals: crop.crystals,
    'crystals per 100 g water': crop.crystals,
    recovery: crop.recoveryPercent,
    'minimum water': Number.isFinite(hot) ? leastSolvent(grams, hot) : Number.NaN,
    'KNO3 in solution': grams,
    water: solvent,
  };
}

test.each(casesOf('g').map((one) => [`${one.id} ${one.title}`, one] as const))('%s', (_, one) => {
  for (const output of one.outputs) {
    const { value, within } = expected(one, output.name);
    expect(Math.abs((answers(one)[output.name] ?? Number.NaN) - value), output.name).toBeLessThanOrEqual(within);
  }
});
