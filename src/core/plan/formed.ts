import { hazardsOf } from '../bench/hazards.ts';
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
