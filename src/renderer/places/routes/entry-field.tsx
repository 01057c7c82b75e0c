import './entry.css';
import { useSignal } from '@preact/signals';
import type { TargetedInputEvent, TargetedKeyboardEvent } from 'preact';
import { useId } from 'preact/hooks';
import type { Edited } from '../../../core/route/edited.ts';
import { Wrong } from './combo.tsx';
import { useKeptText } from './kept-text.ts';

interface Problem {
  readonly at: number;
  readonly words: string;
}

export interface EntryFieldProps {
  /** Tells this field from every other of the route, so that a half-typed text is found again. */
  readonly keep: string;
  readonly label: string;
  readonly value: string;
  readonly kind?: 'line' | 'lines' | 'choice';
  readonly choices?: readonly { readonly value: string; readonly words: string }[];
  readonly placeholder?: string | undefined;
  readonly wide?: boolean;
  /** Takes a text in; what it comes back with is shown under the field, and the text stays as it was typed. */
  readonly onCommit: (text: string) => Edited | (Problem & { readonly ok: false });
}

type Typed = HTMLInputElement | HTMLTextAreaElement;

/** One entry of a step, an operation or a material: taken in on Enter or on leaving, Escape gives it back as it was. */
export function EntryField({
  keep,
  label,
  value,
  kind = 'line',
  choices = [],
  placeholder,
  wide = false,
  onCommit,
}: EntryFieldProps) {
  const id = useId();
  const typed = useKeptText(keep);
  const problem = useSignal<Problem | null>(null);
  const take = (text: string): void => {
    const edited = onCommit(text);
    problem.value = edited.ok ? null : problemOf(edited);
    if (edited.ok) typed.value = null;
  };
  const drop = (): void => {
    typed.value = null;
    problem.value = null;
  };
  const commit = (): void => {
    if (typed.value === null) return;
    if (typed.value === value) drop();
    else take(typed.value);
  };
  const shared = {
    id,
    name: keep,
    class: 'field-input',
    'aria-invalid': problem.value !== null,
    'aria-describedby': problem.value ? `${id}-problem` : undefined,
    'data-undo': typed.value === null ? 'route' : undefined,
  } as const;
  const text = {
    ...shared,
    autocomplete: 'off',
    spellcheck: kind === 'lines',
    placeholder,
    value: typed.value ?? value,
    onInput: (event: TargetedInputEvent<Typed>) => {
      typed.value = event.currentTarget.value;
      problem.value = null;
    },
    onBlur: commit,
    onKeyDown: (event: TargetedKeyboardEvent<Typed>) => {
      if (event.key === 'Enter' && (kind === 'line' || event.ctrlKey)) commit();
      if (event.key !== 'Escape' || typed.value === null) return;
      event.stopPropagation();
      drop();
    },
  } as const;
  return (
    <p class={`entry${wide || kind === 'lines' ? ' entry-wide' : ''}${problem.value ? ' field-bad' : ''}`}>
      <label class="field-label" for={id}>
        {label}
      </label>
      {kind === 'choice' ? (
        <select {...shared} value={value} onChange={(event) => take(event.currentTarget.value)}>
          {choices.map((one) => (
            <option key={one.value} value={one.value}>
              {one.words}
            </option>
          ))}
        </select>
      ) : kind === 'lines' ? (
        <textarea {...text} rows={1} />
      ) : (
        <input type="text" {...text} />
      )}
      {problem.value && (
        <span id={`${id}-problem`} class="field-wrong" role="alert">
          <Wrong text={typed.value ?? ''} problem={problem.value} />
        </span>
      )}
    </p>
  );
}

function problemOf(edited: Exclude<ReturnType<EntryFieldProps['onCommit']>, { ok: true }>): Problem {
  if ('words' in edited) return edited;
  return { at: 0, words: edited.problems.map((one) => one.words).join('; ') };
}
