import { startSteps } from '../plan/starts.ts';
import { basisMass } from '../plan/run-step.ts';
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
  return situation.network.steps.flatMap((step, i): readonly StartSlope[] => {
    if (!situation.base.steps[i]?.active) return [];
    const percent = situation.base.yields[i]?.value ?? 0;
    const other = percent >= 100 ? percent - NUDGE : percent + NUDGE;
    const [now, then] = [gramsWith(situation, i, percent, first), gramsWith(situation, i, other, first)];
    if (!now || !then || percent === 0) return [];
    const label = `change of the start for one point more in ${step.title}`;
    const slope = (then.value - now.value) / (other - percent);
    return [{ step: step.id, gramsPerPoint: computed(label, slope, 'g', 'the plan solved again with that yield', [then, now]) }];
  });
}

function gramsWith(situation: Situation, changed: number, percent: number, first: number): Figure<'g'> | null {
  const { input, network, facts, wants, stock } = situation;
  const step = network.steps[changed];
  const start = network.steps[first];
  if (!step || !start) return null;
  const yields = { ...input.ask.yields, [step.id]: percent };
  const solved = startSteps({ ...input, ask: { ...input.ask, yields } }, network, facts, wants, stock);
  const basisMoles = solved.ok ? solved.starts.steps[first]?.basisMoles : undefined;
  return basisMoles ? basisMass({ step: start, facts, basisMoles }) : null;
}
