import type { Reference } from '../reference.ts';
import { remember } from '../remember.ts';
import { type Facts, factsOf } from './facts.ts';
import type { Material } from './material.ts';
import { materialNamed } from './named.ts';

/** A hydrate as its anhydrous substance and the water that comes with it. */
export interface Hydrate {
  readonly anhydrous: Facts;
  /** mol of water per mol. */
  readonly water: number;
}

const WATER_PART = /^\s*(\d+(?:\.\d+)?)?\s*H2O\s*$/;

/**
 * The anhydrous substance of a hydrate, from its formula ("CuSO4·5H2O"); the built-in table's row where the name
 * without its last word is there with that formula. Null where the formula names no water of crystallisation.
 */
export const hydrateOf: (facts: Facts, reference: Reference) => Hydrate | null = remember((facts, reference) => {
  const parts = (facts.formula ?? '').split(/[·*•⋅∙]/);
  const water = WATER_PART.exec((parts.at(-1) ?? '').replaceAll(/[₀-₉]/g, (sign) => String('₀₁₂₃₄₅₆₇₈₉'.indexOf(sign))));
  const formula = parts.slice(0, -1).join('·').trim();
  if (!water || formula === '') return null;
  return { anhydrous: factsOf(anhydrous(facts, formula, reference), reference), water: Number(water[1] ?? 1) };
});

function anhydrous(facts: Facts, formula: string, reference: Reference): Material {
  const name = facts.name.replace(/\s+\S*hydrate$/i, '');
  const row = materialNamed(name, reference);
  if (row?.formula === formula) return { name: row.name, formula: row.formula, cas: row.cas };
  return { name: name === facts.name ? `${name}, anhydrous` : name, formula, state: 'solid' };
}
