import type { Facts } from '../../matter/facts.ts';
import { type LearnedYield, medianOf, yieldFromRuns } from '../../confidence/from-runs.ts';
import { distributionOf, type YieldDistribution } from '../../confidence/yield-distribution.ts';
import { computed, type Figure, entered } from '../../quantity/figure.ts';
import type { Step, StepYield } from '../../route/route.ts';
import type { Notice } from '../../words/notice.ts';
import type { Ask, LearnedRun } from '../ask.ts';
import { type BatchCount, batchCount, type RunIn, runsOf } from '../batches/batches.ts';
import type { PlanInput } from '../input.ts';
import type { Network } from '../network/network.ts';
import type { Solved } from './choose-starts.ts';
import type { RequirementInput, Stock, Want } from './needs.ts';
import { cheapestWay, type Ways } from './makers.ts';
import { hasChoice, likeliest, type Requirement, requirementsAt, solved } from './requirements.ts';
import type { Choice } from '../result.ts';
import { settle } from './settle.ts';
import { type Costs, costsOf } from './step-cost.ts';
import { choicesOf } from './choices.ts';
import { type Handover, shareOut } from './share-out.ts';

export interface Starts {
  /** By step, in the order of the file. */
  readonly steps: readonly Requirement[];
  readonly yields: readonly Figure<'%'>[];
  /** Each step gone through with what it starts, in any number of batches. */
  readonly runs: readonly RunIn[];
  readonly counts: readonly BatchCount[];
  readonly handovers: readonly Handover[];
  /** Where a material has several makers: which run, and what each would cost. */
  readonly choices: readonly Choice[];
}

export type Starting = { readonly ok: true; readonly starts: Starts } | { readonly ok: false; readonly notice: Notice };

/**
 * The starts of every step, with its batches; where a material has several makers, of all ways to make it the one at the
 * least cost, what is charged and lost once a batch counted:
 *
 *     draws, stock, yields ──▶ starts ──▶ batches ──▶ starts and batches that agree ──▶ the cheapest way of them
 *                                ▲           │              (settle.ts)                      (makers.ts)
 *                                └───────────┘
 *                      what a batch charges and loses
 *
 * Of these the figures are made (requirements.ts), what is made and on the shelf is handed out (share-out.ts), and every
 * step is gone through with what it starts (batches.ts).
 * @param trial only what its outcomes need is worked out: batches that change nothing are not counted, choices not told.
 */
export function startSteps(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  wants: readonly Want[],
  stock: readonly Stock[],
  trial = false,
): Starting {
  const yields = network.steps.map((step) => yieldFigure(step, input.ask));
  const costs = hasChoice(network) ? costsOf(input, network, facts) : NO_CHOICE;
  const asked = { network, facts, yields, wants, stock, costs: costs.perMole };
  const perBatch = network.steps.map((_, i) => changesByBatch(network, costs, i));
  const ways = waysOf(input, asked, costs, perBatch);
  const found = perBatch.includes(true) && hasChoice(network) ? cheapestWay(ways) : onlyWay(ways);
  if (!found.ok) return found;
  const { closed, settled } = found.way;
  if (settled.nothing) return { ok: false, notice: settled.nothing };
  // Batches that change nothing are not settled, and not asked for here.
  const steps = requirementsAt({ ...asked, closed, batches: settled.batches }, settled.starts);
  const handovers = shareOut(network, steps, wants, stock, settled.batches);
  const whole = network.steps.map((step, i) => {
    const { basisMoles } = steps[i] as Requirement;
    return { step, facts, reference: input.reference, basisMoles };
  });
  const runs = whole.map(runsOf);
  const counts = whole.map((one, i): BatchCount => {
    const atLeast = Math.max(1, settled.batches[i] ?? 1);
    if (trial) return { count: atLeast, why: 'one is enough', reason: '', tooFull: false };
    return batchCount(one, runs[i] as RunIn, input.settings, atLeast, input.ask.batches?.[one.step.id]);
  });
  const choices = trial
    ? []
    : choicesOf(network, settled.starts, costs, (of) => settle(input, { ...asked, network: of }, perBatch));
  return { ok: true, starts: { steps, yields, runs, counts, handovers, choices } };
}

const NONE: ReadonlySet<number> = new Set();
const NO_CHOICE: Costs = { by: 'mass', perMole: [], perBatch: [] };

/** Whether a batch more of a step charges, loses or costs something. */
function changesByBatch(network: Network, costs: Costs, i: number): boolean {
  const charged = (network.fixed[i]?.size ?? 0) > 0 || (network.lost[i] ?? 0) > 0;
  return charged || (costs.perBatch[i] ?? []).some((cost) => cost > 0);
}

/** The ways to run the steps of a network; what each comes to without anything per batch is worked out once. */
function waysOf(input: PlanInput, asked: Omit<RequirementInput, 'batches'>, costs: Costs, perBatch: readonly boolean[]): Ways {
  const none = perBatch.map(() => 0);
  const known = new Map<ReadonlySet<number>, Solved>();
  const without = (closed: ReadonlySet<number>): Solved => {
    const found = known.get(closed) ?? solved({ ...asked, closed, batches: none });
    known.set(closed, found);
    return found;
  };
  return {
    network: asked.network,
    costs,
    settle: (closed) => settle(input, { ...asked, closed }, perBatch, without(closed)),
    without: (closed) => {
      const found = without(closed);
      return found.ok ? found.starts : null;
    },
  };
}

function onlyWay({ settle: settleWith }: Ways): ReturnType<typeof cheapestWay> {
  const found = settleWith(NONE);
  return found.ok ? { ok: true, way: { closed: NONE, settled: found.settled } } : found;
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
