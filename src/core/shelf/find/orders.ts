import type { ShelfColumns } from './columns.ts';
import { orderKey } from './search-text.ts';

export const SORTS = ['name', 'place', 'useBy', 'left'] as const;
export type Sort = (typeof SORTS)[number];

interface Kept {
  readonly version: number;
  readonly order: Int32Array;
}

const kept = new WeakMap<ShelfColumns, Partial<Record<Sort, Kept>>>();

/**
 * Positions of all bottles in an order, upward; equals stand as they were entered, and what has no date comes last. Worked
 * out again only when what it goes by has changed.
 */
export function orderBy(columns: ShelfColumns, sort: Sort): Int32Array {
  const orders = kept.get(columns) ?? {};
  kept.set(columns, orders);
  const version = columns.versions[sort];
  const known = orders[sort];
  if (known?.version === version && known.order.length === columns.row.length) return known.order;
  const order = sorted(RANKS[sort](columns));
  orders[sort] = { version, order };
  return order;
}

/** What each position is ordered by: whole numbers, small enough that one and a position fit into a double. */
const RANKS: Readonly<Record<Sort, (columns: ShelfColumns) => ArrayLike<number>>> = {
  name: ({ holdings, material }) => ranked(material, ranksOf(holdings.map((one) => one.order))),
  place: ({ places, place }) => ranked(place, ranksOf(places.texts.map(orderKey))),
  useBy: ({ useBy }) => ranked(useBy, null),
  left: ({ left }) => numberRanks(left),
};

/** Days may lie before 1970. */
const EARLIEST = 1e6;

function ranked(column: readonly number[], ranks: readonly number[] | null): Float64Array {
  const made = new Float64Array(column.length);
  for (let at = 0; at < column.length; at += 1) {
    const value = column[at] ?? 0;
    made[at] = ranks === null ? value + EARLIEST : (ranks[value] ?? 0);
  }
  return made;
}

/** The place of each text among all of them; equal texts have one. */
function ranksOf(texts: readonly string[]): readonly number[] {
  const different = [...new Set(texts)].sort((a, b) => (a < b ? -1 : 1));
  const ranks = new Map(different.map((text, rank) => [text, rank]));
  return texts.map((text) => ranks.get(text) ?? 0);
}

/** The place of each amount among all of them; equal amounts have one. */
function numberRanks(amounts: readonly number[]): Float64Array {
  const inOrder = Float64Array.from(amounts).sort();
  const made = new Float64Array(amounts.length);
  for (let at = 0; at < amounts.length; at += 1) made[at] = firstPlace(inOrder, amounts[at] ?? 0);
  return made;
}

/** Where an amount first stands among those in order. */
function firstPlace(inOrder: Float64Array, amount: number): number {
  let low = 0;
  let high = inOrder.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((inOrder[middle] ?? 0) < amount) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Positions by rank, then by position. Numbers alone are sorted, which takes a few milliseconds for a hundred thousand. */
function sorted(ranks: ArrayLike<number>): Int32Array {
  const count = ranks.length;
  const keys = new Float64Array(count);
  for (let at = 0; at < count; at += 1) keys[at] = (ranks[at] ?? 0) * count + at;
  keys.sort();
  const order = new Int32Array(count);
  for (let at = 0; at < count; at += 1) order[at] = (keys[at] ?? 0) % count;
  return order;
}
