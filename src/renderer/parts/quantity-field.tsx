import { parseQuantity } from '../../core/quantity/parse.ts';
import { planWords } from '../../core/words/plan-words.ts';
import { stepped, written } from './quantity-text.ts';
import { type Read, TypedField } from './typed-field.tsx';

/** A quantity as typed: the number in the unit as typed. */
export interface Quantity {
  readonly value: number;
  readonly unit: string;
}

interface QuantityFieldProps {
  readonly label: string;
  readonly value: number;
  readonly unit: string;
  /** The units that may be typed here. */
  readonly units: readonly string[];
  readonly onEdit: (quantity: Quantity) => void;
  readonly refused: string | null;
  readonly onRefuse: (text: string | null) => void;
  readonly onCommit: () => void;
  readonly onTakeBack: () => void;
  readonly stands?: (quantity: Quantity) => string;
  readonly size?: 'normal' | 'large';
  readonly planUndo?: boolean;
}

/** Reads a quantity in one of the units that make sense here. */
export function readQuantity(text: string, units: readonly string[]): Read<Quantity> {
  const read = parseQuantity(text, units);
  if (!read.ok) return read;
  const [value, most] = [read.value * read.portions, LARGEST / read.entry.factor];
  // Said here, at its place: the store would refuse the whole plan.
  if (value > most)
    return { ok: false, at: text.length - text.trimStart().length, words: planWords.amountAtMost(most, value, read.unit) };
  return { ok: true, value: { value, unit: read.unit } };
}

/** The most of anything that a file holds, g, mL or mol (core/plan/ask.ts). */
const LARGEST = 1e9;

/** A quantity typed as text, such as `25 g` or `180 mmol`; arrow keys step it. */
export function QuantityField({ value, unit, units, ...rest }: QuantityFieldProps) {
  return (
    <TypedField<Quantity>
      {...rest}
      value={{ value, unit }}
      read={(text) => readQuantity(text, units)}
      write={(quantity) => written(quantity.value, quantity.unit)}
      same={(one, other) => one.value === other.value && one.unit === other.unit}
      step={(quantity, by) => ({ ...quantity, value: stepped(quantity.value, by) })}
      face={(text) => <QuantityFace text={text} />}
    />
  );
}

/** Number large, unit small. */
function QuantityFace({ text }: { readonly text: string }) {
  const split = /^\s*([\d.,\s×x*+\-−]*\d[.,]?)\s*(.*)$/.exec(text);
  return (
    <>
      <span>{split?.[1] ?? text}</span>
      {split?.[2] && <span class="typed-unit">{split[2]}</span>}
    </>
  );
}
