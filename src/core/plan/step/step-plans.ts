import type { Situation } from '../../confidence/start-choice.ts';
import type { Figure } from '../../quantity/figure.ts';
import type { Step } from '../../route/route.ts';
import type { BatchCount, RunIn } from '../batches/batches.ts';
import type { StepPlan } from '../result.ts';
import type { Requirement } from '../solve/requirements.ts';
import { learnedRuns, type Starts, yieldEntered } from '../solve/starts.ts';
import type { Taken } from '../stock/take.ts';
import type { StepInput } from './run-step.ts';
import { stepPlan, type StepPlanInput } from './step-plan.ts';

type Of = Pick<Situation, 'input' | 'network'>;

/** Every step of the route in working order, numbered from 1, with its charges rounded to what its devices show. */
export function stepPlans(of: Of, starts: Starts, taken: Taken): readonly StepPlan[] {
  const { input, network } = of;
  return network.groups.flat().map((i, place) => {
    const step = network.steps[i] as Step;
    return stepPlan({
      input: taken.stepInputs[i] as StepInput,
      number: place + 1,
      requirement: starts.steps[i] as Requirement,
      yieldFigure: starts.yields[i] as Figure<'%'>,
      count: starts.counts[i] as BatchCount,
      runIn: starts.runs[i] as RunIn,
      supplies: taken.supplies[i] as StepPlanInput['supplies'],
      settings: input.settings,
      whyIdle: whyIdle(of, starts.steps, i),
      yieldEntered: yieldEntered(step, input.ask),
      yieldRuns: learnedRuns(step, input.ask).length,
    });
  });
}

/** Why a step does not run: stock covers it, it was left out by hand, or another step makes the same. */
function whyIdle({ input, network }: Of, steps: readonly Requirement[], i: number): StepPlan['whyIdle'] {
  if (steps[i]?.active) return null;
  const step = network.steps[i];
  if (!step || input.ask.leaveOut?.includes(step.id)) return 'left out';
  const others = network.makersOf.get(step.product) ?? [];
  return others.some((other) => other !== i && steps[other]?.active) ? 'another makes it' : 'nothing to make';
}
