import { findMaterials } from '../matter/find-material.ts';
import { foldForSearch, foldSpellings } from '../matter/fold-name.ts';
import type { Material } from '../matter/material.ts';
import type { Reference } from '../reference.ts';
import type { MaterialRow } from '../reference-rows.ts';
import { fromTable } from './edit-materials.ts';

/** "TBAF·3H2O", "sodium acetate·3H2O", "CuSO4, 5H2O": a name or formula, and the water that comes with it. */
const WITH_WATER = /^(\S.*?)\s*[·•⋅∙*.,]\s*(\d+(?:\.\d+)?)?\s*H2O$/i;

const COUNTS = ['mono', 'di', 'tri', 'tetra', 'penta', 'hexa', 'hepta', 'octa', 'nona', 'deca', 'undeca', 'dodeca'];
/** "zinc acetate dihydrate", "calcium sulfate hemihydrate": the water in a word. */
const IN_WORDS = new RegExp(String.raw`^(\S.*?)[\s,-]+(hemi|sesqui|${COUNTS.join('|')})[\s-]?hydrate$`, 'i');

function waterIn(text: string): { readonly name: string; readonly water: number } | null {
  const parts = WITH_WATER.exec(text);
  if (parts) return { name: parts[1] ?? '', water: Number(parts[2] ?? 1) };
  const words = IN_WORDS.exec(text);
  const count = words?.[2]?.toLowerCase() ?? '';
  const half = count === 'hemi' ? 0.5 : count === 'sesqui' ? 1.5 : null;
  return words ? { name: words[1] ?? '', water: half ?? COUNTS.indexOf(count) + 1 } : null;
}

/**
 * The hydrate that a name with its water means: the built-in table's row of that formula, else a material of one's own
 * with it, so that its moles count the water.
 * @returns null where the text names no water, or the name before it is none of the table.
 */
export function hydrateNamed(text: string, reference: Reference): Material | null {
  const said = waterIn(text.trim());
  const plain = said ? plainFormula(said.name, reference) : null;
  if (!said || plain === null) return null;
  const { water } = said;
  const formula = `${plain}·${water === 1 ? '' : water}H2O`;
  const row = findMaterials(formula, reference).find((found) => found.row.formula === formula)?.row;
  return row ? fromTable(row) : { name: text.trim(), formula, state: 'solid' };
}

const HYDRATED = String.raw`hydrated|hydrate|crystalli[sz]ed|crystalline|cryst\.?|crystals`;
const HYDRATED_BEFORE = new RegExp(String.raw`^(${HYDRATED})\s+(?=\S)`, 'i');
const HYDRATED_BEHIND = new RegExp(String.raw`[\s,]+\(?(${HYDRATED})\)?$`, 'i');

export interface SaidHydrates {
  /** Of the table, the one with most water first: that is how it crystallises. */
  readonly rows: readonly MaterialRow[];
  readonly said: string;
}

/**
 * The hydrates that "copper sulphate (hydrated)", "crystallised sodium acetate" may mean: how much water it holds is not
 * said, so all of the table are offered. Null where the text says nothing of water, or the table knows no hydrate of it.
 */
export function hydratesSaid(text: string, reference: Reference): SaidHydrates | null {
  const found = HYDRATED_BEFORE.exec(text.trim()) ?? HYDRATED_BEHIND.exec(text.trim());
  const said = found?.[1]?.toLowerCase();
  if (!found || said === undefined) return null;
  const name = text.trim().replace(found[0], '');
  const plain = plainFormula(name, reference);
  const rows = reference.rows.materials.filter(
    (row) => plain !== null && row.formula !== plain && withoutWater(row.formula) === plain,
  );
  const waterOf = (row: MaterialRow): number => Number(WATER_OF_IT.exec(row.formula)?.[1] || 1);
  return rows.length === 0 ? null : { rows: rows.toSorted((a, b) => waterOf(b) - waterOf(a)), said };
}

const WATER_OF_IT = /·(\d*)H2O$/;
const withoutWater = (formula: string): string => formula.replace(WATER_OF_IT, '');

/** The formula without water of what the table calls so, or knows a hydrate of; null where it knows neither. */
function plainFormula(name: string, reference: Reference): string | null {
  const row = exactly(name, reference) ?? hydratesCalled(name, reference)[0];
  return row ? withoutWater(row.formula) : null;
}

/** The hydrates of the table whose name, or another of their names, is this one and how much water it has. */
function hydratesCalled(name: string, reference: Reference): readonly MaterialRow[] {
  const begins = withoutValence(name);
  const isOf = (hydrate: string): boolean => {
    const whole = withoutValence(hydrate);
    return begins !== '' && whole.startsWith(begins) && /^(?:\p{L}{2,6})?hydrate$/u.test(whole.slice(begins.length));
  };
  const synonyms = new Set(reference.rows.synonyms.flatMap((one) => (isOf(one.synonym) ? one.cas : [])));
  return reference.rows.materials.filter((row) => WATER_OF_IT.test(row.formula) && (synonyms.has(row.cas) || isOf(row.name)));
}

/** "Copper sulphate" is "copper(II) sulfate": of most metals the trade sells one. */
function withoutValence(name: string): string {
  return foldSpellings(foldForSearch(name.replaceAll(/\s?\((?:I{1,3}|IV|VI?)\)/g, ' ')));
}

/** The row of the table that is called so, has this formula or this synonym. */
function exactly(name: string, reference: Reference) {
  const folded = (one: string): string => foldSpellings(foldForSearch(one));
  const found = findMaterials(name, reference).find(
    ({ row, synonym }) => [row.name, synonym ?? ''].some((one) => folded(one) === folded(name)) || row.formula === name,
  );
  return found && !found.nearly ? found.row : null;
}
