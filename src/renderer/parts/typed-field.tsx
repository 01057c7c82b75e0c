import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useId, useRef } from 'preact/hooks';
import { FieldProblem } from './field-problem.tsx';

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly at: number; readonly words: string };

export interface TypedFieldProps<T> {
  readonly label: string;
  readonly value: T;
  readonly read: (text: string) => Read<T>;
  readonly write: (value: T) => string;
  readonly same: (one: T, other: T) => boolean;
  /** Every keystroke that can be read. */
  readonly onEdit: (value: T) => void;
  /** Enter, or leaving the field. */
  readonly onCommit: () => void;
  /** The value one arrow key further. */
  readonly step?: (value: T, by: number) => T;
  /** How the text looks while nobody types in it. */
  readonly face?: (text: string) => ComponentChildren;
  readonly size?: 'normal' | 'large' | 'small';
  /** Shares the plan's undo. */
  readonly planUndo?: boolean;
}

/**
 * A value typed as text. What was typed stays as it was typed until the value changes elsewhere; a character that
 * cannot be read is shown at its place, and the last value that could be read stands meanwhile.
 */
export function TypedField<T>(props: TypedFieldProps<T>) {
  const { label, value, read, write, same, onEdit, onCommit, step, face, size = 'normal', planUndo = false } = props;
  const id = useId();
  const typed = useSignal(write(value));
  const known = useRef(value);
  if (!same(known.current, value)) {
    known.current = value;
    typed.value = write(value);
  }

  const take = (text: string): void => {
    typed.value = text;
    const now = read(text);
    if (!now.ok) return;
    known.current = now.value;
    onEdit(now.value);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') onCommit();
    if (event.key === 'Escape') typed.value = write(value);
    const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    const now = read(typed.value);
    if (by === undefined || !step || !now.ok) return;
    event.preventDefault();
    take(write(step(now.value, event.shiftKey ? by * 10 : by)));
  };

  const now = read(typed.value);
  return (
    <span class={`typed typed-${size}${now.ok ? '' : ' typed-wrong'}`}>
      <input
        id={id}
        type="text"
        class="typed-input"
        aria-label={label}
        aria-invalid={!now.ok}
        aria-describedby={now.ok ? undefined : `${id}-problem`}
        autocomplete="off"
        spellcheck={false}
        data-undo={planUndo ? 'plan' : undefined}
        value={typed.value}
        onInput={(event) => take(event.currentTarget.value)}
        onKeyDown={onKeyDown}
        onBlur={onCommit}
        onFocus={(event) => event.currentTarget.select()}
      />
      <span class="typed-face" aria-hidden="true">
        {face ? face(typed.value) : typed.value}
      </span>
      {!now.ok && <FieldProblem id={`${id}-problem`} text={typed.value} problem={now} />}
    </span>
  );
}
