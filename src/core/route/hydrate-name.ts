import { findMaterials } from '../matter/find-material.ts';
import { foldForSearch, foldSpellings } from '../matter/fold-name.ts';
import type { Material } from '../matter/material.ts';
import type { Reference } from '../reference.ts';
import { fromTable } from './edit-materials.ts';

/** "TBAF·3H2O", "sodium acetate·3H2O", "CuSO4, 5H2O": a name or formula, and the water that comes with it. */
const WITH_WATER = /^(\S.*?)\s*[·•⋅∙*.,]\s*(\d+(?:\.\d+)?)?\s*H2O$/i;

/**
 * The hydrate that a name with its water means: the built-in table's row of that formula, else a material of one's own
 * with it, so that its moles count the water.
 * @returns null where the text names no water, or the name before it is none of the table.
 */
export function hydrateNamed(text: string, reference: Reference): Material | null {
  const parts = WITH_WATER.exec(text.trim());
  const name = parts?.[1] ?? '';
  const dry = parts ? exactly(name, reference) : null;
  if (!dry || dry.formula.includes('·')) return null;
  const water = Number(parts?.[2] ?? 1);
  const formula = `${dry.formula}·${water === 1 ? '' : water}H2O`;
  const row = findMaterials(formula, reference).find((found) => found.row.formula === formula)?.row;
  return row ? fromTable(row) : { name: text.trim(), formula, state: 'solid' };
}

/** The row of the table that is called so, has this formula or this synonym. */
function exactly(name: string, reference: Reference) {
  const folded = (one: string): string => foldSpellings(foldForSearch(one));
  const found = findMaterials(name, reference).find(
    ({ row, synonym }) => [row.name, synonym ?? ''].some((one) => folded(one) === folded(name)) || row.formula === name,
  );
  return found && !found.nearly ? found.row : null;
}
