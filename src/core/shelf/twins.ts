import { grouped } from '../grouped.ts';
import type { Bottle, Shelf } from './shelf.ts';

/**
 * Bottles of a file that read exactly alike but for their label: perhaps two bottles of one delivery, perhaps one that
 * was written down twice. Groups of labels, in the file's order.
 */
export function twinBottles(shelf: Shelf): readonly (readonly string[])[] {
  const groups = grouped(shelf.bottles, likeness);
  return [...groups.values()].filter((group) => group.length > 1).map((group) => group.map((bottle) => bottle.id));
}

function likeness({ id: _label, ledger: _movements, ...rest }: Bottle): string {
  return JSON.stringify(sorted(rest));
}

/** The order of fields in a file says nothing. */
function sorted(value: unknown): unknown {
  if (value === null || typeof value !== 'object') return value;
  return Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, inner]) => [name, sorted(inner)]);
}
