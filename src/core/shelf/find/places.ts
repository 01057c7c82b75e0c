import type { ShelfColumns } from './columns.ts';
import { orderKey } from './search-text.ts';

/** Every place that a bottle stands in with how many do, in the order people count them; empty where none is written. */
export function placesOf({ place, places }: ShelfColumns): readonly { readonly place: string; readonly bottles: number }[] {
  const counts = new Array<number>(places.texts.length).fill(0);
  for (const number of place) counts[number] = (counts[number] ?? 0) + 1;
  return places.texts
    .map((text, number) => ({ place: text, bottles: counts[number] ?? 0, order: orderKey(text) }))
    .filter((one) => one.bottles > 0)
    .sort((a, b) => (a.order < b.order ? -1 : 1))
    .map(({ order: _order, ...one }) => one);
}
