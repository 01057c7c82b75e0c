import type { EthanolWaterRow } from '../reference-rows.ts';

/** The formula is written in powers of the mass fraction; taken about here they do not cancel each other's last digits. */
const MIDDLE = 0.5;

/**
 * Density of ethanol in water, g/mL, by the international alcoholometric formula.
 * @param fraction g ethanol per g mixture, 0 … 1. @param celsius −20 … 40 °C. @returns null outside.
 * Source: OIML International Recommendation R 22 (1975).
 */
export function ethanolWaterDensity(fraction: number, celsius: number, row: EthanolWaterRow): number | null {
  if (!(fraction >= 0 && fraction <= 1 && celsius >= -20 && celsius <= 40)) return null;
  const warmer = celsius - 20;
  const inFraction = polynomial(
    aboutMiddle(row).map((coefficients) => polynomial(coefficients, fraction - MIDDLE)),
    warmer,
  );
  return (inFraction + polynomial([0, ...row.b], warmer)) / 1000;
}

/** Σ coefficient_k · x^k. */
function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}

const known = new WeakMap<EthanolWaterRow, readonly (readonly number[])[]>();

/** For each power of the temperature the polynomial in the mass fraction, in powers of its distance from the middle. */
function aboutMiddle(row: EthanolWaterRow): readonly (readonly number[])[] {
  let found = known.get(row);
  if (!found) known.set(row, (found = [row.a, ...row.c.map((own) => [0, ...own])].map(moved)));
  return found;
}

/** Coefficients of the same polynomial about MIDDLE, by repeated synthetic division. */
function moved(coefficients: readonly number[]): readonly number[] {
  const own = [...coefficients];
  for (let low = 0; low < own.length - 1; low += 1) {
    for (let i = own.length - 2; i >= low; i -= 1) own[i] = (own[i] ?? 0) + MIDDLE * (own[i + 1] ?? 0);
  }
  return own;
}
