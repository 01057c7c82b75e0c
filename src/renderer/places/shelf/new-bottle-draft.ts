import { signal } from '@preact/signals';
import type { MaterialRow, UsualStrengthRow } from '../../../core/reference.ts';
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
  note: '',
};

/** What the built-in table filled in, with its source; a field that is typed over leaves the list. */
export type Filled = Partial<Record<DraftField, string>>;

/** Kept outside the form, so that going to another place and back loses nothing. */
const EMPTY: { readonly draft: Draft; readonly filled: Filled } = { draft: EMPTY_DRAFT, filled: {} };
export const newBottle = signal(EMPTY);

export function typeInto<F extends DraftField>(field: F, value: Draft[F]): void {
  const { draft, filled } = newBottle.value;
  const { [field]: _typedOver, ...rest } = filled;
  newBottle.value = { draft: { ...draft, [field]: value }, filled: field === 'lookup' ? filled : rest };
}

export function clearDraft(): void {
  newBottle.value = EMPTY;
}

/** Fills in what the table knows; each filled field says so. What was typed about the bottle itself stays. */
export function fillFrom(row: MaterialRow): void {
  const { draft } = newBottle.value;
  const dissolved = row.suppliedAs === 'solution';
  const density = row.density !== null && !dissolved && row.state === 'liquid' ? String(row.density) : '';
  const densitySource = [row.densityCelsius === null ? '' : `${row.densityCelsius} °C`, row.densitySource ?? ''];
  const named = words.fromTable('');
  newBottle.value = {
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
  const { draft, filled } = newBottle.value;
  const from = words.fromTable(words.usualBottle(row));
  newBottle.value = {
    draft: { ...draft, kind: 'solution', strength: row.strength, solvent: row.solvent },
    filled: { ...filled, strength: from, solvent: from },
  };
}
