import { useSignal } from '@preact/signals';
import { useId, useRef } from 'preact/hooks';
import { type ParsedQuantity, type ParseProblem, parseQuantity } from '../../core/quantity/parse.ts';
import type { Dimension } from '../../core/quantity/units.ts';
import { shellWords } from '../../core/words/shell-words.ts';
import { FieldProblem } from './field-problem.tsx';
import { stepped, written } from './quantity-text.ts';

interface QuantityFieldProps {
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  /** What may be typed here, e.g. a mass or an amount of substance. */
  readonly dimensions: readonly Dimension[];
  /** Every keystroke that reads as a quantity. */
  readonly onEdit: (quantity: ParsedQuantity) => void;
  /** Enter, or leaving the field. */
  readonly onCommit: () => void;
  readonly size?: 'normal' | 'large';
  /** Shares the plan's undo. */
  readonly planUndo?: boolean;
}

/** Reads a quantity and checks that it is of a kind that makes sense here. */
export function readQuantity(text: string, dimensions: readonly Dimension[]): ParsedQuantity | ParseProblem {
  const read = parseQuantity(text);
  if (!read.ok || dimensions.includes(read.entry.dimension)) return read;
  return { ok: false, at: text.search(/[^\d\s.,+\-−]/), words: shellWords.needsDimension(dimensions, read.unit) };
}

/**
 * A quantity typed as text, such as `25 g` or `180 mmol`. What was typed stays as it was typed; a wrong character is
 * shown at its place; arrow keys step it.
 */
export function QuantityField(props: QuantityFieldProps) {
  const { label, value, unit, dimensions, onEdit, onCommit, size = 'normal', planUndo = false } = props;
  const id = useId();
  const typed = useSignal(written(value, unit));
  const known = useRef({ value, unit });

  // The value changed from outside (undo, another window): what was typed no longer stands for it.
  if (known.current.value !== value || known.current.unit !== unit) {
    known.current = { value, unit };
    const read = readQuantity(typed.peek(), dimensions);
    if (!read.ok || read.value !== value || read.unit !== unit) typed.value = written(value, unit);
  }

  const take = (text: string): void => {
    typed.value = text;
    const read = readQuantity(text, dimensions);
    if (!read.ok) return;
    known.current = { value: read.value, unit: read.unit };
    onEdit(read);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') onCommit();
    if (event.key === 'Escape') typed.value = written(value, unit);
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    const read = readQuantity(typed.value, dimensions);
    if (!read.ok) return;
    event.preventDefault();
    const by = (event.key === 'ArrowUp' ? 1 : -1) * (event.shiftKey ? 10 : 1);
    take(written(stepped(read.value, by), read.unit));
  };

  const read = readQuantity(typed.value, dimensions);
  return (
    <span class={`quantity quantity-${size}${read.ok ? '' : ' quantity-wrong'}`}>
      <input
        id={id}
        type="text"
        class="quantity-input"
        aria-label={label}
        aria-invalid={!read.ok}
        aria-describedby={read.ok ? undefined : `${id}-problem`}
        autocomplete="off"
        spellcheck={false}
        data-undo={planUndo ? 'plan' : undefined}
        value={typed.value}
        onInput={(event) => take(event.currentTarget.value)}
        onKeyDown={onKeyDown}
        onBlur={onCommit}
        onFocus={(event) => event.currentTarget.select()}
      />
      <Face text={typed.value} />
      {!read.ok && <FieldProblem id={`${id}-problem`} text={typed.value} problem={read} />}
    </span>
  );
}

/** How the field looks while nobody types in it: number large, unit small. */
function Face({ text }: { readonly text: string }) {
  const split = /^\s*([\d.,\s×x*+\-−]*\d[.,]?)\s*(.*)$/.exec(text);
  return (
    <span class="quantity-face" aria-hidden="true">
      <span class="quantity-number">{split?.[1] ?? text}</span>
      {split?.[2] && <span class="quantity-unit">{split[2]}</span>}
    </span>
  );
}
