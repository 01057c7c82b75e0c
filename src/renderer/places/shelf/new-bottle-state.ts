import { type Signal, useSignal } from '@preact/signals';
import { type RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { shelfWords } from '../../../core/words/shelf-words.ts';
import { troubleWords } from '../../../core/words/shell-words.ts';
import { call } from '../../state/connection.ts';
import { reference } from '../../state/workbook.ts';
import { clearDraft, type Draft, type DraftField, newBottle, typeInto } from './new-bottle-draft.ts';
import { type DraftProblems, readNewBottle } from './read-new-bottle.ts';
import { openBottle } from './shelf-store.ts';
import { halfDates } from './text-field.tsx';

const words = shelfWords.new;

export type TypeInto = <F extends DraftField>(field: F, value: Draft[F]) => void;

interface NewBottleState {
  readonly form: RefObject<HTMLFormElement | null>;
  readonly problems: Signal<DraftProblems>;
  readonly said: Signal<string>;
  readonly type: TypeInto;
  readonly put: () => Promise<void>;
}

/** The form while it is filled in. The draft is emptied only when the bottle is on the shelf. */
export function useNewBottle(): NewBottleState {
  const problems = useSignal<DraftProblems>({});
  const said = useSignal('');
  const busy = useSignal(false);
  const form = useRef<HTMLFormElement>(null);
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  const type: TypeInto = (field, value) => {
    typeInto(field, value);
    const { [field]: _mended, ...rest } = problems.value;
    problems.value = rest;
    said.value = '';
  };
  const put = async (): Promise<void> => {
    if (!reference.value || busy.value) return;
    const read = readNewBottle(newBottle.value.draft, newBottle.value.filled, reference.value);
    const half = halfDates(form.current).map((name) => [name, { at: 0, words: shelfWords.halfDate }] as const);
    problems.value = { ...(read.ok ? {} : read.problems), ...Object.fromEntries(half) };
    if (!read.ok || half.length > 0) {
      said.value = words.problems(Object.keys(problems.value).length);
      // Signals draw on the next turn; only then is the first bad field marked.
      setTimeout(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
      return;
    }
    busy.value = true;
    said.value = words.putting;
    const answer = await call('shelf.add', read.input);
    busy.value = false;
    if (!answer.ok) {
      said.value = words.notPut(troubleWords(answer));
      return;
    }
    clearDraft();
    openBottle(answer.value.id);
  };
  return { form, problems, said, type, put };
}
