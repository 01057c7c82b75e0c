import { startSteps } from '../plan/solve/starts.ts';
import { basisMass } from '../plan/step/run-step.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import type { Situation } from './start-choice.ts';

/** How the first start depends on the yield of one step. */
export interface StartSlope {
  readonly step: string;
  /** g of the first starting material less (negative) or more for one point more of this yield, at the likeliest plan. */
  readonly gramsPerPoint: Figure<'g'>;
}

/** Points of yield over which the slope is taken: small, so that it is the slope at the plan itself. */
const NUDGE = 1e-4;

/**
 * The change of the first start per point of each step's yield, from the plan solved again with that yield a little
 * higher (at 100 %: lower). @param first index of the step whose basis is the first start.
 */
export function startSlopes(situation: Situation, first: number): readonly StartSlope[] {
  const { network, base } = situation;
  const now = gramsOf(situation, first, base.steps[first]?.basisMoles);
  return network.steps.flatMap((step, i): readonly StartSlope[] => {
    const percent = base.yields[i]?.value ?? 0;
    if (!now || !base.steps[i]?.active || percent === 0) return [];
    const other = percent >= 100 ? percent - NUDGE : percent + NUDGE;
    const then = gramsWith(situation, i, other, first);
    if (!then) return [];
    const label = `change of the start for one point more in ${step.title}`;
    const slope = (then.value - now.value) / (other - percent);
    return [{ step: step.id, gramsPerPoint: computed(label, slope, 'g', 'the plan solved again with that yield', [then, now]) }];
  });
}

function gramsWith(situation: Situation, changed: number, percent: number, first: number): Figure<'g'> | null {
  const { input, network, facts, wants, stock } = situation;
  const step = network.steps[changed];
  if (!step) return null;
  // The yield itself is changed, also where it was learned: its runs would take it for their prior.
  const { [step.id]: _own, ...learned } = input.ask.learned ?? {};
  const ask = { ...input.ask, yields: { ...input.ask.yields, [step.id]: percent }, learned };
  const solved = startSteps({ ...input, ask }, network, facts, wants, stock);
  return gramsOf(situation, first, solved.ok ? solved.starts.steps[first]?.basisMoles : undefined);
}

function gramsOf({ network, facts }: Situation, first: number, basisMoles: Figure<'mol'> | undefined): Figure<'g'> | null {
  const step = network.steps[first];
  return step && basisMoles ? basisMass({ step, facts, basisMoles }) : null;
}
