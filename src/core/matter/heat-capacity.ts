import { computed, type Figure, sourced } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Facts } from './facts.ts';
import { modelHeatCapacity } from './laliberte.ts';

/** Heats of solution and most heat capacities hold for this temperature, °C. */
const CELSIUS = 25;
const DIGITS = 3;
/** Liquid water at 25 °C, J/(g·K). Source: CRC Handbook, Standard Thermodynamic Properties (75.3 J/(mol·K)). */
const WATER = 4.18;
/**
 * What a gram of dissolved solute adds, J/(g·K), where no model reaches: a round figure. Held against the model of
 * Laliberté at 25 °C the solution's value comes out within 3 % for sulfuric acid to 70 % w/w, within 4 % for phosphoric
 * acid to 50 %, within 9 % for sodium hydroxide to 30 % and potassium hydroxide to 45 %. For hydrochloric acid, 17 %, it
 * is a fifth too high (Perry, from memory), and the rise as much too low: an estimate, and marked so.
 */
const SOLUTE = 1.0;

/**
 * Heat capacity of a solution in water at 25 °C, J/(g·K): the model of Laliberté inside its fitted range, else that of
 * its water and a round figure for the rest, marked an estimate.
 * @param fraction mass fraction of the solute, 0 ≤ w ≤ 1. Source: J. Chem. Eng. Data 54 (2009) 1725; CRC Handbook.
 */
export function heatCapacity(solute: Facts, fraction: Figure<'g/g'>, reference: Reference): Figure<'J/(g·K)'> {
  const w = fraction.value;
  if (!(w >= 0 && w <= 1)) throw new RangeError(`heatCapacity needs a mass fraction 0 to 1 (got ${w})`);
  const label = `heat capacity of ${solute.name} ${Number((w * 100).toPrecision(3))} % w/w`;
  const row = solute.cas === null ? undefined : reference.laliberte.get(solute.cas);
  const model = row ? modelHeatCapacity(row, w, CELSIUS, reference.rows.water) : null;
  if (model !== null) return sourced(label, model, 'J/(g·K)', `model at ${CELSIUS} °C, Laliberté 2009`, DIGITS, 'model');
  const water = sourced('heat capacity of water', WATER, 'J/(g·K)', `CRC Handbook, ${CELSIUS} °C`, DIGITS);
  const rest = sourced('heat capacity of what is dissolved', SOLUTE, 'J/(g·K)', 'a round figure', DIGITS, 'estimate');
  const value = (1 - w) * WATER + w * SOLUTE;
  return computed(label, value, 'J/(g·K)', 'its water and its solute by mass', [fraction, water, rest]);
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
