import { shortestFor } from '../../heat/addition-time.ts';
import { type HeatInput, heatPerBasis } from '../../heat/reaction-heat.ts';
import { computed, type Figure, entered } from '../../quantity/figure.ts';
import type { BatchPlan } from '../result.ts';
import type { Step } from '../../route/route.ts';
import { basisMass, plainRule, runStep, type StepInput, type StepRun } from '../step/run-step.ts';
import type { Settings } from '../settings.ts';
import { type Fullest, fullestStage, stirs } from './vessels.ts';

/**
 * How many batches a step is done in:
 *
 *     n = the smallest that keeps every batch inside   the person's own limit   contained basis ≤ limit
 *                                                      cooling                  heat ≤ cooling power × longest addition
 *                                                      fill                     every stage ≤ two thirds (one half) of the
 *                                                                               largest vessel
 *
 * Batches are equal. A number chosen by hand is taken as it is, and what it breaks is said. What is stirred should reach
 * one fifth of its vessel: where it does not, that is said with the number that would do, and no work is doubled unasked.
 */

/** More batches than this are not proposed: the person is told to choose another vessel. */
export const MOST_BATCHES = 1000;
/** So many more batches are tried to find a vessel that is neither too full nor too empty. */
const MOST_TRIES = 5;

export interface BatchCount {
  readonly count: number;
  readonly why: BatchPlan['why'];
  readonly reason: string;
  /** True where even the most batches do not fit the largest vessel. */
  readonly tooFull: boolean;
}

type Unbatched = Omit<StepInput, 'batches'>;

/** A step gone through in a number of batches. */
export type RunIn = (batches: number) => StepRun;

/** Goes through a step in each number of batches once; where nothing is charged once a batch, all come to the same. */
export function runsOf(input: Unbatched): RunIn {
  const counts = input.step.operations.some((one) => one.do === 'charge' && plainRule(one).kind === 'per batch');
  const known = new Map<number, StepRun>();
  return (batches) => {
    const counted = counts ? batches : 1;
    const run = known.get(counted) ?? runStep({ ...input, batches: counted });
    known.set(counted, run);
    return run;
  };
}

/**
 * The smallest number of equal batches that keeps each inside every limit.
 * @param atLeast batches only grow while starts are solved; @param byHand the number the person chose.
 */
export function batchCount(input: Unbatched, run: RunIn, settings: Settings, atLeast: number, byHand?: number): BatchCount {
  const fullest = (batches: number): Fullest => fullestStage(input.step, run(batches), batches, settings);
  if (byHand !== undefined) return { count: byHand, why: 'by hand', reason: '', tooFull: fullest(byHand).need > 1 + 1e-9 };
  const { batchLimit } = input.step;
  const byLimit = batchLimit ? whole((basisMass(input)?.value ?? 0) / batchLimit.grams) : 1;
  const byCooling = whole(coolingNeed(input, input.basisMoles, settings) ?? 0);
  let count = Math.min(Math.max(1, byLimit, byCooling, atLeast), MOST_BATCHES);
  let need = fullest(count).need;
  while (need > 1 + 1e-9 && count < MOST_BATCHES) {
    count = Math.min(MOST_BATCHES, Math.max(count + 1, whole(count * need)));
    need = fullest(count).need;
  }
  const tooFull = need > 1 + 1e-9;
  if (count === 1) return { count, why: 'one is enough', reason: '', tooFull };
  if (batchLimit && count <= byLimit) return { count, why: 'own limit', reason: batchLimit.reason, tooFull };
  if (count <= byCooling) return { count, why: 'cooling', reason: '', tooFull };
  return { count, why: 'vessel', reason: fullest(count).vessel.name, tooFull };
}

/** How far batches use what limits them: at most 1 where they fit; and which limit it is. */
export interface LimitUsed {
  readonly need: number;
  readonly why: 'own limit' | 'cooling' | 'vessel';
  readonly reason: string;
}

/** The limit that a number of equal batches goes furthest beyond, or comes nearest to. */
export function limitUsed(input: Unbatched, run: RunIn, settings: Settings, batches: number): LimitUsed {
  const { need, vessel } = fullestStage(input.step, run(batches), batches, settings);
  const { batchLimit } = input.step;
  const own = batchLimit ? (basisMass(input)?.value ?? 0) / batchLimit.grams / batches : 0;
  const cooling = (coolingNeed(input, input.basisMoles, settings) ?? 0) / batches;
  if (own >= Math.max(need, cooling)) return { need: own, why: 'own limit', reason: batchLimit?.reason ?? '' };
  return cooling >= need ? { need: cooling, why: 'cooling', reason: '' } : { need, why: 'vessel', reason: vessel.name };
}

/**
 * The smallest number of batches from `count` on that find a vessel they can be stirred in; null where none is near. A
 * smaller batch may fit a smaller vessel that it fills better.
 */
export function stirrableCount(step: Step, run: RunIn, count: number, settings: Settings): number | null {
  for (let more = count; more <= Math.min(count + MOST_TRIES, MOST_BATCHES); more += 1) {
    if (stirs(step, run(more), more, settings)) return more;
  }
  return null;
}

/**
 * Batches the cooling asks for, not rounded: heat of the step over what the bath takes away during the longest
 * addition; null where the heat, the time or the cooling power is not known. A screening figure. Source: energy balance.
 */
export function coolingNeed(of: HeatInput, basisMoles: Figure<'mol'>, settings: Settings): number | null {
  const longest = of.step.heat?.longestMinutes;
  const shortest = longest === undefined ? null : shortestAddition(of, basisMoles, settings);
  return longest === undefined || !shortest ? null : shortest.value / longest;
}

/** Heat that one batch gives off, kJ; null where it is not known, which is never none. */
export function batchHeat(of: HeatInput, basisMoles: Figure<'mol'>): Figure<'kJ'> | null {
  if (!of.step.heat) return null;
  const per = heatPerBasis(of);
  if (!per.ok) return null;
  const how = 'heat per mol of basis × moles of basis; a screening figure';
  return computed('heat given off, one batch', per.figure.value * basisMoles.value, 'kJ', how, [per.figure, basisMoles]);
}

/** Shortest addition of one batch that the bath keeps up with, min; null where heat or cooling power is not known. */
export function shortestAddition(of: HeatInput, basisMoles: Figure<'mol'>, settings: Settings): Figure<'min'> | null {
  const heat = settings.coolingWatts === undefined ? null : batchHeat(of, basisMoles);
  if (!heat || settings.coolingWatts === undefined || heat.value <= 0) return null;
  return shortestFor(heat, entered('cooling power', settings.coolingWatts, 'W', 'the laboratory’s list'));
}

function whole(need: number): number {
  return Math.ceil(need - 1e-9);
}
