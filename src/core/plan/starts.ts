import type { Facts } from '../matter/facts.ts';
import { type LearnedYield, medianOf, yieldFromRuns } from '../confidence/from-runs.ts';
import { distributionOf, type YieldDistribution } from '../confidence/yield-distribution.ts';
import { computed, type Figure, entered } from '../quantity/figure.ts';
import type { Step, StepYield } from '../route/route.ts';
import type { Notice } from '../words/notice.ts';
import type { Ask, LearnedRun } from './ask.ts';
import { type BatchCount, batchCount } from './batches.ts';
import type { PlanInput } from './input.ts';
import type { Network } from './network.ts';
import type { Stock, Want } from './needs.ts';
import { hasChoice, likeliest, type Requirement, requirements } from './requirements.ts';
import type { Choice } from './result.ts';
import { costsOf } from './step-cost.ts';
import { choicesOf } from './choices.ts';
import { basisMass } from './run-step.ts';
import { type Handover, shareOut } from './share-out.ts';

export interface Starts {
  /** By step, in the order of the file. */
  readonly steps: readonly Requirement[];
  readonly yields: readonly Figure<'%'>[];
  readonly counts: readonly BatchCount[];
  readonly handovers: readonly Handover[];
  /** Where a material has several makers: which run, and what each would cost. */
  readonly choices: readonly Choice[];
}

export type Starting = { readonly ok: true; readonly starts: Starts } | { readonly ok: false; readonly notice: Notice };

/** Rounds after which batches that still grow are taken as they are; each round adds at least one batch. */
const MOST_ROUNDS = 100;

/**
 * Starts and batches together: what is charged once a batch adds to the need, a greater need may ask for another
 * batch. Batches only grow, so it ends.
 */
export function startSteps(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  wants: readonly Want[],
  stock: readonly Stock[],
): Starting {
  const yields = network.steps.map((step) => yieldFigure(step, input.ask));
  const costs = hasChoice(network) ? costsOf(input, network, facts) : { by: 'mass' as const, perMole: [] };
  let counts: readonly BatchCount[] = network.steps.map(() => ({ count: 1, why: 'one is enough', reason: '', tooFull: false }));
  // The first round leaves out what is charged once a batch; a step that does not run charges nothing.
  let batches: readonly number[] = network.steps.map(() => 0);
  for (let round = 0; ; round += 1) {
    const asked = { network, facts, yields, wants, stock, batches, costs: costs.perMole };
    const required = requirements(asked);
    if (!required.ok) return required;
    counts = network.steps.map((step, i) =>
      countBatches(step, required.steps[i] as Requirement, counts[i]?.count ?? 1, input, facts),
    );
    const running = required.steps.map((step, i) => (step.active ? (counts[i]?.count ?? 1) : 0));
    const settled = network.fixed.every((fixed, i) => (fixed.size === 0 && network.lost[i] === 0) || running[i] === batches[i]);
    if (settled || round >= MOST_ROUNDS) {
      const handovers = shareOut(network, required.steps, wants, stock, running);
      const starts = required.steps.map((step) => step.basisMoles.value);
      return { ok: true, starts: { steps: required.steps, yields, counts, handovers, choices: choicesOf(asked, starts, costs) } };
    }
    batches = running;
  }
}

function countBatches(
  step: Step,
  requirement: Requirement,
  atLeast: number,
  input: PlanInput,
  facts: ReadonlyMap<string, Facts>,
): BatchCount {
  const run = { step, facts, reference: input.reference, basisMoles: requirement.basisMoles };
  return batchCount(run, basisMass(run)?.value ?? 0, input.settings, atLeast, input.ask.batches?.[step.id]);
}

/** The yield a plan uses: frozen with the ask, else the route's; the likeliest value of a range. */
function yieldFigure(step: Step, ask: Ask): Figure<'%'> {
  const where = ask.yields && Object.hasOwn(ask.yields, step.id) ? 'this plan' : (step.yieldSource ?? 'the step');
  const prior = entered(`yield of ${step.title}`, likeliest(yieldEntered(step, ask)), '%', where);
  const runs = learnedRuns(step, ask);
  if (runs.length === 0) return prior;
  const seen = runs.map((one) => entered(`yield of run ${one.run}`, one.percent, '%', 'its record', RUN_DIGITS));
  const how = 'as often more as less: Student-t on the logit, from the runs and the entered yield as one more';
  return computed(prior.label, 100 * medianOf(learnedFrom(prior.value, runs)), '%', how, [...seen, prior]);
}

const RUN_DIGITS = 4;

/** The runs that count for a step's yield in this plan; none where it is not learned, or counted in a later step. */
export function learnedRuns(step: Step, ask: Ask): readonly LearnedRun[] {
  const runs = ask.learned && Object.hasOwn(ask.learned, step.id) ? ask.learned[step.id] : undefined;
  return step.yieldCountedIn === undefined ? (runs ?? []).filter((one) => one.weight > 0) : [];
}

/** What a step's yield may come to: learned from its runs, else as entered. */
export function yieldDistribution(step: Step, ask: Ask): YieldDistribution {
  const range = yieldEntered(step, ask);
  const runs = learnedRuns(step, ask);
  return runs.length === 0 ? distributionOf(range) : learnedFrom(likeliest(range), runs);
}

/** The predictive of some runs. @param prior the entered likeliest yield, %. */
export function learnedFrom(prior: number, runs: readonly Pick<LearnedRun, 'percent' | 'weight'>[]): LearnedYield {
  return yieldFromRuns(
    prior / 100,
    runs.map((one) => one.percent / 100),
    runs.map((one) => one.weight),
  );
}

/** A step's yield as entered, %: frozen with the ask, else the route's. */
export function yieldEntered(step: Step, ask: Ask): StepYield {
  const frozen = ask.yields && Object.hasOwn(ask.yields, step.id) ? ask.yields[step.id] : undefined;
  return frozen ?? step.yieldPercent;
}
