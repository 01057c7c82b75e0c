import { canonicalJson } from '../../canonical-json.ts';
import { foldLabel } from '../../code/label-meant.ts';
import { grouped } from '../../grouped.ts';
import { foldName, sameMaterial } from '../../matter/facts.ts';
import type { Form } from '../../matter/form.ts';
import type { Material } from '../../matter/material.ts';
import { formWords } from '../../words/form-words.ts';
import { shelfImportWords as words } from '../../words/shelf-import-words.ts';
import type { Bottle } from '../shelf.ts';
import { withoutWater } from '../wet-form.ts';
import { revives } from '../written.ts';
import type { ReadRow, WrittenOn } from './read-row.ts';
import type { CellProblem } from './table.ts';

/** A bottle with its material in it. */
export type HeldBottle = Omit<Bottle, 'material'> & { readonly holds: Material };
/** A bottle that comes to the shelf; where its row names no label it is given one when it is written. */
export type ComingBottle = Omit<HeldBottle, 'id'> & { readonly id: string | undefined };

/** What would be written otherwise on a bottle that is on the shelf. */
export interface BottleUpdate {
  readonly label: string;
  readonly written: WrittenOn;
  /** What is left by the file, in the bottle's unit, where it is another than by the ledger. */
  readonly left: number | undefined;
  /** What changes, one sentence each. */
  readonly says: readonly string[];
}

/** What becomes of one row. */
export type Fate =
  | { readonly kind: 'new'; readonly bottle: ComingBottle; readonly says: readonly string[] }
  | { readonly kind: 'update'; readonly update: BottleUpdate; readonly says: readonly string[] }
  | { readonly kind: 'duplicate'; readonly bottle: ComingBottle | null; readonly says: readonly string[] }
  | { readonly kind: 'refused'; readonly problems: readonly CellProblem[]; readonly says: readonly string[] };

export type FateKind = Fate['kind'];

/** The shelf as a file is held against it. */
export interface ShelfView {
  /** The bottle with this label. */
  readonly bottle: (label: string) => HeldBottle | null;
  /** Labels that differ from this one in nothing but capitals, blanks and how accents are put together. */
  readonly labelsLike: (label: string) => readonly string[];
  /** Labels of the bottles whose `likeness` this is. */
  readonly like: (likeness: string) => readonly string[];
  /** The day, ISO. */
  readonly today: string;
}

const refused = (words: string, column: number | null = null, value = ''): Fate => ({
  kind: 'refused',
  problems: [{ column, value, words }],
  says: [],
});

/**
 * What makes two bottles read alike where no label tells them apart: the same material (by CAS number, else by name), form,
 * amount, lot, place, supplier and dates.
 */
export function likeness({ holds, form, left, unit, lot, place, supplier, received, opened, useBy }: ComingBottle): string {
  const material = holds.cas ?? foldName(holds.name);
  return canonicalJson([
    material,
    withoutWater(form),
    left,
    unit,
    lot ?? '',
    place ?? '',
    supplier ?? '',
    received ?? '',
    opened ?? '',
    useBy ?? '',
  ]);
}

/** Rows of one label: all of them alike, or none of them is taken. Rows by their numbers, the first one first. */
export function labelsTwice(rows: readonly ReadRow[]): ReadonlyMap<number, { readonly first: number; readonly alike: boolean }> {
  const groups = new Map<string, ReadRow[]>();
  for (const row of rows) {
    if (row.label === undefined) continue;
    const group = groups.get(row.label);
    if (group) group.push(row);
    else groups.set(row.label, [row]);
  }
  const found = new Map<number, { first: number; alike: boolean }>();
  for (const group of groups.values()) {
    const [first] = group;
    if (!first || group.length === 1) continue;
    const alike = new Set(group.map(contentOf)).size === 1;
    for (const row of group) found.set(row.number, { first: first.number, alike });
  }
  return found;
}

function contentOf({ number: _number, remarks: _remarks, ...content }: ReadRow): string {
  return canonicalJson(content);
}

/** Decides the fates of a table's rows one after the other, in the file's order. */
export class FateJudge {
  readonly #view: ShelfView;
  readonly #twice: ReturnType<typeof labelsTwice>;
  readonly #labels: ReadonlyMap<string, readonly string[]>;
  /** How many rows without a label read alike so far, and from which of the shelf's bottles on one may be meant. */
  readonly #seen = new Map<string, { count: number; first: number; next: number }>();
  /** Labels of bottles that a row without a label was taken for. */
  readonly #taken = new Set<string>();

  constructor(view: ShelfView, rows: readonly ReadRow[]) {
    this.#view = view;
    this.#twice = labelsTwice(rows);
    const labels = rows.flatMap(({ label }) => (label === undefined ? [] : [label]));
    this.#labels = grouped([...new Set(labels)], foldLabel);
  }

  /** The fate of the next row. */
  fate(row: ReadRow): Fate {
    if (row.problems.length > 0) return { kind: 'refused', problems: row.problems, says: row.remarks };
    const twice = this.#twice.get(row.number);
    if (twice && !twice.alike) return refused(words.problems.labelTwice(row.label ?? '', twice.first));
    if (twice && twice.first !== row.number) return { kind: 'duplicate', bottle: null, says: [words.says.sameRow(twice.first)] };
    const there = row.label === undefined ? null : this.#view.bottle(row.label);
    if (there) return updated(row, there, this.#view.today);
    const nearly = row.exact || row.label === undefined ? undefined : this.#nearly(row.label);
    return nearly === undefined ? this.#coming(row) : refused(words.problems.labelNearly(row.label ?? '', nearly));
  }

  /** Another bottle, on the shelf or in the file, whose label a scanner would not tell from this one. */
  #nearly(label: string): string | undefined {
    return [...this.#view.labelsLike(label), ...(this.#labels.get(foldLabel(label)) ?? [])].find((other) => other !== label);
  }

  #coming(row: ReadRow): Fate {
    const { material, form, amount, label, written, tests, remarks } = row;
    if (!material) return refused(words.problems.noMaterial);
    if (!amount) return refused(words.problems.noAmount);
    if (!form) return refused(words.problems.needsStrength);
    const { heldBack, ...rest } = written;
    const bottle = {
      id: label,
      holds: material,
      form,
      ...amount,
      ...rest,
      ...(heldBack ? { heldBack } : {}),
      ...(tests ? { tests } : {}),
    };
    return label === undefined ? this.#unlabelled(row.number, bottle, remarks) : { kind: 'new', bottle, says: remarks };
  }

  /** As many of the rows that read alike as there are such bottles on the shelf are those bottles; further ones are new. */
  #unlabelled(number: number, bottle: ComingBottle, remarks: readonly string[]): Fate {
    const likeIt = likeness(bottle);
    const key = `${likeIt} ${bottle.holds.formula ?? ''}`;
    const seen = this.#seen.get(key) ?? { count: 0, first: number, next: 0 };
    const like = this.#view.like(likeIt);
    let { next } = seen;
    while (next < like.length && !this.#free(like[next], bottle.holds)) next += 1;
    this.#seen.set(key, { ...seen, count: seen.count + 1, next: next + 1 });
    const there = like[next];
    if (there !== undefined) {
      this.#taken.add(there);
      return { kind: 'duplicate', bottle, says: [words.says.onShelf(there), ...remarks] };
    }
    return { kind: 'new', bottle, says: seen.count > 0 ? [words.says.likeRow(seen.first), ...remarks] : remarks };
  }

  /** Whether no row before was taken for this bottle, and it holds the very same. */
  #free(label: string | undefined, material: Material): boolean {
    const there = label === undefined || this.#taken.has(label) ? null : this.#view.bottle(label);
    return there !== null && sameMaterial(there.holds, material);
  }
}

function updated(row: ReadRow, there: HeldBottle, today: string): Fate {
  const problem = contradiction(row, there, today);
  if (problem !== null) return refused(problem);
  const says: string[] = [];
  const written = changed(row.written, there, says);
  const left = row.amount && row.amount.left !== there.left ? row.amount.left : undefined;
  if (left !== undefined) says.unshift(words.says.left(there.left, left, there.unit));
  const kept = keptAsItIs(row, there);
  if (says.length === 0) return { kind: 'duplicate', bottle: null, says: [words.says.onShelf(there.id), ...kept] };
  return { kind: 'update', update: { label: there.id, written, left, says }, says: [...says, ...kept] };
}

/** What a file cannot change on a bottle: what it holds, in which strength, and by which unit it is kept. */
function contradiction({ material, form, formSaid, amount, written }: ReadRow, there: HeldBottle, today: string): string | null {
  if (material && !sameMaterial(material, there.holds))
    return words.problems.otherMaterial(there.id, there.holds.name, material.name);
  if (form && formSaid && !sameForm(form, there.form)) {
    return words.problems.otherForm(there.id, formWords(there.form), formWords(form));
  }
  if (amount && amount.unit !== there.unit) return words.problems.otherUnit(there.id, there.unit, amount.unit);
  if (revives(there.useBy ?? null, { useBy: written.useBy }, today)) return words.problems.staysOutOfDate(there.id);
  return null;
}

function sameForm(one: Form, other: Form): boolean {
  return canonicalJson(plain(one)) === canonicalJson(plain(other));
}

/** Nothing said of the assay is 100 %; no solvent is water. */
function plain(form: Form): Form {
  if (form.kind === 'neat') return withoutWater({ ...form, assayPercent: form.assayPercent ?? 100 });
  return form.kind === 'solution' ? { ...form, solvent: form.solvent ?? 'water' } : form;
}

function changed(written: WrittenOn, there: HeldBottle, says: string[]): WrittenOn {
  const entries = Object.entries(written) as [keyof WrittenOn, string | number | boolean][];
  const otherwise = entries.filter(([name, value]) => (there[name] ?? (name === 'heldBack' ? false : '')) !== value);
  for (const [name, value] of otherwise) says.push(words.says.changed(name, there[name], value));
  return Object.fromEntries(otherwise);
}

/** What the file says otherwise and what is left as it is nonetheless. */
function keptAsItIs({ material, tests, exact }: ReadRow, there: HeldBottle): readonly string[] {
  if (!exact) return [];
  const facts = material !== undefined && canonicalJson(material) !== canonicalJson(there.holds);
  const history = canonicalJson(tests ?? []) !== canonicalJson(there.tests ?? []);
  return [...(facts ? [words.says.factsKept] : []), ...(history ? [words.says.testsKept] : [])];
}
