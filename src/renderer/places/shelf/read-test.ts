import type { Form } from '../../../core/matter/form.ts';
import { strengthDoubt } from '../../../core/matter/strength-doubt.ts';
import type { ProcedureInput } from '../../../core/port/port.ts';
import type { BottleRow } from '../../../core/port/shelf.ts';
import type { Reference } from '../../../core/reference.ts';
import type { TestKind } from '../../../core/shelf/shelf.ts';
import { materialWords } from '../../../core/words/material-words.ts';
import { testWords as words } from '../../../core/words/test-words.ts';
import { EMPTY_DRAFT } from './new-bottle-draft.ts';
import { type DraftProblems, readForm } from './read-new-bottle.ts';

/** A test of a bottle as typed. */
export interface TestDraft {
  readonly done: TestKind;
  readonly on: string;
  /** What a bottle of unknown strength turned out to be. */
  readonly found: 'solution' | 'neat';
  readonly assay: string;
  readonly strength: string;
  readonly solvent: string;
  /** Null where it was not touched; empty for none. */
  readonly useBy: string | null;
  readonly remark: string;
}

type Tested = Pick<BottleRow, 'id' | 'form' | 'material'>;
type Problem = { readonly at: number; readonly words: string };
export type TestProblems = Partial<Record<keyof TestDraft, Problem>>;

export type ReadTest =
  | { readonly ok: true; readonly input: ProcedureInput<'shelf.test'> }
  | { readonly ok: false; readonly problems: TestProblems };

/** Whether the result of a test of this bottle is an assay or a strength. */
export function resultOf(form: Form, found: TestDraft['found']): 'assay' | 'strength' {
  return (form.kind === 'unknown' ? found : form.kind) === 'neat' ? 'assay' : 'strength';
}

/** Reads a test as typed; its result by the reader and with the doubts of a new bottle. */
export function readTest(draft: TestDraft, bottle: Tested, today: string, reference: Reference): ReadTest {
  const problems: { -readonly [F in keyof TestDraft]?: Problem } = {};
  if (draft.on === '') problems.on = { at: 0, words: words.needsDay };
  else if (today !== '' && draft.on > today) problems.on = { at: 0, words: words.notAhead };
  if (draft.useBy !== null && draft.useBy !== '' && draft.useBy <= draft.on) problems.useBy = { at: 0, words: words.useByBefore };
  const form = readResult(draft, bottle, reference, problems);
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  const useBy = draft.useBy === null ? {} : { useBy: draft.useBy === '' ? null : draft.useBy };
  const { done, on } = draft;
  return { ok: true, input: { id: bottle.id, done, on, ...(form ? { form } : {}), ...useBy, remark: draft.remark.trim() } };
}

/** The form that was found; null where it stays as it was. */
function readResult(
  draft: TestDraft,
  { form: before, material }: Tested,
  reference: Reference,
  problems: { -readonly [F in keyof TestDraft]?: Problem },
): Form | null {
  const result = resultOf(before, draft.found);
  if (draft[result].trim() === '') {
    if (draft.done === 'titrated') problems[result] = { at: 0, words: words.needsFound };
    return draft.done === 'purified' && before.kind !== 'unknown' && before.density ? withoutDensity(before) : null;
  }
  const wrong: { -readonly [F in keyof DraftProblems]: DraftProblems[F] } = {};
  const solvent = before.kind === 'solution' ? (before.solvent ?? '') : draft.solvent;
  const titrated = draft.done === 'titrated' ? draft.on : '';
  const kind = result === 'assay' ? 'neat' : 'solution';
  const read = readForm({ ...EMPTY_DRAFT, kind, assay: draft.assay, strength: draft.strength, solvent, titrated }, wrong);
  const problem = wrong[result];
  if (problem) problems[result] = problem;
  if (!read || problem || read.kind === 'unknown') return null;
  const form = withEquivalents(read, before);
  const doubt = strengthDoubt(material, form, reference);
  if (doubt) problems[result] = { at: 0, words: materialWords.strengthDoubt(doubt) };
  if (form.kind === 'solution' && form.strength.basis === 'eq/L' && form.strength.equivalentsPerMole === undefined)
    problems.strength = { at: 0, words: words.needsPlain };
  // A new assay is on the basis of the one before it.
  const on = form.kind === 'neat' && before.kind === 'neat' && before.assayOn ? { assayOn: before.assayOn } : {};
  const density = draft.done !== 'purified' && before.kind !== 'unknown' && before.density ? { density: before.density } : {};
  return { ...form, ...on, ...density } as Form;
}

type Known = Exclude<Form, { kind: 'unknown' }>;

function withoutDensity({ density: _ofBefore, ...rest }: Known): Form {
  return rest;
}

/** Equivalents per mole belong to the use of a bottle, not to its titration. */
function withEquivalents(form: Known, before: Form): Known {
  if (form.kind !== 'solution' || form.strength.basis !== 'eq/L' || before.kind !== 'solution') return form;
  const { equivalentsPerMole } = before.strength;
  return equivalentsPerMole === undefined ? form : { ...form, strength: { ...form.strength, equivalentsPerMole } };
}
