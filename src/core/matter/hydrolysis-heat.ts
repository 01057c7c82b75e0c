import { computed, type Figure, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { hydrolysisOf } from './acidity.ts';
import type { Facts } from './facts.ts';

const DIGITS = 3;

/**
 * Heat a material gives off with water at 25 °C, kJ per mol, with all acid that it frees staying in the water: what leaves
 * as a gas takes heat along, so that this is the larger figure.
 * @returns why not, where the table has no such material. Source: resources/tables/hydrolysis-heats.csv.
 */
export function hydrolysisHeat(facts: Facts, reference: Reference): Maybe<'kJ/mol'> {
  const cas = facts.cas ?? reference.rows.hydrolysis.find((row) => row.formula !== null && row.formula === facts.formula)?.cas;
  const row = cas === undefined ? undefined : reference.hydrolysisHeat.get(cas);
  if (!row) return unknown('no heat of hydrolysis', { material: facts.name });
  return known(sourced(`heat of hydrolysis of ${facts.name}: ${row.equation}`, row.heat, 'kJ/mol', row.source, DIGITS));
}

/**
 * Heat of hydrolysis of amounts of materials, kJ; null where there are none.
 * @returns why not, where one of the heats is not known.
 */
export function heatOfHydrolysis(
  all: readonly { readonly facts: Facts; readonly moles: Figure<'mol'> }[],
  reference: Reference,
): Maybe<'kJ'> | null {
  const of: Figure[] = [];
  let value = 0;
  for (const { facts, moles } of all) {
    if (moles.value === 0 || !hydrolysisOf(facts, reference).some((row) => row.meets === 'water')) continue;
    const heat = hydrolysisHeat(facts, reference);
    if (!heat.ok) return heat;
    value += moles.value * heat.figure.value;
    of.push(moles, heat.figure);
  }
  return of.length === 0 ? null : known(computed('heat of hydrolysis', value, 'kJ', 'moles × heat of hydrolysis', of));
}
