import { decimalMark } from '../../parts/locale.ts';

/** A ledger is kept to the microgram or nanolitre; nine digits show any bottle to that grain and no binary noise. */
const DIGITS = 9;

/** What the ledger says, as it was entered: no digit added, none dropped. */
export function ledgerNumber(value: number): string {
  return String(Number(value.toPrecision(DIGITS))).replace('.', decimalMark);
}

const SMALLEST_LISTED = 0.001;

/** As the list shows it, to the milligram or microlitre; what is less is said to be less, never nothing. */
export function listNumber(value: number): string {
  if (value > 0 && value < SMALLEST_LISTED) return `<${String(SMALLEST_LISTED).replace('.', decimalMark)}`;
  return String(Number(value.toFixed(3))).replace('.', decimalMark);
}

/** With its unit: "12.5 mL". */
export function shown(value: number, unit: 'g' | 'mL'): string {
  return `${ledgerNumber(value)} ${unit}`;
}
