import { type Signal, useSignal } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import type { BottleRow } from '../../../core/port/shelf.ts';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { keepTyped, typedText } from '../../state/typed-texts.ts';
import { type MoveKind, type MoveProblems, readMovement } from './movement.ts';
import { shown } from './shown-amount.ts';

interface MoveState {
  readonly kind: Signal<MoveKind>;
  readonly amount: Signal<string>;
  readonly reason: Signal<string>;
  readonly problems: Signal<MoveProblems>;
  /** What the last recording came to. */
  readonly said: Signal<string>;
  readonly record: () => Promise<void>;
}

/** A text that outlives a reload and another bottle being looked at. */
export function useTyped(field: string): Signal<string> {
  const text = useSignal(typedText(field) ?? '');
  const typed = text.value;
  useLayoutEffect(() => keepTyped(field, typed === '' ? null : typed), [field, typed]);
  return text;
}

interface Typed {
  readonly amount: Signal<string>;
  readonly reason: Signal<string>;
}

/** Each kind has its own texts: 6 g that were used are not 6 g that are left, nor 6 g to throw away. */
function useTypedByKind(bottle: string): Readonly<Record<MoveKind, Typed>> {
  const texts = (kind: MoveKind): Typed => ({
    amount: useTyped(`${bottle} ${kind} amount`),
    reason: useTyped(`${bottle} ${kind} reason`),
  });
  return {
    received: texts('received'),
    used: texts('used'),
    made: texts('made'),
    adjusted: texts('adjusted'),
    discarded: texts('discarded'),
  };
}

/** A movement while it is typed. It is emptied only when it has been recorded; pressing twice records once. */
export function useMove(bottle: BottleRow, onRecorded: () => void): MoveState {
  const kind = useSignal<MoveKind>('used');
  const { amount, reason } = useTypedByKind(bottle.id)[kind.value];
  const problems = useSignal<MoveProblems>({});
  const said = useSignal('');
  const recordedLeft = useRef<number | null>(null);
  const busy = useSignal(false);
  // What a recording came to is no longer so once something else has changed what is left.
  useLayoutEffect(() => {
    if (recordedLeft.current !== null && recordedLeft.current !== bottle.left) said.value = '';
  }, [bottle.left]);
  const record = async (): Promise<void> => {
    const read = readMovement(kind.value, amount.value, reason.value, bottle);
    problems.value = read.ok ? {} : read.problems;
    if (!read.ok || busy.value) return;
    busy.value = true;
    const move = { id: bottle.id, kind: kind.value, change: read.change, reason: reason.value.trim() };
    const answer = await call('shelf.move', move);
    busy.value = false;
    if (!answer.ok) {
      said.value = shelfWords.bottle.notSaved(troubleWords(answer));
      return;
    }
    amount.value = '';
    reason.value = '';
    recordedLeft.current = answer.value.left;
    said.value = shelfWords.move.recorded(shown(answer.value.left, bottle.unit));
    onRecorded();
  };
  return { kind, amount, reason, problems, said, record };
}
