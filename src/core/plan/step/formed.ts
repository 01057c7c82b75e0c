import { hazardsOf } from '../../bench/hazards.ts';
import { inVessel, rememberMeetings } from '../../bench/in-vessel.ts';
import { factsOf } from '../../matter/facts.ts';
import { natureOf } from '../../bench/nature.ts';
import { NEAT } from '../../matter/form.ts';
import type { Reference } from '../../reference.ts';
import { rememberOfThree } from '../../remember.ts';
import type { Step } from '../../route/route.ts';
import type { FormedPlan } from '../result.ts';
import { factsFor, type StepInput } from './run-step.ts';

/**
 * Everything the equation makes but water, with its hazards as the pure substance: at what strength it ends up in the
 * pot is not known, so nothing is ruled out. Null hazards mean "read the safety sheet", never "harmless".
 */
export const formedIn = rememberOfThree((step: Step, facts: StepInput['facts'], reference: Reference): readonly FormedPlan[] =>
  step.equation.makes.flatMap(({ material, gas = false }) => {
    const one = factsFor(material, { facts });
    if (one.utility || natureOf(one, reference).water) return [];
    return [{ material, gas, hazards: hazardsOf(one, NEAT, reference)?.statements ?? null }];
  }),
);

/**
 * Everything that water, acid or base frees in the vessel or turns a charge into, but water and what the equation makes;
 * with its hazards as the pure substance, as in formedIn.
 */
export const freedIn = rememberMeetings((context): readonly FormedPlan[] => {
  const { step, facts, reference } = context;
  const made = new Set(step.equation.makes.map((term) => facts.get(term.material)?.cas));
  const rows = inVessel(context).flatMap(({ frees }) => frees.flatMap((one) => one.rows));
  const once = new Map(rows.filter((row) => !made.has(row.makesCas)).map((row) => [row.makesCas, row]));
  return [...once.values()].map(({ makes, makesCas, gas }) => {
    const one = factsOf({ name: makes, cas: makesCas }, reference);
    return { material: makes, gas, hazards: hazardsOf(one, NEAT, reference)?.statements ?? null };
  });
});
