import { useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { FieldProblem } from '../../parts/field-problem.tsx';

export interface PrintFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  /** What is wrong with a text; null where it can be read. An empty text is asked about only where `needed`. */
  readonly check: (text: string) => { readonly at: number; readonly words: string } | null;
  readonly needed?: boolean;
  readonly onCommit: (text: string) => void;
}

/** One line of a procedure, taken in on Enter or on leaving; what cannot be read stays, with its place shown. */
export function PrintField({ label, value, placeholder, check, needed = false, onCommit }: PrintFieldProps) {
  const id = useId();
  const typed = useSignal<string | null>(null);
  const text = typed.value ?? value;
  const problem = text.trim() === '' && !needed ? null : check(text);
  const commit = (): void => {
    if (typed.value === null || problem) return;
    if (typed.value.trim() !== value) onCommit(typed.value.trim());
    typed.value = null;
  };
  return (
    <span class="print-field">
      <input
        type="text"
        aria-label={label}
        aria-invalid={problem !== null}
        aria-describedby={problem ? id : undefined}
        autocomplete="off"
        spellcheck={false}
        placeholder={placeholder}
        value={text}
        onInput={(event) => {
          typed.value = event.currentTarget.value;
        }}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape') typed.value = null;
        }}
      />
      {problem && <FieldProblem id={id} text={text} problem={problem} />}
    </span>
  );
}
