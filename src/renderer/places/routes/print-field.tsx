import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import type { Edited } from '../../../core/route/edited.ts';
import { FieldProblem } from '../../parts/field-problem.tsx';

export interface PrintFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  /** What is wrong with a text; null where it can be read. An empty text is asked about only where `needed`. */
  readonly check: (text: string) => { readonly at: number; readonly words: string } | null;
  readonly needed?: boolean;
  /** Null where there was nothing to do. */
  readonly onCommit: (text: string) => Edited | null;
}

/**
 * One line of a procedure, taken in on Enter or on leaving; what cannot be read stays, with its place shown: floating
 * while it is typed, in the row where a file brought it so.
 */
export function PrintField({ label, value, placeholder, check, needed = false, onCommit }: PrintFieldProps) {
  const id = useId();
  const typed = useSignal<string | null>(null);
  const text = typed.value ?? value;
  const refused = useSignal<string | null>(null);
  const unread = text.trim() === '' && !needed ? null : check(text);
  const problem = unread ?? (refused.value === null ? null : { at: 0, words: refused.value });
  const commit = (): void => {
    if (typed.value === null || unread) return;
    const edited = typed.value.trim() === value ? null : onCommit(typed.value.trim());
    refused.value = edited && !edited.ok ? edited.problems.map((one) => one.words).join('; ') : null;
    if (refused.value === null) typed.value = null;
  };
  return (
    <span class={`print-field${typed.value === null && problem ? ' print-kept' : ''}`}>
      <input
        type="text"
        aria-label={label}
        aria-invalid={problem !== null}
        aria-describedby={problem ? id : undefined}
        autocomplete="off"
        spellcheck={false}
        placeholder={placeholder}
        data-undo={typed.value === null ? 'route' : undefined}
        value={text}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
          refused.value = null;
        }}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape') {
            typed.value = null;
            refused.value = null;
          }
        }}
      />
      {problem && <FieldProblem id={id} text={text} problem={problem} />}
    </span>
  );
}
