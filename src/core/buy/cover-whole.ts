/** A pack in whole numbers: millionths of the unit, ten-thousandths of money. */
export interface WholePack {
  readonly amount: number;
  readonly price: number;
  readonly minimum: number;
}

/** Ways looked at before it is given up; about a tenth of a second. */
const MOST_WAYS = 400_000;

/**
 * So many of the pack that gives most for its money that the best of all covers holds them for certain. Of any other
 * pack, as many as together hold what a whole number of these holds can be exchanged for them without costing more, and
 * for no more packs where it costs the same; so no best cover needs more of another than
 *
 *     its minimum + (amount of these ÷ common measure of both) − 1
 *
 * @param need whole, > 0. @returns which pack, and how many of it are certain; null where it is none.
 */
export function certainOf(need: number, packs: readonly WholePack[]): { readonly at: number; readonly count: number } | null {
  const at = packs.reduce((best, _, nth) => (moreFor(packs[nth], packs[best]) ? nth : best), 0);
  const best = packs[at];
  if (!best) return null;
  const others = packs.reduce((sum, pack, nth) => {
    const most = best.amount / greatestCommon(best.amount, pack.amount) - 1 + pack.minimum;
    return nth === at ? sum : sum + most * pack.amount;
  }, 0);
  const count = Math.floor((need - others) / best.amount);
  return count > best.minimum ? { at, count } : null;
}

/** Whether a pack gives more for its money, or as much in a larger pack. */
function moreFor(one: WholePack | undefined, other: WholePack | undefined): boolean {
  if (!one || !other) return false;
  const by = one.price * other.amount - other.price * one.amount;
  return by === 0 ? one.amount > other.amount : by < 0;
}

/** The largest number that divides both. @param one whole, ≥ 0. @param other whole, ≥ 0. */
export function greatestCommon(one: number, other: number): number {
  let [a, b] = [one, other];
  while (b > 0) [a, b] = [b, a % b];
  return a;
}

type Worth = readonly [cost: number, quantity: number, packs: number];

/**
 * The best cover by branch and bound, for packs without a common measure: what gives most for its money first, most of
 * it first; a branch is left as soon as even at the best price of what is still to come it would cost more.
 * @returns how many of each pack, or null where too many ways would have to be looked at.
 */
export function branchedCover(need: number, packs: readonly WholePack[]): readonly number[] | null {
  const order = packs
    .map((_, at) => at)
    .sort((a, b) => (moreFor(packs[a], packs[b]) ? -1 : moreFor(packs[b], packs[a]) ? 1 : a - b));
  const sorted = order.map((at) => packs[at] as WholePack);
  const largest = sorted.map((_, at) => Math.max(...sorted.slice(at).map((one) => one.amount)));
  const counts = sorted.map(() => 0);
  let best: { readonly worth: Worth; readonly counts: readonly number[] } | null = null;
  let ways = 0;
  const search = (at: number, worth: Worth): void => {
    const open = need - worth[1];
    if (open <= 0) {
      if (!best || compare(worth, best.worth) < 0) best = { worth, counts: [...counts] };
      return;
    }
    const pack = sorted[at];
    if (!pack) return;
    for (let count = Math.max(pack.minimum, Math.ceil(open / pack.amount)); count >= 0; count -= 1) {
      if (count > 0 && count < pack.minimum) count = 0;
      ways += 1;
      if (ways > MOST_WAYS) return;
      const [cost, quantity, number] = worth;
      const next: Worth = [cost + count * pack.price, quantity + count * pack.amount, number + count];
      const after = sorted[at + 1];
      const rest = Math.max(0, need - next[1]);
      if (rest > 0 && !after) break;
      const least: Worth =
        rest > 0 && after
          ? [
              next[0] + Math.ceil(((rest * after.price) / after.amount) * (1 - 1e-12) - 1e-9),
              need,
              next[2] + Math.ceil(rest / (largest[at + 1] ?? 1)),
            ]
          : next;
      // Fewer of this one only make it dearer.
      if (best && least[0] > best.worth[0] && rest > 0) break;
      if (best && compare(least, best.worth) >= 0) continue;
      counts[at] = count;
      search(at + 1, next);
    }
    counts[at] = 0;
  };
  search(0, [0, 0, 0]);
  const found = best as { readonly worth: Worth; readonly counts: readonly number[] } | null;
  if (ways > MOST_WAYS || !found) return null;
  return earliestOf(found.worth, packs) ?? packs.map((_, at) => found.counts[order.indexOf(at)] ?? 0);
}

/**
 * Of all covers worth exactly so much, the one with the fewest of the last pack of the list, then of the one before it, and
 * so on: the earlier pack where all else is equal. Null where too many ways would have to be looked at.
 */
function earliestOf(worth: Worth, packs: readonly WholePack[]): readonly number[] | null {
  const reach = packs.map((_, at) => reachOf(packs.slice(0, at + 1)));
  const counts = packs.map(() => 0);
  let ways = 0;
  const search = (at: number, [cost, quantity, number]: Worth): boolean => {
    const [pack, within] = [packs[at], reach[at]];
    if (!pack || !within) return cost === 0 && quantity === 0 && number === 0;
    ways += 1;
    if (ways > MOST_WAYS || !within(quantity, number, 'amount') || !within(cost, number, 'price')) return false;
    for (let count = 0; count <= number; count = Math.max(count + 1, pack.minimum)) {
      const left: Worth = [cost - count * pack.price, quantity - count * pack.amount, number - count];
      if (left[0] < 0 || left[1] < 0) return false;
      counts[at] = count;
      if (search(at - 1, left)) return true;
      if (ways > MOST_WAYS) return false;
    }
    return false;
  };
  return search(packs.length - 1, worth) ? counts : null;
}

/** Whether so many packs of some kinds can come to a sum at all: between as many of the least and of the most. */
function reachOf(packs: readonly WholePack[]): (sum: number, number: number, of: 'amount' | 'price') => boolean {
  const span = (of: 'amount' | 'price'): readonly [number, number] => {
    const all = packs.map((pack) => pack[of]);
    return [Math.min(...all), Math.max(...all)];
  };
  const spans = { amount: span('amount'), price: span('price') };
  return (sum, number, of) => sum >= number * spans[of][0] && sum <= number * spans[of][1];
}

function compare(one: Worth, other: Worth): number {
  return one[0] - other[0] || one[1] - other[1] || one[2] - other[2];
}
