import { casDoubt, hasRightCheckDigit, tidyCas } from '../../../core/matter/cas.ts';
import type { Form, StrengthBasis } from '../../../core/matter/form.ts';
import { parseFormula } from '../../../core/matter/formula.ts';
import type { Material } from '../../../core/matter/material.ts';
import { strengthDoubt } from '../../../core/matter/strength-doubt.ts';
import type { ProcedureInput } from '../../../core/port/port.ts';
import { readMeasure } from './read-measure.ts';
import { parseQuantity } from '../../../core/quantity/parse.ts';
import type { Reference } from '../../../core/reference.ts';
import { strengthTyped } from '../../../core/matter/read-solution.ts';
import { materialWords } from '../../../core/words/material-words.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { type Draft, type DraftField, type Entry, type Filled, sameFields } from './new-bottle-draft.ts';

const words = shelfWords.new;

interface Problem {
  readonly at: number;
  readonly words: string;
}

export type DraftProblems = Partial<Record<DraftField, Problem>>;

export type ReadBottle =
  | { readonly ok: true; readonly input: ProcedureInput<'shelf.add'> }
  | { readonly ok: false; readonly problems: DraftProblems };

/** The fields that say what it is, and those that say how it is presented. */
export const MATERIAL_FIELDS = ['name', 'formula', 'cas', 'smiles', 'state', 'density'] as const;
const FORM_FIELDS = ['kind', 'assay', 'strength', 'solvent', 'titrated', 'bottleDensity', 'celsius'] as const;

const LONGEST: Partial<Record<DraftField, number>> = {
  name: 300,
  lot: 300,
  place: 300,
  supplier: 300,
  solvent: 300,
  note: 10_000,
};

/**
 * Reads the whole form: the bottle as the shelf takes it, or every field that needs another look, each at its place.
 * What the built-in table filled in and nobody changed is left to the table, so that it stays one source.
 */
export function readNewBottle({ draft, filled, basis }: Entry, reference: Reference): ReadBottle {
  const problems: { -readonly [F in DraftField]?: Problem } = {};
  // What stands as it was taken from a bottle is that bottle's own, with all that has no field here.
  const kept = (fields: readonly DraftField[]): typeof basis => (basis && sameFields(draft, basis.draft, fields) ? basis : null);
  const material = kept(MATERIAL_FIELDS)?.material ?? readMaterial(draft, filled, reference, problems);
  const form = kept(FORM_FIELDS)?.form ?? readForm(draft, problems);
  const doubt = form && strengthDoubt(material, form, reference);
  if (doubt) problems.strength = { at: 0, words: materialWords.strengthDoubt(doubt) };
  const amount = readAmount(draft.amount, problems);
  const measured = readMeasured(draft, problems);
  for (const [field, most] of Object.entries(LONGEST) as [DraftField, number][]) {
    if (draft[field].trim().length > most) problems[field] = { at: most, words: words.tooLong(most) };
  }
  if (Object.keys(problems).length > 0 || !form || !amount) return { ok: false, problems };
  return { ok: true, input: { material, form, ...amount, ...measured, ...written(draft) } };
}

function readMaterial(
  draft: Draft,
  filled: Filled,
  reference: Reference,
  problems: { -readonly [F in DraftField]?: Problem },
): Material {
  const name = draft.name.trim();
  const formula = draft.formula.trim();
  const cas = tidyCas(draft.cas);
  if (name === '') problems.name = { at: 0, words: words.needsName };
  const read = formula === '' ? null : parseFormula(draft.formula, reference);
  if (read && !read.ok) problems.formula = { at: read.at, words: read.words };
  const casProblem = cas === '' ? null : readCas(draft, cas, reference);
  if (casProblem) problems.cas = casProblem;
  const density = draft.density.trim() === '' ? null : readNumber(draft.density, 0, 25, words.densityRange);
  if (density && !density.ok) problems.density = density;
  return {
    name,
    ...(formula === '' ? {} : { formula }),
    ...(cas === '' ? {} : { cas }),
    ...(draft.state === '' ? {} : { state: draft.state }),
    ...(density?.ok && filled.density === undefined
      ? { density: { gramsPerMillilitre: density.value, source: words.typed } }
      : {}),
  };
}

function readCas(draft: Draft, cas: string, reference: Reference): Problem | null {
  if (!/^\d{2,7}-\d{2}-\d$/.test(cas)) return { at: 0, words: words.casShape };
  if (!hasRightCheckDigit(cas)) return { at: Math.max(0, draft.cas.trimEnd().length - 1), words: words.casDigit };
  const formula = draft.formula.trim();
  const doubt = casDoubt({ cas, name: draft.name, ...(formula === '' ? {} : { formula }) }, reference);
  return doubt && { at: 0, words: materialWords.casDoubt(doubt) };
}

/** How a bottle is presented, as typed; null where its strength cannot be read. */
export function readForm(draft: Draft, problems: { -readonly [F in DraftField]?: Problem }): Form | null {
  if (draft.kind === 'unknown') return { kind: 'unknown', ...solventOf(draft) };
  const density = readBottleDensity(draft, problems);
  if (draft.kind === 'neat') {
    const assay = draft.assay.trim() === '' ? null : readNumber(percentText(draft.assay), 0, 100, words.percentRange);
    if (assay && !assay.ok) problems.assay = assay;
    const on = draft.assayOn === 'anhydrous' ? ({ assayOn: 'anhydrous' } as const) : {};
    if (draft.assayOn === 'anhydrous' && draft.water.trim() === '') problems.water = { at: 0, words: words.needsWater };
    return { kind: 'neat', ...(assay?.ok ? { assayPercent: assay.value } : {}), ...on, ...density };
  }
  const strength = readStrength(draft.strength);
  if (!strength.ok) {
    problems.strength = strength;
    return null;
  }
  const titrated = draft.titrated === '' ? {} : { titrated: draft.titrated };
  return { kind: 'solution', strength: { ...strength.strength, ...titrated }, ...solventOf(draft), ...density };
}

function solventOf(draft: Draft): { readonly solvent?: string } {
  return draft.solvent.trim() === '' ? {} : { solvent: draft.solvent.trim() };
}

/** "98 % w/w" and "98 %" are what "98" is: the field says which percentage it takes. */
function percentText(typed: string): string {
  return typed.replace(/\s*(%(\s*w\/w)?)?\s*$/, '');
}

function readStrength(
  typed: string,
): { ok: true; strength: { value: number; basis: StrengthBasis } } | (Problem & { ok: false }) {
  if (typed.trim() === '') return { ok: false, at: 0, words: words.needsStrength };
  const read = parseQuantity(typed);
  if (!read.ok) return read;
  if (read.entry.dimension !== 'strength' || read.value <= 0) return { ok: false, at: 0, words: words.needsStrength };
  return { ok: true, strength: strengthTyped(read) };
}

function readBottleDensity(
  draft: Draft,
  problems: { -readonly [F in DraftField]?: Problem },
): Pick<Extract<Form, { kind: 'neat' }>, 'density'> {
  if (draft.bottleDensity.trim() === '') return {};
  const density = readNumber(draft.bottleDensity, 0, 25, words.densityRange);
  if (!density.ok) problems.bottleDensity = density;
  const celsius = readCelsius(draft.celsius);
  if (!celsius.ok) problems.celsius = celsius;
  return density.ok && celsius.ok ? { density: { gramsPerMillilitre: density.value, celsius: celsius.value } } : {};
}

const ROOM = 20;

function readCelsius(typed: string): ReadNumber {
  const text = typed.trim().replace('−', '-').replace(',', '.');
  if (text === '') return { ok: true, value: ROOM };
  if (!/^-?\d{1,3}(\.\d+)?$/.test(text)) return { ok: false, at: 0, words: words.celsiusNumber };
  const value = Number(text);
  return value >= -100 && value <= 400 ? { ok: true, value } : { ok: false, at: 0, words: words.celsiusRange };
}

type ReadNumber = { readonly ok: true; readonly value: number } | (Problem & { readonly ok: false });

/** A plain number more than `above` and at most `most`, by the same grammar as every quantity. */
function readNumber(typed: string, above: number, most: number, range: string): ReadNumber {
  // Nothing here reaches a thousand, so a comma can only be the decimal one.
  const read = parseQuantity(`${typed.trim().replace(',', '.')} g`);
  if (!read.ok) return { ok: false, at: Math.min(read.at, typed.length), words: read.words };
  return read.value > above && read.value <= most ? { ok: true, value: read.value } : { ok: false, at: 0, words: range };
}

const LARGEST = 1_000_000;

function readAmount(
  typed: string,
  problems: { -readonly [F in DraftField]?: Problem },
): { readonly amount: number; readonly unit: 'g' | 'mL' } | null {
  const read = typed.trim() === '' ? null : parseQuantity(typed);
  if (!read) {
    problems.amount = { at: 0, words: words.needsAmount };
    return null;
  }
  if (!read.ok) {
    problems.amount = read;
    return null;
  }
  const unit = read.entry.base;
  const amount = read.base * read.portions;
  if (unit !== 'g' && unit !== 'mL') problems.amount = { at: Math.max(0, typed.search(/[^\d\s.,]/)), words: words.needsAmount };
  else if (amount > 0 && amount <= LARGEST) return { amount, unit };
  else problems.amount = { at: 0, words: words.amountRange };
  return null;
}

type Measured = Pick<ProcedureInput<'shelf.add'>, 'tare' | 'waterPercent' | 'price'>;

function readMeasured(draft: Draft, problems: { -readonly [F in DraftField]?: Problem }): Measured {
  const read = (field: 'tare' | 'water' | 'price'): { readonly value: number } | null => {
    if (draft[field].trim() === '') return null;
    const found = readMeasure[field](draft[field]);
    if (!found.ok) problems[field] = found;
    return found.ok ? found : null;
  };
  const [tare, water, price] = [read('tare'), read('water'), read('price')];
  return {
    ...(tare ? { tare: tare.value } : {}),
    ...(water ? { waterPercent: water.value } : {}),
    ...(price ? { price: price.value } : {}),
  };
}

type Written = Pick<ProcedureInput<'shelf.add'>, 'lot' | 'place' | 'supplier' | 'opened' | 'useBy' | 'note'>;

/** What is written on the bottle; what is empty is left out. */
function written(draft: Draft): Written {
  const fields = ['lot', 'place', 'supplier', 'opened', 'useBy', 'note'] as const;
  return Object.fromEntries(fields.map((field) => [field, draft[field].trim()]).filter(([, value]) => value !== ''));
}
