import type { Reference } from '../reference.ts';
import { tidyCas } from './cas.ts';
import { foldName } from './facts.ts';
import { fittingMaterials } from './find-material.ts';

/** What a typed text may mean among materials: their CAS numbers, and every name they go by, folded for comparing. */
export interface Meant {
  readonly cas: readonly string[];
  readonly names: readonly string[];
}

const SHORTEST = 2;

/**
 * The materials a typed name, synonym, formula (in any order) or CAS number (with hyphens or not) means in the built-in
 * table; a CAS number that the table does not know stands for itself. Nothing that is only nearly spelled so.
 */
export function meantMaterials(typed: string, reference: Reference): Meant {
  if (typed.trim().length < SHORTEST) return { cas: [], names: [] };
  const rows = fittingMaterials(typed, reference);
  const known = new Set(rows.map((row) => row.cas));
  const others = reference.rows.synonyms.filter((one) => known.has(one.cas)).map((one) => one.synonym);
  const names = [...new Set([...rows.map((row) => row.name), ...others].map(foldName))];
  const own = tidyCas(typed);
  return { cas: /^\d{2,7}-\d{2}-\d$/.test(own) ? [...new Set([...known, own])] : [...known], names };
}
