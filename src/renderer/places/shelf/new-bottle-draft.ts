import { signal } from '@preact/signals';
import type { Form } from '../../../core/matter/form.ts';
import type { Material } from '../../../core/matter/material.ts';
import type { MaterialRow, UsualStrengthRow } from '../../../core/reference-rows.ts';
import type { RouteMaterial } from '../../../core/shelf/import/route-materials.ts';
import { shelfActWords } from '../../../core/words/shelf-act-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';

const words = shelfWords.new;

/** Everything typed for a bottle that is not on the shelf yet, as typed. */
export interface Draft {
  readonly lookup: string;
  readonly name: string;
  readonly formula: string;
  readonly cas: string;
  readonly smiles: string;
  readonly state: '' | 'solid' | 'liquid' | 'gas';
  /** Density of the pure liquid. */
  readonly density: string;
  readonly kind: 'neat' | 'solution' | 'unknown';
  readonly assay: string;
  readonly assayOn: '' | 'anhydrous';
  readonly strength: string;
  readonly solvent: string;
  readonly titrated: string;
  readonly bottleDensity: string;
  readonly celsius: string;
  readonly amount: string;
  readonly lot: string;
  readonly place: string;
  readonly supplier: string;
  readonly opened: string;
  readonly useBy: string;
  readonly tare: string;
  readonly water: string;
  readonly price: string;
  readonly note: string;
}

export type DraftField = keyof Draft;

export const EMPTY_DRAFT: Draft = {
  lookup: '',
  name: '',
  formula: '',
  cas: '',
  smiles: '',
  state: '',
  density: '',
  kind: 'neat',
  assay: '',
  assayOn: '',
  strength: '',
  solvent: '',
  titrated: '',
  bottleDensity: '',
  celsius: '',
  amount: '',
  lot: '',
  place: '',
  supplier: '',
  opened: '',
  useBy: '',
  tare: '',
  water: '',
  price: '',
  note: '',
};

/** What the built-in table filled in, with its source; a field that is typed over leaves the list. */
export type Filled = Partial<Record<DraftField, string>>;

/** The bottle that another one is entered from: in its place, or beside it. */
export interface Basis {
  readonly how: 'correct' | 'another';
  readonly id: string;
  readonly material: Material;
  readonly form: Form;
  /** As the form was filled from it. */
  readonly draft: Draft;
}

/** What it was made from, and whether that comes off the other bottle when this one is put on the shelf. */
export interface Took {
  readonly id: string;
  readonly amount: number;
  readonly unit: 'g' | 'mL';
  readonly name: string;
  readonly on: boolean;
}

/** A bottle while it is entered. */
export interface Entry {
  readonly draft: Draft;
  readonly filled: Filled;
  readonly basis: Basis | null;
  readonly took?: readonly Took[];
}

/** Kept outside the form, so that going to another place and back loses nothing. */
const EMPTY: Entry = { draft: EMPTY_DRAFT, filled: {}, basis: null };
export const newBottle = signal(EMPTY);

/** What was half typed when another bottle was begun from one on the shelf, oldest first: it comes back after that one. */
const NONE: readonly Entry[] = [];
export const waiting = signal(NONE);

export function typeInto<F extends DraftField>(field: F, value: Draft[F]): void {
  const { draft, filled } = newBottle.value;
  const { [field]: _typedOver, ...rest } = filled;
  newBottle.value = { ...newBottle.value, draft: { ...draft, [field]: value }, filled: field === 'lookup' ? filled : rest };
}

/** Puts away what is typed; what was set aside for it comes back. */
export function clearDraft(): void {
  newBottle.value = waiting.value.at(-1) ?? EMPTY;
  waiting.value = waiting.value.length > 1 ? waiting.value.slice(0, -1) : NONE;
}

/** Begins a bottle from one on the shelf. What was half typed is set aside; one begun for the same bottle goes on. */
export function beginFrom(basis: Basis): void {
  const now = newBottle.value;
  const isSame = (one: Entry): boolean => one.basis?.id === basis.id && one.basis.how === basis.how;
  if (isSame(now)) return;
  const begun = waiting.value.find(isSame);
  waiting.value = waiting.value.filter((one) => one !== begun);
  setAside();
  newBottle.value = begun ?? { draft: basis.draft, filled: filledFrom(basis), basis };
}

/** Begins a bottle with what is known of it, and of what it was made from. What was half typed is set aside. */
export function beginWith(draft: Draft, took: readonly Took[] = []): void {
  setAside();
  newBottle.value = { draft, filled: {}, basis: null, took };
}

/** Whether what was taken of a bottle comes off it. */
export function takeOff(id: string, on: boolean): void {
  const { took = [] } = newBottle.value;
  newBottle.value = { ...newBottle.value, took: took.map((one) => (one.id === id ? { ...one, on } : one)) };
}

function setAside(): void {
  const all = isTouched(newBottle.value) ? [...waiting.value, newBottle.value] : waiting.value;
  waiting.value = all.length === 0 ? NONE : all;
}

function isTouched({ draft, basis }: Entry): boolean {
  return !sameFields(draft, basis?.draft ?? EMPTY_DRAFT, Object.keys(EMPTY_DRAFT) as DraftField[]);
}

/** Whether two drafts say the same in some fields. */
export function sameFields(one: Draft, other: Draft, fields: readonly DraftField[]): boolean {
  return fields.every((field) => one[field] === other[field]);
}

function filledFrom({ id, draft }: Basis): Filled {
  const from = shelfActWords.asOn(id);
  const fields = (Object.keys(draft) as DraftField[]).filter((field) => field !== 'lookup' && draft[field] !== '');
  return Object.fromEntries(fields.map((field) => [field, from]));
}

/** Fills in what the table knows; each filled field says so. What was typed about the bottle itself stays. */
export function fillFrom(row: MaterialRow): void {
  const { draft } = newBottle.value;
  const dissolved = row.suppliedAs === 'solution';
  const density = row.density !== null && !dissolved && row.state === 'liquid' ? String(row.density) : '';
  const densitySource = [row.densityCelsius === null ? '' : `${row.densityCelsius} °C`, row.densitySource ?? ''];
  const named = words.fromTable('');
  newBottle.value = {
    ...newBottle.value,
    draft: {
      ...draft,
      lookup: row.name,
      name: row.name,
      formula: row.formula,
      cas: row.cas,
      smiles: row.smiles ?? '',
      state: row.state ?? '',
      density,
      kind: dissolved ? 'solution' : draft.kind,
    },
    filled: {
      name: named,
      formula: named,
      cas: named,
      ...(row.smiles === null ? {} : { smiles: named }),
      ...(row.state === null ? {} : { state: named }),
      ...(density === '' ? {} : { density: words.fromTable(densitySource.filter((part) => part !== '').join(', ')) }),
      ...(dissolved ? { kind: words.fromTable(words.usuallyDissolved) } : {}),
    },
  };
}

type MaterialField = 'name' | 'formula' | 'cas' | 'smiles' | 'state' | 'density';

/** Fills in what one of the routes knows; each filled field names the route. */
export function fillFromRoute({ material, route }: RouteMaterial): void {
  const { draft } = newBottle.value;
  const { name, formula = '', cas = '', smiles = '', state = '', density } = material;
  const gramsPerMillilitre = density ? String(density.gramsPerMillilitre) : '';
  const known: Pick<Draft, MaterialField> = { name, formula, cas, smiles, state, density: gramsPerMillilitre };
  const fields = (Object.keys(known) as MaterialField[]).filter((field) => known[field] !== '');
  const from = words.fromRoute(route);
  newBottle.value = {
    ...newBottle.value,
    draft: { ...draft, ...known, lookup: name },
    filled: Object.fromEntries(fields.map((field) => [field, from])),
  };
}

/**
 * What was typed in the look-up and is known nowhere goes where it belongs, a CAS number or the name, unless something else
 * was typed there.
 */
export function carryOver(typed: string): void {
  const { draft, filled } = newBottle.value;
  const text = typed.trim();
  const field = /^\d{2,7}-\d\d-\d$/.test(text) ? 'cas' : 'name';
  const mine = draft[field] === '' || filled[field] === words.carried;
  if (text === '' || !mine) return;
  newBottle.value = {
    ...newBottle.value,
    draft: { ...draft, [field]: text },
    filled: { ...filled, [field]: words.carried },
  };
}

/** Fills in a usual strength with its solvent; the fields say where they come from. */
export function fillStrength(row: UsualStrengthRow): void {
  const { draft, filled } = newBottle.value;
  const from = words.fromTable(words.usualBottle(row));
  newBottle.value = {
    ...newBottle.value,
    draft: { ...draft, kind: 'solution', strength: row.strength, solvent: row.solvent },
    filled: { ...filled, strength: from, solvent: from },
  };
}
