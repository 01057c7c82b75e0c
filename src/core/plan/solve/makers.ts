import type { Network } from '../network/network.ts';
import type { Settled, Settling } from './settle.ts';
import type { Costs } from './step-cost.ts';

/**
 * Which makers may run where something is charged or stays behind once a batch. Such amounts come with a batch, however
 * little it makes, so that least cost per mole is not least cost: for a tiny draw the dearer material may be the cheaper
 * way. What a way really costs is known once its batches are; what it costs without anything per batch is never more:
 *
 *     all may run ──▶ A and B run, cost 12, never below 9
 *         ├─ A may not ──▶ C and B run, cost 10, never below 9.5      cheapest so far
 *         │      └─ …
 *         └─ B may not ──▶ never below 11: not looked into further
 */

/** Ways that are worked out at most; beyond, the best of them is taken. Far more than a route of a laboratory asks for. */
const MOST_WAYS = 200;

/** Steps that may not run; with the least a way without them can cost, and what it does cost. */
export interface Way {
  readonly closed: ReadonlySet<number>;
  readonly settled: Settled;
}

export interface Ways {
  readonly network: Network;
  readonly costs: Costs;
  /** The plan with some steps that may not run. */
  readonly settle: (closed: ReadonlySet<number>) => Settling;
  /** Starts without anything per batch, for what a way costs at least; null where it cannot be had. */
  readonly without: (closed: ReadonlySet<number>) => readonly number[] | null;
}

/** @returns the cheapest way, with the first of equals; or why not even all makers together do. */
export function cheapestWay(ways: Ways): { readonly ok: true; readonly way: Way } | Extract<Settling, { readonly ok: false }> {
  const all = new Set<number>();
  const first = ways.settle(all);
  if (!first.ok) return first;
  const makers = new Set([...ways.network.makersOf.values()].flatMap((list) => (list.length > 1 ? list : [])));
  let best: Way = { closed: all, settled: first.settled };
  let cost = costOf(ways.costs, first.settled);
  const seen = new Set<string>(['']);
  const open: Way[] = [best];
  for (let way = open.shift(); way && seen.size < MOST_WAYS; way = open.shift()) {
    for (const maker of makers) {
      if (!((way.settled.starts[maker] ?? 0) > 0)) continue;
      const closed = new Set([...way.closed, maker].sort((a, b) => a - b));
      const key = [...closed].join();
      if (seen.has(key)) continue;
      seen.add(key);
      const least = ways.without(closed);
      if (!least || !cheaper(costOf(ways.costs, { starts: least, batches: [], nothing: null }), cost)) continue;
      const settling = ways.settle(closed);
      if (!settling.ok) continue;
      const next = { closed, settled: settling.settled };
      open.push(next);
      const nextCost = costOf(ways.costs, next.settled);
      if (cheaper(nextCost, cost)) [best, cost] = [next, nextCost];
    }
  }
  return { ok: true, way: best };
}

/** What a way costs that gives nothing: more than any that does. */
const NEVER = Number.MAX_VALUE;

/** What starts and their batches cost, most important first. */
export function costOf({ perMole, perBatch }: Costs, { starts, batches, nothing }: Settled): readonly number[] {
  const levels = perMole[0]?.length ?? 0;
  if (nothing) return Array.from({ length: levels }, () => NEVER);
  return Array.from({ length: levels }, (_, level) =>
    starts.reduce(
      (sum, start, i) => sum + start * (perMole[i]?.[level] ?? 0) + (batches[i] ?? 0) * (perBatch[i]?.[level] ?? 0),
      0,
    ),
  );
}

/** Costs that differ by less than this part are equal. */
const EQUAL = 1e-12;

function cheaper(one: readonly number[], other: readonly number[]): boolean {
  for (const [level, cost] of one.entries()) {
    const than = other[level] ?? 0;
    if (Math.abs(cost - than) > EQUAL * Math.max(Math.abs(cost), Math.abs(than))) return cost < than;
  }
  return false;
}
