import { foldForSearch, foldPlural } from '../../matter/fold-name.ts';
import { foldName } from '../../matter/facts.ts';
import type { Form } from '../../matter/form.ts';
import type { Material } from '../../matter/material.ts';
import { dayNumber } from '../bottle-state.ts';
import { foldText, orderKey } from './search-text.ts';

/*
 * The shelf as it is searched: one column of small numbers per fact, since a hundred thousand bottles hold few different
 * materials and stand in few different places. A text that many bottles share is looked at once; what is a bottle's own
 * (label and lot) stands in one long text. A search is then a walk over numbers.
 */

/** What the search has to know of a bottle. */
export interface ShelfEntry {
  /** Row of the bottle in the store; later bottles have greater ones. */
  readonly row: number;
  readonly code: string;
  readonly lot: string;
  readonly place: string;
  readonly supplier: string;
  /** Row of the material in the store. */
  readonly material: number;
  readonly form: string;
  /** Whether the strength is known. */
  readonly known: boolean;
  /** Whole micrograms or nanolitres. */
  readonly left: number;
  readonly heldBack: boolean;
  readonly useBy: string | null;
}

/** A material as it is searched. */
export interface Holding {
  readonly material: Material;
  readonly folded: string;
  /** Every name and formula as letters and digits alone in one spelling, one a line. */
  readonly spelled: string;
  /** Every name as letters and digits alone. */
  readonly names: readonly string[];
  readonly nameKey: string;
  readonly order: string;
}

/** Different texts, numbered as they come. */
export interface Labels {
  readonly texts: string[];
  readonly folded: string[];
  readonly numbers: Map<string, number>;
}

export const NO_DATE = 1e9;

export interface ShelfColumns {
  readonly row: number[];
  readonly position: Map<number, number>;
  readonly own: string[];
  readonly material: number[];
  readonly place: number[];
  readonly supplier: number[];
  /** Material and form together: what the hazards depend on. */
  readonly presented: number[];
  readonly left: number[];
  /** 1 where the strength is known. */
  readonly known: number[];
  readonly heldBack: number[];
  /** Day number, NO_DATE where there is none. */
  readonly useBy: number[];
  readonly holdings: Holding[];
  readonly holdingOf: Map<number, number>;
  readonly places: Labels;
  readonly suppliers: Labels;
  readonly presentations: { readonly holding: number; readonly form: Form }[];
  readonly presentationOf: Map<string, number>;
  /** Each grows when its columns change; what was worked out for an older one is thrown away. */
  readonly versions: Record<Change, number>;
}

/** What may change of a bottle, as far as something is worked out from it. */
export type Change = 'own' | 'name' | 'place' | 'useBy' | 'left' | 'rest';

const noLabels = (): Labels => ({ texts: [], folded: [], numbers: new Map() });

/** Columns of an empty shelf. */
export function emptyColumns(): ShelfColumns {
  return {
    row: [],
    position: new Map(),
    own: [],
    material: [],
    place: [],
    supplier: [],
    presented: [],
    left: [],
    known: [],
    heldBack: [],
    useBy: [],
    holdings: [],
    holdingOf: new Map(),
    places: noLabels(),
    suppliers: noLabels(),
    presentations: [],
    presentationOf: new Map(),
    versions: { own: 0, name: 0, place: 0, useBy: 0, left: 0, rest: 0 },
  };
}

/** Makes a material known; a bottle can only be put where its material is. Materials never change. */
export function putHolding(columns: ShelfColumns, row: number, material: Material): void {
  if (columns.holdingOf.has(row)) return;
  const { name, formula, cas, synonyms = [] } = material;
  const called = [name, ...synonyms];
  const names = called.map(foldForSearch).filter((one) => one !== '');
  columns.holdingOf.set(row, columns.holdings.length);
  columns.holdings.push({
    material,
    folded: [...called, formula, cas, cas?.replaceAll('-', '')].map((part) => foldText(part ?? '')).join('\n'),
    spelled: [...names, foldForSearch(formula ?? '')].map(foldPlural).join('\n'),
    names,
    nameKey: foldName(name),
    order: orderKey(name),
  });
}

/** Puts a bottle where it belongs, new or changed. Throws where its material is not known. */
export function putEntry(columns: ShelfColumns, entry: ShelfEntry): void {
  const holding = columns.holdingOf.get(entry.material);
  if (holding === undefined) throw new Error(`a bottle needs its material (got row ${entry.material})`);
  const at = columns.position.get(entry.row) ?? columns.row.length;
  columns.position.set(entry.row, at);
  const { versions } = columns;
  const set = <T>(column: T[], value: T, change: Change): void => {
    if (column[at] === value) return;
    column[at] = value;
    versions[change] += 1;
  };
  set(columns.row, entry.row, 'name');
  set(columns.own, `${foldText(entry.code)}\n${foldText(entry.lot)}`, 'own');
  set(columns.material, holding, 'name');
  set(columns.place, numberOf(columns.places, entry.place), 'place');
  set(columns.supplier, numberOf(columns.suppliers, entry.supplier), 'rest');
  set(columns.presented, presentation(columns, holding, entry.form), 'rest');
  set(columns.left, entry.left, 'left');
  set(columns.known, Number(entry.known), 'rest');
  set(columns.heldBack, Number(entry.heldBack), 'rest');
  set(columns.useBy, entry.useBy === null ? NO_DATE : dayNumber(entry.useBy), 'useBy');
}

/** Grows with every change of anything. */
export function versionOf({ versions }: ShelfColumns): number {
  return Object.values(versions).reduce((sum, one) => sum + one, 0);
}

function numberOf(labels: Labels, text: string): number {
  const known = labels.numbers.get(text);
  if (known !== undefined) return known;
  const number = labels.texts.length;
  labels.texts.push(text);
  labels.folded.push(foldText(text));
  labels.numbers.set(text, number);
  return number;
}

function presentation({ presentations, presentationOf }: ShelfColumns, holding: number, form: string): number {
  const key = `${holding} ${form}`;
  const known = presentationOf.get(key);
  if (known !== undefined) return known;
  presentations.push({ holding, form: JSON.parse(form) as Form });
  presentationOf.set(key, presentations.length - 1);
  return presentations.length - 1;
}
