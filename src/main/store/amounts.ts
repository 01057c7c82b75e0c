/**
 * Amounts in the store are whole micrograms or nanolitres, so that a ledger always adds up exactly.
 * The largest, 1e15, is far inside the whole numbers a double can hold (9e15).
 */
export type AmountUnit = 'g' | 'mL';

const SMALLEST_PER_UNIT = 1_000_000;
export const LARGEST_AMOUNT = 1_000_000_000_000_000;

/** g → µg or mL → nL, rounded to the nearest whole one. Domain: ±1e9. */
export function toSmallest(amount: number): number {
  return Math.round(amount * SMALLEST_PER_UNIT);
}

/** µg → g or nL → mL; exact to the last shown digit because both numbers are whole. */
export function fromSmallest(amount: number): number {
  return amount / SMALLEST_PER_UNIT;
}
