import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
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
  /** A text that was refused, kept by whoever owns the value; null where there is none. */
  readonly refused: string | null;
  /** Every keystroke that cannot be read: the value goes back to what it was before this edit. Null: it is mended. */
  readonly onRefuse: (text: string | null) => void;
  /** What the value is that stands while the text cannot be read. */
  readonly stands?: (value: T) => string;
  /** Enter, or leaving the field: the edit is done. */
  readonly onCommit: () => void;
  /** Escape: as it was before this edit. */
  readonly onTakeBack: () => void;
  /** The value one arrow key further. */
  readonly step?: (value: T, by: number) => T;
  /** How the text looks while nobody types in it. */
  readonly face?: (text: string) => ComponentChildren;
  readonly size?: 'normal' | 'large' | 'small';
  /** Shares the plan's undo. */
  readonly planUndo?: boolean;
}

/**
 * A value typed as text. What was typed stays as it was typed until the value changes elsewhere. A text that cannot be
 * read stays too, with the character shown that cannot be read; the value it was to replace stands meanwhile.
 */
export function TypedField<T>(props: TypedFieldProps<T>) {
  const { label, value, read, write, stands, onCommit, step, face, size = 'normal', planUndo = false } = props;
  const id = useId();
  const { text, take, drop } = useTyped(props);
  const now = read(text);
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') onCommit();
    if (event.key === 'Escape') drop();
    const by = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (by === undefined || !step || !now.ok) return;
    event.preventDefault();
    take(write(step(now.value, event.shiftKey ? by * 10 : by)));
  };
  // Where only the window lost the focus, the person is still in the field.
  const onBlur = (event: FocusEvent): void => {
    if (document.activeElement !== event.currentTarget) onCommit();
  };
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
        value={text}
        onInput={(event) => take(event.currentTarget.value)}
        onKeyDown={onKeyDown}
        onBlur={onBlur}
        onFocus={(event) => event.currentTarget.select()}
      />
      <span class="typed-face" aria-hidden="true">
        {face ? face(text) : text}
      </span>
      {!now.ok && <FieldProblem id={`${id}-problem`} text={text} problem={now} stands={stands?.(value)} />}
    </span>
  );
}

interface Typed {
  /** What stands in the field. */
  readonly text: string;
  readonly take: (text: string) => void;
  readonly drop: () => void;
}

/** The text of a field: what was refused, else what was typed as long as it says the value, else the value written. */
function useTyped<T>({ value, read, write, same, refused, onEdit, onRefuse, onTakeBack }: TypedFieldProps<T>): Typed {
  const typed = useSignal(write(value));
  const said = read(typed.value);
  return {
    text: refused ?? (said.ok && same(said.value, value) ? typed.value : write(value)),
    take: (text) => {
      typed.value = text;
      const now = read(text);
      onRefuse(now.ok ? null : text);
      if (now.ok) onEdit(now.value);
    },
    drop: () => {
      onRefuse(null);
      onTakeBack();
      typed.value = '';
    },
  };
}
