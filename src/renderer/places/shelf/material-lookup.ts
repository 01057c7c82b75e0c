import { foldName } from '../../../core/matter/facts.ts';
import type { MaterialRow, Reference } from '../../../core/reference.ts';

export interface Found {
  readonly row: MaterialRow;
  /** The other name that was typed, where it was not the table's own. */
  readonly synonym: string;
}

const MOST = 8;
const SUBSCRIPTS = '₀₁₂₃₄₅₆₇₈₉';

/** Formulas are typed with plain digits and shown with small ones. */
function plainFormula(formula: string): string {
  return formula.replace(/[₀-₉]/g, (sign) => String(SUBSCRIPTS.indexOf(sign))).replace(/[·*.•⋅∙\s]/g, '');
}

/**
 * Materials of the built-in table that a typed name, formula or CAS number may mean, the likeliest first: what it is
 * exactly, what begins with it, what holds it.
 */
export function findMaterials(typed: string, reference: Reference): readonly Found[] {
  const name = foldName(typed);
  if (name === '') return [];
  const formula = plainFormula(typed.trim());
  const best = new Map<string, { readonly found: Found; readonly rank: number }>();
  const offer = (row: MaterialRow, rank: number | null, synonym = ''): void => {
    if (rank === null) return;
    const known = best.get(row.cas);
    if (!known || rank < known.rank) best.set(row.cas, { found: { row, synonym }, rank });
  };
  for (const row of reference.rows.materials) {
    offer(row, nameRank(foldName(row.name), name));
    if (row.cas.startsWith(typed.trim())) offer(row, row.cas === typed.trim() ? 0 : 2);
    if (formula !== '' && plainFormula(row.formula) === formula) offer(row, 1);
  }
  for (const { cas, synonym } of reference.rows.synonyms) {
    const row = reference.material.get(cas);
    if (row) offer(row, nameRank(foldName(synonym), name), synonym);
  }
  return [...best.values()]
    .sort((a, b) => a.rank - b.rank || a.found.row.name.length - b.found.row.name.length)
    .slice(0, MOST)
    .map((one) => one.found);
}

function nameRank(name: string, typed: string): number | null {
  if (name === typed) return 0;
  if (name.startsWith(typed)) return 3;
  return typed.length > 2 && name.includes(typed) ? 5 : null;
}
