import { signal } from '@preact/signals';
import type { Form } from '../../../core/matter/form.ts';
import type { Material } from '../../../core/matter/material.ts';
import type { MaterialRow, UsualStrengthRow } from '../../../core/reference-rows.ts';
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

/** A bottle while it is entered. */
export interface Entry {
  readonly draft: Draft;
  readonly filled: Filled;
  readonly basis: Basis | null;
}

/** Kept outside the form, so that going to another place and back loses nothing. */
const EMPTY: Entry = { draft: EMPTY_DRAFT, filled: {}, basis: null };
export const newBottle = signal(EMPTY);

/** What was half typed when another bottle was begun from one on the shelf, oldest first: it comes back after that one. */
const NONE: readonly Entry[] = [];
export const waiting = signal(NONE);

export function typeInto<F extends DraftField>(field: F, value: Draft[F]): void {
  const { draft, filled, basis } = newBottle.value;
  const { [field]: _typedOver, ...rest } = filled;
  newBottle.value = { basis, draft: { ...draft, [field]: value }, filled: field === 'lookup' ? filled : rest };
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

/** Begins a bottle with what is known of it. What was half typed is set aside. */
export function beginWith(draft: Draft): void {
  setAside();
  newBottle.value = { draft, filled: {}, basis: null };
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
  const { draft, basis } = newBottle.value;
  const dissolved = row.suppliedAs === 'solution';
  const density = row.density !== null && !dissolved && row.state === 'liquid' ? String(row.density) : '';
  const densitySource = [row.densityCelsius === null ? '' : `${row.densityCelsius} °C`, row.densitySource ?? ''];
  const named = words.fromTable('');
  newBottle.value = {
    basis,
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

/** Fills in a usual strength with its solvent; the fields say where they come from. */
export function fillStrength(row: UsualStrengthRow): void {
  const { draft, filled, basis } = newBottle.value;
  const from = words.fromTable(words.usualBottle(row));
  newBottle.value = {
    basis,
    draft: { ...draft, kind: 'solution', strength: row.strength, solvent: row.solvent },
    filled: { ...filled, strength: from, solvent: from },
  };
}
