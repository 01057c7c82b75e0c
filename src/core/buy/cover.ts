import { branchedCover, certainOf, greatestCommon, type WholePack } from './cover-whole.ts';

/** A pack as the cover sees it. */
export interface CoverPack {
  /** In the unit of the need, > 0. */
  readonly amount: number;
  /** Money for one; null where it is not known. */
  readonly price: number | null;
  /** So many at least, if any; 1 where it is not given. */
  readonly minimum?: number;
}

/** What to buy. */
export interface Cover {
  /** How many of each pack, in the order given. */
  readonly counts: readonly number[];
  /** Money; null where packs go without prices. */
  readonly cost: number | null;
  readonly quantity: number;
  readonly leftOver: number;
  readonly packs: number;
}

/** Prices are compared in ten-thousandths, so that sums of cents are exact. */
const MONEY = 1e4;
/** Amounts are compared in millionths of the unit (µg of a g, nL of a mL): the store keeps no finer. */
const FINE = 1e6;
/** Amounts up to here, in steps of what divides every pack, are tried; 8 packs of it take about 0.3 s. */
const MOST_STATES = 4_000_000;

/** So many are quicker tried than searched another way. */
const QUICK_STATES = 200_000;

/** Rises in the order choices are judged by: money, then quantity, then number of packs. */
interface Best {
  readonly cost: Float64Array;
  readonly quantity: Float64Array;
  readonly packs: Float64Array;
}

/**
 * The packs that cover a need at least cost, exactly; among equals the least quantity, then the fewest packs (without
 * prices: the least quantity, so the least left over, then the fewest packs), then the fewest of the last pack
 * of the list, of the one before it, and so on.
 *
 *     least[q] = least of  0 packs:      least without this pack, of q
 *                          k ≥ minimum:  k·price + least without this pack, of q − k·amount      (at most 0: nothing more)
 *
 * pack after pack, over all q from 0 to the need in steps of the largest amount that divides every pack; of a large need,
 * what is certainly bought of the pack that gives most for its money is taken off first. Packs without a coarse common
 * measure (other assays, by volume) are searched by branch and bound; there the order of the list decides among equals as far as
 * 400,000 ways tell.
 * @param need in the unit of the packs, ≥ 0; nothing is bought for 0. @param packs with a price all, or none of them.
 * @returns null where there are no packs, or where both ways would take too long: then nothing is said to be the least.
 * @throws RangeError where an amount, a minimum or a price is out of its range, or only some packs have a price.
 */
export function leastCover(need: number, packs: readonly CoverPack[]): Cover | null {
  check(need, packs);
  const priced = packs.every((pack) => pack.price !== null);
  const whole = Math.ceil(need * FINE - 1e-3);
  if (whole <= 0)
    return coverOf(
      need,
      packs,
      packs.map(() => 0),
      priced,
    );
  const amounts = packs.map((pack) => Math.round(pack.amount * FINE));
  if (packs.length === 0) return null;
  const counts =
    stepped(whole, packs, amounts, QUICK_STATES) ??
    branchedCover(whole, wholePacks(packs, amounts)) ??
    stepped(whole, packs, amounts, MOST_STATES);
  return counts && coverOf(need, packs, counts, priced);
}

function wholePacks(packs: readonly CoverPack[], amounts: readonly number[]): readonly WholePack[] {
  return packs.map(({ price, minimum = 1 }, at) => ({
    amount: amounts[at] ?? 0,
    price: Math.round((price ?? 0) * MONEY),
    minimum,
  }));
}

/** Over all amounts in steps of the common measure; null where that would be more than so many. */
function stepped(whole: number, packs: readonly CoverPack[], amounts: readonly number[], most: number): readonly number[] | null {
  const certain = certainOf(whole, wholePacks(packs, amounts));
  const bought = certain ? certain.count * (amounts[certain.at] ?? 0) : 0;
  // What is certainly bought has its minimum behind it.
  const open = packs.map((pack, at) => (at === certain?.at ? { ...pack, minimum: 1 } : pack));
  const measure = amounts.reduce(greatestCommon, 0);
  const goal = Math.ceil((whole - bought) / measure);
  if ((goal + 1) * packs.length > most) return null;
  let best: Best = emptyBest(goal);
  const taken: Int32Array[] = [];
  open.forEach((pack, at) => {
    const counts = new Int32Array(goal + 1);
    best = withPack(best, pack, Math.round((amounts[at] ?? 0) / measure), counts);
    taken.push(counts);
  });
  const counts = countsFrom(taken, amounts, measure, goal);
  return counts.map((count, at) => (at === certain?.at ? count + certain.count : count));
}

function check(need: number, packs: readonly CoverPack[]): void {
  if (!(need >= 0 && need <= 1e9)) throw new RangeError(`leastCover needs an amount from 0 to 1e9 (got ${need})`);
  const known = packs.filter((pack) => pack.price !== null).length;
  if (known !== 0 && known !== packs.length) throw new RangeError(`leastCover needs every price or none (got ${known})`);
  for (const { amount, price, minimum = 1 } of packs) {
    if (!(amount >= 1 / FINE && amount <= 1e9)) throw new RangeError(`leastCover needs a pack above 0 (got ${amount})`);
    if (price !== null && !(price >= 0 && price <= 1e9)) throw new RangeError(`leastCover needs a price from 0 (got ${price})`);
    if (!Number.isInteger(minimum) || minimum < 1) throw new RangeError(`leastCover needs a minimum from 1 (got ${minimum})`);
  }
}

function emptyBest(goal: number): Best {
  const none = (): Float64Array => new Float64Array(goal + 1).fill(Infinity);
  const best = { cost: none(), quantity: none(), packs: none() };
  best.cost[0] = best.quantity[0] = best.packs[0] = 0;
  return best;
}

/** The best with one more kind of pack; writes how many of it each amount takes. */
function withPack(before: Best, { price, minimum = 1 }: CoverPack, amount: number, counts: Int32Array): Best {
  const money = Math.round((price ?? 0) * MONEY);
  const goal = counts.length - 1;
  // With this pack bought at least `minimum` times.
  const bought = emptyBest(goal);
  bought.cost[0] = Infinity;
  const times = new Int32Array(goal + 1);
  const after: Best = { cost: before.cost.slice(), quantity: before.quantity.slice(), packs: before.packs.slice() };
  for (let q = 1; q <= goal; q += 1) {
    put(bought, q, before, Math.max(0, q - minimum * amount), [money * minimum, amount * minimum, minimum]);
    times[q] = minimum;
    const one = Math.max(0, q - amount);
    if (one > 0 && better(bought, one, [money, amount, 1], bought, q)) {
      put(bought, q, bought, one, [money, amount, 1]);
      times[q] = (times[one] ?? 0) + 1;
    }
    if (better(bought, q, [0, 0, 0], after, q)) {
      put(after, q, bought, q, [0, 0, 0]);
      counts[q] = times[q] ?? 0;
    }
  }
  return after;
}

type More = readonly [cost: number, quantity: number, packs: number];

function put(to: Best, at: number, from: Best, of: number, [cost, quantity, packs]: More): void {
  to.cost[at] = (from.cost[of] ?? Infinity) + cost;
  to.quantity[at] = (from.quantity[of] ?? Infinity) + quantity;
  to.packs[at] = (from.packs[of] ?? Infinity) + packs;
}

function better(one: Best, at: number, [cost, quantity, packs]: More, other: Best, of: number): boolean {
  const byCost = (one.cost[at] ?? Infinity) + cost - (other.cost[of] ?? Infinity);
  if (byCost !== 0 && !Number.isNaN(byCost)) return byCost < 0;
  const byQuantity = (one.quantity[at] ?? Infinity) + quantity - (other.quantity[of] ?? Infinity);
  if (byQuantity !== 0 && !Number.isNaN(byQuantity)) return byQuantity < 0;
  return (one.packs[at] ?? Infinity) + packs < (other.packs[of] ?? Infinity);
}

/** Back from the need, last pack first. */
function countsFrom(taken: readonly Int32Array[], amounts: readonly number[], measure: number, goal: number): readonly number[] {
  const counts = taken.map(() => 0);
  let q = goal;
  for (let at = taken.length - 1; at >= 0; at -= 1) {
    const count = taken[at]?.[q] ?? 0;
    counts[at] = count;
    q = Math.max(0, q - count * Math.round((amounts[at] ?? 0) / measure));
  }
  return counts;
}

function coverOf(need: number, packs: readonly CoverPack[], counts: readonly number[], priced: boolean): Cover {
  const sum = (of: (pack: CoverPack) => number): number =>
    packs.reduce((total, pack, at) => total + (counts[at] ?? 0) * of(pack), 0);
  const quantity = Math.round(sum((pack) => pack.amount) * FINE) / FINE;
  return {
    counts,
    cost: priced ? Math.round(sum((pack) => pack.price ?? 0) * MONEY) / MONEY : null,
    quantity,
    leftOver: Math.max(0, Math.round((quantity - need) * FINE) / FINE),
    packs: sum(() => 1),
  };
}
