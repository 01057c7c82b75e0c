import type { Facts } from '../matter/facts.ts';
import type { Ask } from '../plan/ask.ts';
import type { PlanInput } from '../plan/input.ts';
import type { Network } from '../plan/network/network.ts';
import type { Stock, Want } from '../plan/solve/needs.ts';
import type { StartPlan } from '../plan/result.ts';
import { startSteps, type Starting, type Starts, yieldDistribution } from '../plan/solve/starts.ts';
import { computed, EXACT, entered, type Figure } from '../quantity/figure.ts';
import type { Notice } from '../words/notice.ts';
import { LEAST_MULTIPLIER, leastMultiplier, MOST_MULTIPLIER } from './least-multiplier.ts';
import { type PlanOutcomes, planOutcomes } from './outcomes.ts';
import { chanceOfAtLeast, outcomeAt, valueAt } from './sorted-outcomes.ts';
import { type Uncertainty, uncertaintyOf } from './uncertainty.ts';
import type { YieldDistribution } from './yield-distribution.ts';

/** A solved plan at the likeliest yields, from which larger and smaller starts are reckoned. */
export interface Situation {
  readonly input: PlanInput;
  readonly network: Network;
  readonly facts: ReadonlyMap<string, Facts>;
  readonly wants: readonly Want[];
  readonly stock: readonly Stock[];
  readonly base: Starts;
}

/** What each step's yield may come to, in the order of the network. */
export function distributionsOf(network: Network, ask: Ask): readonly YieldDistribution[] {
  return network.steps.map((step) => yieldDistribution(step, ask));
}

/** True where some step that runs has a yield that is not taken as certain. */
export function isOpen({ base, network, input }: Situation): boolean {
  return distributionsOf(network, input.ask).some((one, i) => one.kind !== 'certain' && base.steps[i]?.active === true);
}

/**
 * What is asked, times a multiplier, as far as it has to be made: stock that serves a draw serves it already. Without
 * stock this is one multiplier on all starts.
 */
export function wantsAt(situation: Situation, multiplier: Figure<''>): readonly Want[] {
  return situation.wants.map((want, d): Want => {
    const served = situation.base.handovers
      .filter((one) => one.from.kind === 'stock' && one.to.kind === 'draw' && one.to.draw === d)
      .reduce((sum, one) => sum + one.moles, 0);
    const value = served + multiplier.value * Math.max(0, want.moles.value - served);
    const moles = computed(want.moles.label, value, 'mol', 'wanted, what has to be made of it times the chosen start', [
      want.moles,
      multiplier,
    ]);
    return { ...want, moles };
  });
}

/** The plan at a multiplier of the likeliest start, solved anew. */
export function startsAt(situation: Situation, multiplier: Figure<''>): Starting {
  if (multiplier.value === 1) return { ok: true, starts: situation.base };
  const { input, network, facts, stock } = situation;
  return startSteps(input, network, facts, wantsAt(situation, multiplier), stock);
}

/** How a plan may come out, measured on what was asked. */
export function outcomesOf({ network, stock, wants }: Situation, starts: Starts, uncertainty: Uncertainty): PlanOutcomes {
  return planOutcomes({ network, starts, stock, wants, uncertainty });
}

/** Chance of enough, as a function of the multiplier, and its inverse. */
export interface Chances {
  /** 0 … 1; never falls as the multiplier rises. */
  readonly of: (multiplier: number) => number;
  /** The least multiplier with this chance (0 … 1); null where even MOST_MULTIPLIER has less. */
  readonly multiplierFor: (chance: number) => number | null;
  /** Every start grows in proportion to the multiplier. */
  readonly proportional: boolean;
}

/**
 * Chances of a plan at any start. Where nothing is on the shelf and nothing is charged or lost once a batch, every outcome
 * grows with the start: one reckoning serves all. Else each start is solved anew.
 */
export function chancesOf(situation: Situation, uncertainty: Uncertainty): Chances {
  const { network, stock } = situation;
  const proportional = !isPerBatch(network) && stock.every((one) => one.moles.value === 0);
  return proportional ? proportionalChances(situation, uncertainty) : solvedChances(situation, uncertainty);
}

/** Whether something is charged or lost once a batch, so that what a plan starts depends on its batches. */
function isPerBatch(network: Network): boolean {
  return network.fixed.some((fixed) => fixed.size > 0) || network.lost.some((moles) => moles > 0);
}

/** The plan at a multiplier as far as its outcomes need it. */
function trialAt(situation: Situation, multiplier: number): Starting {
  const { input, network, facts, stock, base } = situation;
  if (multiplier === 1) return { ok: true, starts: base };
  const wants = wantsAt(situation, entered('start', multiplier, '', 'trial'));
  return startSteps(input, network, facts, wants, stock, true);
}

function proportionalChances(situation: Situation, uncertainty: Uncertainty): Chances {
  const sorted = outcomesOf(situation, situation.base, uncertainty).least.sort();
  return {
    of: (multiplier) => chanceOfAtLeast(sorted, 1 / multiplier),
    multiplierFor: (chance) => {
      const multiplier = 1 / outcomeAt(sorted, 1 - chance);
      return multiplier <= MOST_MULTIPLIER ? Math.max(LEAST_MULTIPLIER, multiplier) : null;
    },
    proportional: true,
  };
}

/** The plan meets its draws exactly at the planned yields: what is short by rounding is not short. */
const ENOUGH = 1 - 1e-9;

function solvedChances(situation: Situation, uncertainty: Uncertainty): Chances {
  const known = new Map<number, Float64Array>();
  const leastAt = (multiplier: number): Float64Array => {
    const before = known.get(multiplier);
    if (before) return before;
    const started = trialAt(situation, multiplier);
    const least = started.ok ? outcomesOf(situation, started.starts, uncertainty).least : new Float64Array(1);
    known.set(multiplier, least);
    return least;
  };
  const of = (multiplier: number): number => {
    const least = leastAt(multiplier);
    return least.reduce((count, value) => (value >= ENOUGH ? count + 1 : count), 0) / Math.max(1, least.length);
  };
  // The outcome that all those of this chance and no more are as large as.
  const enough = (chance: number, multiplier: number): number => {
    const least = leastAt(multiplier);
    return valueAt(least, Math.max(0, least.length - Math.max(1, Math.ceil(chance * least.length)))) / ENOUGH;
  };
  return { of, multiplierFor: (chance) => leastMultiplier((multiplier) => enough(chance, multiplier)), proportional: false };
}

export type ChosenStart =
  | { readonly ok: true; readonly starts: Starts; readonly start: StartPlan; readonly notices: readonly Notice[] }
  | { readonly ok: false; readonly notice: Notice };

/** The start the person chose, and the plan at it; the plan at the likeliest yields where the choice cannot be had. */
export function chooseStart(situation: Situation): ChosenStart {
  const choice = situation.input.ask.start;
  const likeliest = {
    kind: 'likeliest',
    chancePercent: null,
    multiplier: entered('start', 1, '', 'the likeliest yields'),
  } as const;
  const keep = (notices: readonly Notice[]): ChosenStart => ({ ok: true, starts: situation.base, start: likeliest, notices });
  if (!choice) return keep([]);
  if ('multiplier' in choice) {
    const multiplier = entered('aimed at, times what has to be made', choice.multiplier, '', 'the chosen start');
    return atMultiplier(situation, { kind: 'multiplier', chancePercent: null, multiplier });
  }
  const { chancePercent } = choice;
  if (!isOpen(situation)) return keep([startNotice('certain start', chancePercent)]);
  const uncertainty = uncertaintyOf(distributionsOf(situation.network, situation.input.ask));
  const found = chancesOf(situation, uncertainty).multiplierFor(chancePercent / 100);
  if (found === null) return keep([startNotice('no such start', chancePercent)]);
  const multiplier = computed(
    'aimed at, times what has to be made',
    found,
    '',
    'the least start with the chosen chance of enough',
    [entered('chance of enough', chancePercent, '%', 'the chosen start', EXACT)],
  );
  return atMultiplier(situation, { kind: 'chance', chancePercent, multiplier });
}

function atMultiplier(situation: Situation, start: StartPlan): ChosenStart {
  const started = startsAt(situation, start.multiplier);
  return started.ok ? { ...started, start, notices: [] } : started;
}

function startNotice(code: string, percent: number): Notice {
  return { level: code === 'no such start' ? 'caution' : 'note', code, values: { percent }, at: {} };
}
