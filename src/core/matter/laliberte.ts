import type { LaliberteRow, WaterRow } from '../reference-rows.ts';
import { waterDensity, waterHeatCapacity } from './water.ts';

/**
 * The model of Laliberté for aqueous solutions of one solute, inside the range it was fitted on and nowhere else.
 * Sources: density, Laliberté & Cooper, J. Chem. Eng. Data 49 (2004) 1141; heat capacity and the coefficients,
 * Laliberté, J. Chem. Eng. Data 54 (2009) 1725.
 */

/** Density of the solution, g/mL. @param fraction g solute per g solution. @returns null outside the fitted range. */
export function modelDensity(row: LaliberteRow, fraction: number, celsius: number, water: WaterRow): number | null {
  const range = row.density;
  if (celsius < range.fromCelsius || celsius > range.toCelsius || fraction < 0 || fraction > range.toFraction) return null;
  const pure = waterDensity(celsius, water);
  if (pure === null) return null;
  if (fraction === 0) return pure;
  return 1 / ((1 - fraction) / pure + fraction / apparentDensity(row, fraction, celsius));
}

/** Apparent density of the dissolved solute, g/mL. No range is checked here. */
export function apparentDensity(row: LaliberteRow, fraction: number, celsius: number): number {
  const [c0, c1, c2, c3, c4] = row.density.coefficients;
  return ((c0 * fraction + c1) * Math.exp(1e-6 * (celsius + c4) ** 2)) / (fraction + c2 + c3 * celsius) / 1000;
}

/** Heat capacity of the solution, J/(g·K). @param fraction g solute per g solution. @returns null outside the range. */
export function modelHeatCapacity(row: LaliberteRow, fraction: number, celsius: number, water: WaterRow): number | null {
  const range = row.heat;
  if (!range || celsius < range.fromCelsius || celsius > range.toCelsius || fraction < 0 || fraction > range.toFraction)
    return null;
  const pure = waterHeatCapacity(celsius, water);
  if (pure === null) return null;
  return (1 - fraction) * pure + fraction * soluteHeatCapacity(range.coefficients, fraction, celsius);
}

/** Heat capacity the solute brings, J/(g·K); may be negative. No range is checked here. */
export function soluteHeatCapacity(
  coefficients: NonNullable<LaliberteRow['heat']>['coefficients'],
  fraction: number,
  celsius: number,
): number {
  const [a1, a2, a3, a4, a5, a6] = coefficients;
  const alpha = a2 * celsius + a3 * Math.exp(0.01 * celsius) + a4 * fraction;
  return a1 * Math.exp(alpha) + a5 * fraction ** a6;
}
