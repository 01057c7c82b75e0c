import { decimalMark } from '../../parts/locale.ts';

/** A ledger is kept to the microgram or nanolitre; nine digits show any bottle to that grain and no binary noise. */
const DIGITS = 9;

/** What the ledger says, as it was entered: no digit added, none dropped. */
export function ledgerNumber(value: number): string {
  return String(Number(value.toPrecision(DIGITS))).replace('.', decimalMark);
}

/** With its unit: "12.5 mL". */
export function shown(value: number, unit: 'g' | 'mL'): string {
  return `${ledgerNumber(value)} ${unit}`;
}
