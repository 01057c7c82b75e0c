import type { Facts } from '../../matter/facts.ts';
import type { Reference } from '../../reference.ts';
import { type Demand, inUnit } from '../../shelf/demand.ts';
import { serviceOf } from '../../shelf/serve.ts';
import { partFromShelf, returnsOf } from '../../shelf/recycled.ts';
import type { Bottle } from '../../shelf/shelf.ts';
import { assayPercent, byExpiry, whyNotUsable } from '../../shelf/usable.ts';
import { entered } from '../../quantity/figure.ts';
import type { PlanInput } from '../input.ts';
import type { Network } from '../network/network.ts';
import { runStep } from '../step/run-step.ts';
import { demandsOf } from '../stock/supply.ts';

/** What the shelf has of a bought material, and what each step takes of it; all in the unit of one of its bottles. */
export interface BoughtLimit {
  readonly material: string;
  readonly unit: 'g' | 'mL';
  /** What usable bottles hold, at the form of the first of them. */
  readonly onHand: number;
  /** By step: per mol of its basis, the most an end point may take; what comes back is not taken off (see `perMoleIn`). */
  readonly perMole: readonly number[];
  /** By step: once in every batch. */
  readonly perBatch: readonly number[];
  /** By step: part of what a batch charges that comes back and goes into the next, 0 … 1. */
  readonly returns: readonly number[];
}

/** By step: what is taken of the shelf per mol of its basis, done in so many batches one after the other. */
export function perMoleIn({ perMole, returns }: BoughtLimit, batches: readonly number[]): readonly number[] {
  return perMole.map((amount, i) => amount * partFromShelf({ returns: returns[i] ?? 0, batches: batches[i] ?? 1 }));
}

/** What is taken of the shelf once a batch, over all batches of all steps. */
export function fixedIn({ perBatch, returns }: BoughtLimit, batches: readonly number[]): number {
  return perBatch.reduce((sum, amount, i) => {
    const count = batches[i] ?? 0;
    return sum + amount * count * partFromShelf({ returns: returns[i] ?? 0, batches: count });
  }, 0);
}

const ONE_MOLE = entered('one mole of basis', 1, 'mol', 'the step');
const NONE = entered('no basis', 0, 'mol', 'the step');

/**
 * Bought materials of a network that stand on the shelf in a form that serves or can be thinned, with what the steps
 * take of them. Lots of other strength count for as much of the first as they can stand for.
 */
export function boughtLimits(
  input: PlanInput,
  network: Network,
  facts: ReadonlyMap<string, Facts>,
  bottles: ReadonlyMap<string, readonly Bottle[]>,
): readonly BoughtLimit[] {
  const demands = (basisMoles: typeof NONE, batches: 0 | 1): readonly (readonly Demand[])[] =>
    network.steps.map((step, i) =>
      demandsOf(
        network,
        i,
        runStep({ step, facts, reference: input.reference, basisMoles, batches }).charges,
        facts,
        1,
        input.reference,
      ),
    );
  const each = demands(ONE_MOLE, 0);
  const once = demands(NONE, 1);
  const materials = new Set([...each, ...once].flat().map((demand) => demand.material));
  return [...materials].flatMap((material): readonly BoughtLimit[] => {
    const of = (list: readonly Demand[]): readonly Demand[] => list.filter((demand) => demand.material === material);
    const all = [...each, ...once].flatMap(of).filter((demand) => demand.governed.figure.value > 0);
    const first = all[0];
    if (!first) return [];
    const usable = usableBottles(input, all, bottles.get(material) ?? []);
    const stands = usable[0];
    if (!stands) return [];
    const { form, unit } = stands;
    const taken = (list: readonly Demand[]): number =>
      of(list).reduce((sum, demand) => sum + (inUnit(demand, form, unit, input.reference) ?? 0) * demand.atMost, 0);
    return [
      {
        material,
        unit,
        onHand: usable.reduce((sum, bottle) => sum + standsFor(bottle, stands, first, input.reference), 0),
        perMole: each.map(taken),
        perBatch: once.map(taken),
        returns: network.steps.map((step) => returnsOf(step, material)),
      },
    ];
  });
}

function usableBottles(input: PlanInput, demands: readonly Demand[], bottles: readonly Bottle[]): readonly Bottle[] {
  const heldBack = new Set(input.ask.holdBack ?? []);
  const serves = (bottle: Bottle): boolean =>
    demands.some(
      (demand) =>
        serviceOf(bottle, demand.form, demand.facts, input.settings.strengthMatchPercent, input.reference) !== 'no' &&
        (bottle.form.kind !== 'neat' || assayPercent(bottle) >= demand.leastAssayPercent),
    );
  return [...bottles].sort(byExpiry).filter((bottle) => whyNotUsable(bottle, input.asOf, heldBack) === null && serves(bottle));
}

/** How much of another bottle this one is as good as, in that bottle's unit. */
function standsFor(bottle: Bottle, other: Bottle, demand: Demand, reference: Reference): number {
  const own = inUnit(demand, bottle.form, bottle.unit, reference);
  const its = inUnit(demand, other.form, other.unit, reference);
  return own === null || its === null || own === 0 ? 0 : (bottle.left * its) / own;
}
