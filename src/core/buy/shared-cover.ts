import type { Cover, CoverPack } from './cover.ts';

/** A pack that several needs could have, each told by its place. */
export interface SharedPack extends CoverPack {
  readonly serves: readonly number[];
}

/** Ways looked at before it is given up; some tenths of a second. */
const MOST_WAYS = 300_000;
/** More needs than these are covered apart: their subsets are gone through. */
const MOST_NEEDS = 4;
const FINE = 1e6;
const MONEY = 1e4;

type Worth = readonly [cost: number, quantity: number, packs: number];

/** What a set of needs asks for together, and the packs that could go to any of them. */
interface Joint {
  readonly need: number;
  readonly reaches: readonly boolean[];
  /** One need alone. */
  readonly single: boolean;
}

interface Whole {
  readonly amount: number;
  readonly price: number;
  readonly minimum: number;
}

/**
 * The packs that cover several needs of one material together at least cost, exactly, where one pack may be shared out among
 * those it serves; ties as `leastCover` has them. What a pack holds goes round just if of every set of needs
 *
 *     Σ packs that serve any of them  ≥  Σ these needs
 *
 * (Gale's theorem for supplies and demands; checked against every way to share tried), so the sets stand for the sharing. By
 * branch and bound.
 * @param needs in one unit, > 0, four at most. @param packs with a price all, or none of them; amounts in that unit, > 0.
 * @returns null where a need is served by none, or where too many ways would have to be looked at.
 */
export function sharedCover(needs: readonly number[], packs: readonly SharedPack[]): Cover | null {
  if (needs.length > MOST_NEEDS || needs.some((_, at) => !packs.some(({ serves }) => serves.includes(at)))) return null;
  const priced = packs.every(({ price }) => price !== null);
  const order = packs.map((_, at) => at).sort((a, b) => byValue(packs[a], packs[b]) || a - b);
  const sorted = order.flatMap((at) => packs[at] ?? []);
  const whole = sorted.map(({ amount, price, minimum = 1 }) => ({
    amount: Math.round(amount * FINE),
    price: Math.round((priced ? (price ?? 0) : 0) * MONEY),
    minimum,
  }));
  const found = branched(whole, jointsOf(needs, sorted));
  if (!found) return null;
  const counts = packs.map((_, at) => found[order.indexOf(at)] ?? 0);
  return coverOf(needs, packs, counts, priced);
}

function byValue(one: CoverPack | undefined, other: CoverPack | undefined): number {
  if (!one || !other) return 0;
  return (one.price ?? 0) * other.amount - (other.price ?? 0) * one.amount || other.amount - one.amount;
}

/** Every set of needs, with what it asks for in millionths and the packs that could go to any of it. */
export function jointsOf(needs: readonly number[], packs: readonly SharedPack[]): readonly Joint[] {
  const sets = Array.from({ length: 2 ** needs.length - 1 }, (_, at) => at + 1);
  return sets.map((set) => {
    const has = (at: number): boolean => Math.floor(set / 2 ** at) % 2 === 1;
    return {
      need: needs.reduce((sum, need, at) => sum + (has(at) ? Math.ceil(need * FINE - 1e-3) : 0), 0),
      reaches: packs.map(({ serves }) => serves.some(has)),
      single: needs.filter((_, at) => has(at)).length === 1,
    };
  });
}

/** How many of each pack, the best of all ways. */
function branched(packs: readonly Whole[], joints: readonly Joint[]): readonly number[] | null {
  const least = packs.map((_, at) => leastFrom(packs, joints, at));
  const counts = packs.map(() => 0);
  let best: { readonly worth: Worth; readonly counts: readonly number[] } | null = null;
  let ways = 0;
  const search = (at: number, worth: Worth, open: readonly number[]): void => {
    if (open.every((one) => one <= 0)) {
      if (!best || compare(worth, best.worth) < 0) best = { worth, counts: [...counts] };
      return;
    }
    const [pack, bound] = [packs[at], least[at]];
    if (!pack || !bound) return;
    const limit = bound(open);
    if (limit === null || (best && compare(sum(worth, limit), best.worth) >= 0)) return;
    const most = joints.reduce((max, { reaches }, nth) => (reaches[at] ? Math.max(max, open[nth] ?? 0) : max), 0);
    for (let count = most > 0 ? Math.max(pack.minimum, Math.ceil(most / pack.amount)) : 0; count >= 0; count -= 1) {
      if (count > 0 && count < pack.minimum) count = 0;
      ways += 1;
      if (ways > MOST_WAYS) return;
      counts[at] = count;
      const taken = count * pack.amount;
      const after = open.map((one, nth) => (joints[nth]?.reaches[at] ? one - taken : one));
      search(at + 1, sum(worth, [count * pack.price, taken, count]), after);
    }
    counts[at] = 0;
  };
  search(
    0,
    [0, 0, 0],
    joints.map(({ need }) => need),
  );
  return ways > MOST_WAYS ? null : ((best as { readonly counts: readonly number[] } | null)?.counts ?? null);
}

/** What is still open costs, holds and counts at least so much with the packs from one on; null where they cannot cover it. */
export function leastFrom(
  packs: readonly Pick<Whole, 'amount' | 'price'>[],
  joints: readonly Joint[],
  from: number,
): (open: readonly number[]) => Worth | null {
  const rates = joints.map(({ reaches }) => {
    const those = packs.filter((_, at) => at >= from && reaches[at]);
    return {
      cheapest: Math.min(...those.map(({ price, amount }) => price / amount)),
      largest: Math.max(...those.map(({ amount }) => amount)),
    };
  });
  return (open) => {
    let [cost, quantity, count] = [0, 0, 0];
    for (const [at, one] of open.entries()) {
      if (one <= 0) continue;
      const { cheapest = Infinity, largest = 0 } = rates[at] ?? {};
      if (cheapest === Infinity) return null;
      cost = Math.max(cost, Math.ceil(one * cheapest * (1 - 1e-12) - 1e-6));
      quantity = Math.max(quantity, one);
      count = Math.max(count, Math.ceil(one / largest));
    }
    return [cost, quantity, count];
  };
}

function sum([a, b, c]: Worth, [d, e, f]: Worth): Worth {
  return [a + d, b + e, c + f];
}

function compare(one: Worth, other: Worth): number {
  return one[0] - other[0] || one[1] - other[1] || one[2] - other[2];
}

/** What so many of each pack come to. */
export function coverOf(
  needs: readonly number[],
  packs: readonly CoverPack[],
  counts: readonly number[],
  priced: boolean,
): Cover {
  const total = (of: (pack: CoverPack) => number): number =>
    packs.reduce((all, pack, at) => all + (counts[at] ?? 0) * of(pack), 0);
  const quantity = Math.round(total(({ amount }) => amount) * FINE) / FINE;
  const need = needs.reduce((all, one) => all + one, 0);
  return {
    counts,
    cost: priced ? Math.round(total(({ price }) => price ?? 0) * MONEY) / MONEY : null,
    quantity,
    leftOver: Math.max(0, Math.round((quantity - need) * FINE) / FINE),
    packs: total(() => 1),
  };
}
