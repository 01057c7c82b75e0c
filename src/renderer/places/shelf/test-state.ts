import { type Signal, useSignal } from '@preact/signals';
import { type RefObject } from 'preact';
import { useRef } from 'preact/hooks';
import type { BottleRow } from '../../../core/port/shelf.ts';
import type { TestKind } from '../../../core/shelf/shelf.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { testWords as words } from '../../../core/words/test-words.ts';
import { call } from '../../state/connection.ts';
import { reference, today } from '../../state/workbook.ts';
import { bottleState } from '../../../core/shelf/bottle-state.ts';
import { useTyped } from './move-state.ts';
import { readTest, type ReadTest, type TestDraft, type TestProblems } from './read-test.ts';
import { halfDates } from './text-field.tsx';

export type TypeTest = <F extends keyof TestDraft>(field: F, value: TestDraft[F]) => void;

interface TestState {
  readonly form: RefObject<HTMLFormElement | null>;
  readonly draft: TestDraft;
  readonly problems: Signal<TestProblems>;
  readonly said: Signal<string>;
  /** What would come of it as typed; empty where it cannot be read yet. */
  readonly ahead: string;
  readonly type: TypeTest;
  readonly record: () => Promise<void>;
}

/** A test while it is typed; emptied only when it has been recorded. */
export function useTest(bottle: BottleRow, onRecorded: () => Promise<void>): TestState {
  const fields = useFields(bottle);
  const problems = useSignal<TestProblems>({});
  const said = useSignal('');
  const busy = useSignal(false);
  const form = useRef<HTMLFormElement>(null);
  const draft = fields.draft();
  const read = reference.value ? readTest(draft, bottle, today.value, reference.value) : null;
  const type: TypeTest = (field, value) => {
    fields.set(field, value);
    problems.value = {};
    said.value = '';
  };
  const record = async (): Promise<void> => {
    if (!read || busy.value) return;
    const half = halfDates(form.current).map((name) => [name, { at: 0, words: shelfWords.halfDate }] as const);
    problems.value = { ...(read.ok ? {} : read.problems), ...Object.fromEntries(half) };
    if (!read.ok || half.length > 0) {
      // Signals draw in a turn of their own; only then is the first bad field marked.
      queueMicrotask(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
      return;
    }
    busy.value = true;
    said.value = words.recording;
    const answer = await call('shelf.test', read.input);
    busy.value = false;
    said.value = answer.ok ? words.recorded(outcome(read.input, bottle)) : shelfWords.bottle.notSaved(troubleWords(answer));
    if (!answer.ok) return;
    fields.clear();
    await onRecorded();
  };
  return { form, draft, problems, said, ahead: read?.ok ? words.ahead(outcome(read.input, bottle)) : '', type, record };
}

function useFields(bottle: BottleRow) {
  const done = useSignal<TestKind>(bottle.form.kind === 'unknown' ? 'titrated' : 'tested');
  const found = useSignal<TestDraft['found']>('solution');
  const on = useSignal<string | null>(null);
  const useBy = useSignal<string | null>(null);
  const assay = useTyped(`${bottle.id} test assay`);
  const strength = useTyped(`${bottle.id} test strength`);
  const solvent = useTyped(`${bottle.id} test solvent`);
  const remark = useTyped(`${bottle.id} test remark`);
  const signals = { done, found, on, useBy, assay, strength, solvent, remark } as const;
  const named = bottle.form.kind === 'unknown' ? (bottle.form.solvent ?? '') : '';
  return {
    draft: (): TestDraft => ({
      done: done.value,
      on: on.value ?? today.value,
      found: found.value,
      assay: assay.value,
      strength: strength.value,
      solvent: solvent.value === '' ? named : solvent.value,
      useBy: useBy.value,
      remark: remark.value,
    }),
    set<F extends keyof TestDraft>(field: F, value: TestDraft[F]): void {
      (signals[field] as Signal<TestDraft[F]>).value = value;
    },
    clear(): void {
      for (const field of [assay, strength, solvent, remark]) field.value = '';
      on.value = null;
      useBy.value = null;
    },
  };
}

/** What plans do with the bottle once this is recorded. */
function outcome({ form, useBy }: Extract<ReadTest, { ok: true }>['input'], bottle: BottleRow): string {
  const then = { ...bottle, form: form ?? bottle.form, useBy: useBy === undefined ? bottle.useBy : useBy };
  const state = bottleState(then, today.value);
  if (state.kind === 'empty') return words.emptyStill;
  if (state.kind === 'held back') return words.heldBack;
  if (state.kind === 'unknown strength') return words.unknownStill;
  return state.kind === 'out of date' ? words.pastStill : words.plansCount;
}
