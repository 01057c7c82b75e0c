import type { WaterRow } from '../reference-rows.ts';
import { interpolateMonotone } from './interpolate.ts';

/**
 * Density of water, g/mL.
 * @param celsius 0 … 100 °C; null outside. Source: Kell, J. Chem. Eng. Data 20 (1975) 97.
 */
export function waterDensity(celsius: number, water: WaterRow): number | null {
  if (!(celsius >= 0 && celsius <= 100)) return null;
  const top = water.numerator.reduceRight((sum, coefficient) => sum * celsius + coefficient, 0);
  return top / (1 + water.denominator * celsius) / 1000;
}

/**
 * Heat capacity of water, J/(g·K), interpolated between the points of the table.
 * @param celsius −15 … 140 °C; null outside. Source: Laliberté, J. Chem. Eng. Data 54 (2009) 1725.
 */
export function waterHeatCapacity(celsius: number, water: WaterRow): number | null {
  const points = water.heatCapacity;
  const value = interpolateMonotone(
    points.map(([at]) => at),
    points.map(([, heat]) => heat),
    celsius,
  );
  return value === null ? null : value / 1000;
}
