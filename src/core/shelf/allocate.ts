import type { Reference } from '../reference.ts';
import { type Demand, fromBottle } from './demand.ts';
import { partFromShelf } from './recycled.ts';
import type { Bottle } from './shelf.ts';

/** What is still in each bottle while a plan is being covered; by bottle id, in the bottle's unit. */
export type Remaining = Map<string, number>;

/** What one charge takes from one bottle. */
export interface Share {
  readonly operation: string;
  readonly step: string;
  readonly bottle: Bottle;
  readonly amount: number;
  /** What of it goes in: less than that where it goes in as a stock solution. */
  readonly goesIn: number;
}

export interface Allocation {
  readonly shares: readonly Share[];
  /** Part of each demand not covered, 0 … what of it must come from the shelf, in the order of the demands. */
  readonly missing: readonly number[];
}

/** A remainder below this part of a demand is rounding, not a shortage. */
const NOTHING = 1e-9;

/**
 * Covers demands from bottles: those chosen by hand first; for the rest one lot if one suffices, else bottle after
 * bottle in the order given. Takes what it uses out of `remaining`. What comes back of one batch for the next is not
 * taken again.
 * @param useFirst ids of bottles chosen by hand: emptied before any other, in the order given.
 */
export function allocate(
  demands: readonly Demand[],
  bottles: readonly Bottle[],
  remaining: Remaining,
  reference: Reference,
  useFirst: ReadonlySet<string> = NO_BOTTLE,
): Allocation {
  // A charge that comes to nothing misses nothing: solvent to a concentration that the pot already has.
  const open = demands.map((demand) => (demand.governed.figure.value === 0 ? 0 : partFromShelf(demand)));
  const shares: Share[] = [];
  const chosen = bottles.filter((bottle) => useFirst.has(bottle.id));
  const others = bottles.filter((bottle) => !useFirst.has(bottle.id));
  take(demands, open, chosen, remaining, reference, shares);
  const parts = demands.map((demand, at) => ({ demand, part: open[at] ?? 0 }));
  const whole = others.find((bottle) => coverageOf(parts, bottle, remaining, reference) >= 1 - NOTHING);
  take(demands, open, whole ? [whole] : others, remaining, reference, shares);
  return { shares, missing: open.map((one) => (one <= NOTHING ? 0 : one)) };
}

const NO_BOTTLE: ReadonlySet<string> = new Set();

/** Takes from bottle after bottle what is still open of each demand. */
function take(
  demands: readonly Demand[],
  open: number[],
  bottles: readonly Bottle[],
  remaining: Remaining,
  reference: Reference,
  shares: Share[],
): void {
  demands.forEach((demand, at) => {
    for (const bottle of bottles) {
      const part = open[at] ?? 0;
      if (part <= NOTHING) break;
      const needed = fromBottle(demand, bottle.form, bottle.unit, reference);
      const left = remaining.get(bottle.id) ?? 0;
      if (needed === null || needed <= 0 || left <= 0) continue;
      const amount = Math.min(left, needed * part);
      remaining.set(bottle.id, left - amount);
      shares.push({ operation: demand.operation, step: demand.step, bottle, amount, goesIn: amount / demand.taken(bottle.form) });
      open[at] = part - amount / needed;
    }
  });
}

/** What part of all that demands together take from the shelf a bottle could cover, 0 … ; 0 where it cannot be converted. */
export function coverage(demands: readonly Demand[], bottle: Bottle, remaining: Remaining, reference: Reference): number {
  return coverageOf(
    demands.map((demand) => ({ demand, part: partFromShelf(demand) })),
    bottle,
    remaining,
    reference,
  );
}

function coverageOf(
  parts: readonly { readonly demand: Demand; readonly part: number }[],
  bottle: Bottle,
  remaining: Remaining,
  reference: Reference,
): number {
  let needed = 0;
  for (const { demand, part } of parts) {
    const one = fromBottle(demand, bottle.form, bottle.unit, reference);
    if (one === null) return 0;
    needed += one * part;
  }
  if (needed <= 0) return 1;
  return (remaining.get(bottle.id) ?? 0) / needed;
}
