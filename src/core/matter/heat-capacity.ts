import { computed, type Figure, sourced } from '../quantity/figure.ts';

/** Liquid water at 25 °C, J/(g·K). Source: CRC Handbook, Standard Thermodynamic Properties (75.3 J/(mol·K)). */
const WATER = 4.18;
/**
 * What a gram of dissolved solute adds, J/(g·K). A round figure for a screening estimate: against the fitted model of
 * Laliberté (J. Chem. Eng. Data 2009, 54, 1725) at 25 °C the solution's value comes out within 3 % for sulfuric acid to
 * 70 % w/w (and 11 % too low at 80 %: the rise too high), within 4 % for phosphoric acid to 50 % and sodium chloride to
 * 25 %, within 9 % for sodium hydroxide to 30 % and potassium hydroxide to 45 %.
 */
const SOLUTE = 1.0;

/**
 * Heat capacity of a solution in water, J/(g·K): that of its water and a round figure for the rest, marked an estimate.
 * @param fraction mass fraction of solute, 0 ≤ w ≤ 1.
 */
export function heatCapacity(fraction: Figure<'g/g'>): Figure<'J/(g·K)'> {
  const w = fraction.value;
  if (!(w >= 0 && w <= 1)) throw new RangeError(`heatCapacity needs a mass fraction 0 to 1 (got ${w})`);
  const water = sourced('heat capacity of water', WATER, 'J/(g·K)', 'CRC Handbook, 25 °C', 3);
  const rest = sourced('heat capacity of what is dissolved', SOLUTE, 'J/(g·K)', 'a round figure', 3, 'estimate');
  const value = (1 - w) * WATER + w * SOLUTE;
  return computed('heat capacity of the solution', value, 'J/(g·K)', 'its water and its solute by mass', [fraction, water, rest]);
}

/**
 * Rise of temperature when a heat stays in a mass: ΔT = 1000·q ÷ (m·c), K; negative where heat is taken up. Nothing
 * lost to vessel, air or bath, so a largest value.
 * @param heat given off, kJ. @param grams of the final mixture, > 0. @param capacity of the final mixture, J/(g·K), > 0.
 */
export function riseOf(heat: Figure<'kJ'>, grams: Figure<'g'>, capacity: Figure<'J/(g·K)'>): Figure<'K'> {
  if (!(grams.value > 0 && capacity.value > 0)) {
    throw new RangeError(`riseOf needs a mass and a heat capacity above 0 (got ${grams.value} g, ${capacity.value} J/(g·K))`);
  }
  const value = (1000 * heat.value) / (grams.value * capacity.value);
  return computed('rise of temperature', value, 'K', 'heat ÷ (mass × heat capacity), none lost', [heat, grams, capacity]);
}
