import type { EthanolWaterRow } from '../reference.ts';

export const ETHANOL = '64-17-5';

/**
 * Density of ethanol in water, g/mL, by the international alcoholometric formula.
 * @param fraction g ethanol per g mixture, 0 … 1. @param celsius −20 … 40 °C. @returns null outside.
 * Source: OIML International Recommendation R 22 (1975).
 */
export function ethanolWaterDensity(fraction: number, celsius: number, row: EthanolWaterRow): number | null {
  if (!(fraction >= 0 && fraction <= 1 && celsius >= -20 && celsius <= 40)) return null;
  const warmer = celsius - 20;
  const inFraction = series(row.a, fraction, 0);
  const inWarmth = series(row.b, warmer, 1);
  const mixed = row.c.reduce((sum, coefficients, i) => sum + series(coefficients, fraction, 1) * warmer ** (i + 1), 0);
  return (inFraction + inWarmth + mixed) / 1000;
}

/** Σ coefficient_k · x^(k + first). */
function series(coefficients: readonly number[], x: number, first: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0) * x ** first;
}
