import { formatSignificant } from '../quantity/format.ts';

/** A fraction of a vessel as it is said: "two thirds", "half", "45 %". */
export function fillPart(value: unknown): string {
  const fraction = Number(value);
  if (Math.abs(fraction - 0.5) < 1e-3) return 'half';
  return Math.abs(fraction - 2 / 3) < 0.01 ? 'two thirds' : `${formatSignificant(fraction * 100, 3)} %`;
}
