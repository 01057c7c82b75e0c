import { decimalMark } from './locale.ts';

/** A stored value as a person would type it, e.g. `25 g`; twelve digits at most, no trailing zeros. */
export function written(value: number, unit: string): string {
  const number = String(Number(value.toPrecision(12))).replace('.', decimalMark);
  return unit === '' ? number : `${number} ${unit}`;
}

/**
 * The next value for an arrow key: by one in the second significant digit, so that 25 goes to 26, 180 to 190 and
 * 0.2 to 0.21. Never below zero.
 */
export function stepped(value: number, by: number): number {
  if (value <= 0) return Math.max(0, by);
  // A hair less when going down, so that 10 goes to 9.9 as it came from 9.9.
  const size = by < 0 ? value * (1 - 1e-9) : value;
  const step = 10 ** (Math.floor(Math.log10(size)) - 1);
  return Math.max(0, Number((Math.round(value / step + by) * step).toPrecision(12)));
}
