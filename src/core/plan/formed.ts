import { hazardsOf } from '../bench/hazards.ts';
import type { InVessel } from '../bench/in-vessel.ts';
import { factsOf } from '../matter/facts.ts';
import { natureOf } from '../bench/nature.ts';
import { NEAT } from '../matter/form.ts';
import type { FormedPlan } from './result.ts';
import { factsFor, type StepInput } from './run-step.ts';

/**
 * Everything the equation makes but water, with its hazards as the pure substance: at what strength it ends up in the
 * pot is not known, so nothing is ruled out. Null hazards mean "read the safety sheet", never "harmless".
 */
export function formedIn(input: StepInput): readonly FormedPlan[] {
  return input.step.equation.makes.flatMap((term) => {
    const facts = factsFor(term.material, input);
    if (facts.utility || natureOf(facts, input.reference).water) return [];
    return [
      {
        material: term.material,
        gas: term.gas ?? false,
        hazards: hazardsOf(facts, NEAT, input.reference)?.statements ?? null,
      },
    ];
  });
}

/**
 * Everything that water, acid or base frees in the vessel or turns a charge into, but water and what the equation makes;
 * with its hazards as the pure substance, as in formedIn.
 */
export function freedIn(vessel: readonly InVessel[], { step, facts, reference }: StepInput): readonly FormedPlan[] {
  const made = new Set(step.equation.makes.map((term) => facts.get(term.material)?.cas));
  const rows = vessel.flatMap(({ frees }) => frees.flatMap((one) => one.rows));
  const once = new Map(rows.filter((row) => !made.has(row.makesCas)).map((row) => [row.makesCas, row]));
  return [...once.values()].map(({ makes, makesCas, gas }) => {
    const one = factsOf({ name: makes, cas: makesCas }, reference);
    return { material: makes, gas, hazards: hazardsOf(one, NEAT, reference)?.statements ?? null };
  });
}
