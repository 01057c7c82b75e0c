import { grouped } from '../grouped.ts';
import type { Reference } from '../reference.ts';
import type { MaterialRow } from '../reference-rows.ts';
import { foldForSearch, foldSpellings, isNearly } from './fold-name.ts';
import { parseFormula } from './formula.ts';

export interface Found {
  readonly row: MaterialRow;
  /** The other name that was typed, where it was not the table's own. */
  readonly synonym: string;
  /** It is not what was typed, only nearly. */
  readonly nearly: boolean;
}

interface Name {
  readonly row: MaterialRow;
  readonly synonym: string;
  readonly folded: string;
  readonly spelled: string;
}

interface Index {
  readonly names: readonly Name[];
  /** Rows by what their formula is made of, whatever its order. */
  readonly byAtoms: ReadonlyMap<string, readonly MaterialRow[]>;
}

const indexes = new WeakMap<Reference, Index>();

/** Every name folded and every formula counted, once for the tables. */
function indexOf(reference: Reference): Index {
  const known = indexes.get(reference);
  if (known) return known;
  const { materials, synonyms } = reference.rows;
  const named = (row: MaterialRow, name: string, synonym: string): Name => {
    const folded = foldForSearch(name);
    return { row, synonym, folded, spelled: foldSpellings(folded) };
  };
  const others = synonyms.flatMap(({ cas, synonym }) => {
    const row = reference.material.get(cas);
    return row ? [named(row, synonym, synonym)] : [];
  });
  const index: Index = {
    names: [...materials.map((row) => named(row, row.name, '')), ...others],
    byAtoms: grouped(materials, (row) => atomsKey(row.formula, reference) ?? ''),
  };
  indexes.set(reference, index);
  return index;
}

/** What a formula is made of, written so that the order does not matter; null for what is no formula. */
function atomsKey(formula: string, reference: Reference): string | null {
  const read = parseFormula(formula, reference);
  if (!read.ok) return null;
  const atoms = [...read.atoms].map(([symbol, count]) => `${symbol}${count}`).sort();
  return `${atoms.join(' ')} ${read.charge}`;
}

/** How well something fits what was typed; the smaller, the better. */
const RANK = {
  exact: 0,
  spelled: 1,
  formulaWritten: 2,
  formula: 3,
  begins: 4,
  beginsSpelled: 5,
  cas: 6,
  holds: 7,
  words: 8,
  holdsSpelled: 9,
  nearly: 10,
} as const;

interface Fit {
  readonly found: Found;
  readonly rank: number;
  /** Among equals the shorter name comes first, and the table's own name before another. */
  readonly length: number;
}

const MOST = 8;
const LONGEST_TYPED = 300;

/**
 * Materials of the built-in table that a typed name, formula or CAS number may mean, the likeliest first, at most eight:
 * what it is exactly, what begins with it, what holds it or all its words, and where nothing does, what is nearly
 * spelled so. Forgiving of case, accents, hyphens, spaces, primes, Greek letters, commas of locants, and of the order of
 * a formula. Deterministic; empty for an empty text.
 */
export function findMaterials(typed: string, reference: Reference): readonly Found[] {
  const text = typed.trim().slice(0, LONGEST_TYPED);
  const fits = allFits(text, reference);
  const found = best(fits.length > 0 ? fits : nearFits(text, reference));
  return found.slice(0, MOST).map((one) => one.found);
}

/** As findMaterials(), but nothing that is only nearly spelled so. */
export function fittingMaterials(typed: string, reference: Reference): readonly MaterialRow[] {
  const fits = best(allFits(typed.trim().slice(0, LONGEST_TYPED), reference));
  return fits.slice(0, MOST).map((one) => one.found.row);
}

function allFits(text: string, reference: Reference): readonly Fit[] {
  if (text === '') return [];
  return [...nameFits(text, reference), ...formulaFits(text, reference), ...casFits(text, reference)];
}

function best(fits: readonly Fit[]): readonly Fit[] {
  const before = (a: Fit, b: Fit): number => a.rank - b.rank || a.length - b.length;
  const kept = new Map<string, Fit>();
  for (const fit of fits) {
    const known = kept.get(fit.found.row.cas);
    if (!known || before(fit, known) < 0) kept.set(fit.found.row.cas, fit);
  }
  return [...kept.values()].sort(before);
}

function fit(row: MaterialRow, rank: number, length: number, synonym = ''): Fit {
  // What begins so by its own name comes before what does by another: "methyl benz" is no toluene.
  const other = synonym !== '' && (rank === RANK.begins || rank === RANK.beginsSpelled);
  return {
    found: { row, synonym, nearly: rank === RANK.nearly },
    rank: other ? RANK.beginsSpelled + 0.5 : rank,
    length: length + (synonym === '' ? 0 : 0.5),
  };
}

function nameFits(text: string, reference: Reference): readonly Fit[] {
  const typed = foldForSearch(text);
  if (typed === '') return [];
  const spelled = foldSpellings(typed);
  const words = text
    .split(/[\s,-]+/)
    .map(foldForSearch)
    .filter((word) => word !== '');
  return indexOf(reference).names.flatMap(({ row, synonym, folded, spelled: name }) => {
    const rank = nameRank(folded, name, { typed, spelled, words });
    return rank === null ? [] : [fit(row, rank, folded.length, synonym)];
  });
}

interface Typed {
  readonly typed: string;
  readonly spelled: string;
  readonly words: readonly string[];
}

function nameRank(folded: string, name: string, { typed, spelled, words }: Typed): number | null {
  if (folded === typed) return RANK.exact;
  if (name === spelled) return RANK.spelled;
  if (folded.startsWith(typed)) return RANK.begins;
  if (name.startsWith(spelled)) return RANK.beginsSpelled;
  if (typed.length < 3) return null;
  if (folded.includes(typed)) return RANK.holds;
  if (words.length > 1 && words.every((word) => folded.includes(word))) return RANK.words;
  return name.includes(spelled) ? RANK.holdsSpelled : null;
}

/** A formula as it may be typed: small digits as plain ones, dots and spaces aside. */
function plainFormula(formula: string): string {
  return formula.normalize('NFKC').replace(/[·*.•⋅∙\s]/g, '');
}

function formulaFits(text: string, reference: Reference): readonly Fit[] {
  const plain = plainFormula(text);
  if (plain === '') return [];
  const key = atomsKey(text, reference);
  const same = key === null ? [] : (indexOf(reference).byAtoms.get(key) ?? []);
  const written = reference.rows.materials.flatMap((row) => {
    const own = plainFormula(row.formula);
    if (own === plain) return [fit(row, RANK.formulaWritten, row.name.length)];
    return own.toLowerCase() === plain.toLowerCase() ? [fit(row, RANK.formula, row.name.length)] : [];
  });
  return [...written, ...same.map((row) => fit(row, RANK.formula, row.name.length))];
}

/** The materials of the table with the atoms of a formula, in whatever order it is written; none for what is no formula. */
export function materialsOfFormula(formula: string, reference: Reference): readonly MaterialRow[] {
  const key = atomsKey(formula.trim(), reference);
  return key === null ? [] : (indexOf(reference).byAtoms.get(key) ?? []);
}

/** Whether two formulas are of the same atoms and charge; false where one of them is no formula. */
export function sameAtoms(one: string, other: string, reference: Reference): boolean {
  const key = atomsKey(one, reference);
  return key !== null && key === atomsKey(other, reference);
}

/** By the digits of a CAS number from the first on, hyphens or not. */
function casFits(text: string, reference: Reference): readonly Fit[] {
  const digits = text.replace(/[\s\-‐-―−]/g, '');
  if (!/^\d{2,10}$/.test(digits)) return [];
  return reference.rows.materials.flatMap((row) => {
    const own = row.cas.replaceAll('-', '');
    if (own === digits) return [fit(row, RANK.exact, 0)];
    return own.startsWith(digits) ? [fit(row, RANK.cas, own.length)] : [];
  });
}

const SHORTEST_NEAR = 5;
const LONG = 9;

function nearFits(text: string, reference: Reference): readonly Fit[] {
  const typed = foldForSearch(text);
  if (typed.length < SHORTEST_NEAR || typed.length > 60) return [];
  const most = typed.length >= LONG ? 2 : 1;
  return indexOf(reference).names.flatMap(({ row, synonym, folded }) =>
    isNearly(typed, folded, most) ? [fit(row, RANK.nearly, Math.abs(folded.length - typed.length), synonym)] : [],
  );
}

/** The materials a name means: the table's own name or another, in any of its spellings. */
export function materialsCalled(name: string, reference: Reference): readonly MaterialRow[] {
  const folded = foldForSearch(name);
  const spelled = foldSpellings(folded);
  const { names } = indexOf(reference);
  const exact = names.filter((one) => one.folded === folded);
  const found = exact.length > 0 ? exact : names.filter((one) => one.spelled === spelled);
  return folded === '' ? [] : [...new Set(found.map((one) => one.row))];
}
