import { computed, type Figure } from '../quantity/figure.ts';

/**
 * Heat that a rise of temperature shows: q = m·c·ΔT ÷ 1000, kJ; negative where it cools. The vessel's own heat capacity
 * and all that is lost are left out, so a least value of what was given off.
 * @param rise K. @param grams of the mixture, > 0. @param capacity of the mixture, J/(g·K), > 0.
 */
export function heatOfRise(rise: Figure<'K'>, grams: Figure<'g'>, capacity: Figure<'J/(g·K)'>): Figure<'kJ'> {
  if (!(grams.value > 0 && capacity.value > 0)) {
    throw new RangeError(`heatOfRise needs a mass and a heat capacity above 0 (got ${grams.value} g, ${capacity.value} J/(g·K))`);
  }
  const value = (rise.value * grams.value * capacity.value) / 1000;
  return computed('heat given off', value, 'kJ', 'mass × heat capacity × rise, none lost', [grams, capacity, rise]);
}

/**
 * Heat given off per mole of a species, kJ/mol; the enthalpy is its negative.
 * @param moles of that species that have reacted (of the reagent that limits, where it runs out), mol, > 0.
 */
export function heatPerMole(heat: Figure<'kJ'>, moles: Figure<'mol'>): Figure<'kJ/mol'> {
  if (!(moles.value > 0)) throw new RangeError(`heatPerMole needs moles above 0 (got ${moles.value} mol)`);
  return computed('heat given off per mole', heat.value / moles.value, 'kJ/mol', 'heat ÷ moles', [heat, moles]);
}

/** Heat that so many moles of a species give off, kJ: n·(−ΔH), both of the same species. */
export function heatOfMoles(moles: Figure<'mol'>, perMole: Figure<'kJ/mol'>): Figure<'kJ'> {
  return computed('heat given off', moles.value * perMole.value, 'kJ', 'moles × heat given off per mole', [moles, perMole]);
}
