import type { Reference } from '../reference.ts';
import { type Demand, inUnit } from './demand.ts';
import type { Bottle } from './shelf.ts';

/** What is still in each bottle while a plan is being covered; by bottle id, in the bottle's unit. */
export type Remaining = Map<string, number>;

/** What one charge takes from one bottle. */
export interface Share {
  readonly operation: string;
  readonly step: string;
  readonly bottle: Bottle;
  readonly amount: number;
}

export interface Allocation {
  readonly shares: readonly Share[];
  /** Part of each demand not covered, 0 … 1, in the order of the demands. */
  readonly missing: readonly number[];
}

/** A remainder below this part of a demand is rounding, not a shortage. */
const NOTHING = 1e-9;

/**
 * Covers demands from bottles: one lot if one suffices, else bottle after bottle in the order given. Takes what it
 * uses out of `remaining`.
 */
export function allocate(
  demands: readonly Demand[],
  bottles: readonly Bottle[],
  remaining: Remaining,
  reference: Reference,
): Allocation {
  const whole = bottles.find((bottle) => coverage(demands, bottle, remaining, reference) >= 1 - NOTHING);
  const order = whole ? [whole] : bottles;
  const shares: Share[] = [];
  const missing = demands.map((demand) => {
    // A charge that comes to nothing misses nothing: solvent to a concentration that the pot already has.
    if (demand.governed.figure.value === 0) return 0;
    let open = 1;
    for (const bottle of order) {
      if (open <= NOTHING) break;
      const needed = inUnit(demand, bottle.form, bottle.unit, reference);
      const left = remaining.get(bottle.id) ?? 0;
      if (needed === null || needed <= 0 || left <= 0) continue;
      const amount = Math.min(left, needed * open);
      remaining.set(bottle.id, left - amount);
      shares.push({ operation: demand.operation, step: demand.step, bottle, amount });
      open -= amount / needed;
    }
    return open <= NOTHING ? 0 : open;
  });
  return { shares, missing };
}

/** What part of all demands together a bottle could cover, 0 … ; 0 where it cannot be converted. */
export function coverage(demands: readonly Demand[], bottle: Bottle, remaining: Remaining, reference: Reference): number {
  let needed = 0;
  for (const demand of demands) {
    const one = inUnit(demand, bottle.form, bottle.unit, reference);
    if (one === null) return 0;
    needed += one;
  }
  if (needed <= 0) return 1;
  return (remaining.get(bottle.id) ?? 0) / needed;
}
