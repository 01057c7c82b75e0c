import { type Figure, sourced } from '../quantity/figure.ts';
import { azeotropeKey, type Reference } from '../reference.ts';
import type { Facts } from './facts.ts';

/** What boils first of several liquids. */
export interface BoilsFirst {
  /** Its name, or both names of two liquids that boil together lower than either. */
  readonly name: string;
  readonly celsius: Figure<'°C'>;
}

/** Boiling points of the built-in table are good to about a degree. */
const DIGITS = 3;

/**
 * The lowest boiling point among liquids at 1 atm, °C: of each alone, and of each pair that the table of azeotropes has.
 * Null where none is known. Three or more boiling together, and pairs that the table has not, can lie lower.
 */
export function boilsFirst(liquids: readonly Facts[], reference: Reference): BoilsFirst | null {
  const alone = liquids.flatMap(({ name, boilingPoint }): readonly BoilsFirst[] =>
    boilingPoint === null
      ? []
      : [{ name, celsius: sourced(`boiling point of ${name}`, boilingPoint, '°C', 'built-in table, at 1 atm', DIGITS) }],
  );
  const pairs = liquids.flatMap((one, at) => liquids.slice(at + 1).flatMap((other) => together(one, other, reference) ?? []));
  return [...alone, ...pairs].toSorted((a, b) => a.celsius.value - b.celsius.value)[0] ?? null;
}

function together(one: Facts, other: Facts, reference: Reference): BoilsFirst | null {
  if (one.cas === null || other.cas === null) return null;
  const row = reference.azeotrope.get(azeotropeKey(one.cas, other.cas));
  if (!row) return null;
  const name = `${one.name} with ${other.name}`;
  const label = `boiling point of ${name}, together`;
  return { name, celsius: sourced(label, row.celsius, '°C', `${row.source}, at 1 atm`, DIGITS, row.mark ?? undefined) };
}
