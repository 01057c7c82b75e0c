import { computed, type Figure } from '../quantity/figure.ts';
import { type Maybe, known, unknown } from '../words/why.ts';

/**
 * Shortest addition that the cooling keeps up with, min: t = 1000·q ÷ (60·P), the heat freed evenly and at once.
 * @param heat given off during the addition, kJ. @param cooling power, W, > 0.
 * @returns 0 or less where no heat is given off. Source: energy balance.
 */
export function shortestFor(heat: Figure<'kJ'>, cooling: Figure<'W'>): Figure<'min'> {
  if (!(cooling.value > 0)) throw new RangeError(`shortestFor needs a cooling power above 0 (got ${cooling.value} W)`);
  const value = (heat.value * 1000) / cooling.value / 60;
  return computed('shortest addition, one batch', value, 'min', 'heat given off ÷ cooling power; a screening figure', [
    heat,
    cooling,
  ]);
}

/**
 * Least time of an addition at another scale, min: t ≥ t₀·(V ÷ V₀)^(1/3). A lower bound for vessels of the same shape with
 * the same heat transfer and the same difference of temperature, where the cooling limits the feed; cooling surface per
 * volume falls with V^(−1/3). @param basis contained, one batch, g. @param known what is known to have gone well.
 * @returns why not, where a scale or the time is not above 0.
 */
export function scaledAddition(
  basis: Figure<'g'>,
  { minutes, grams }: { readonly minutes: Figure<'min'>; readonly grams: Figure<'g'> },
): Maybe<'min'> {
  if (!(minutes.value > 0)) return unknown('no known addition');
  if (!(grams.value > 0 && basis.value > 0 && Number.isFinite(basis.value))) return unknown('no scale to compare');
  const value = minutes.value * Math.cbrt(basis.value / grams.value);
  const how = 'known time × ∛(amount ÷ known amount)';
  return known(computed('least time at this scale', value, 'min', how, [minutes, basis, grams]));
}

/** How a vessel is cooled. */
export interface VesselCooling {
  /** Heat transfer coefficient, W/(m²·K). */
  readonly transfer: Figure<'W/(m²·K)'>;
  /** Surface that is wetted inside and cooled outside, m². */
  readonly area: Figure<'m²'>;
  readonly coolant: Figure<'°C'>;
}

/**
 * Cooling power of a vessel, W: P = U·A·(T − T_coolant).
 * @returns why not, where the mixture is no warmer than what cools it. Source: Newton's law of cooling.
 */
export function coolingPower({ transfer, area, coolant }: VesselCooling, mixture: Figure<'°C'>): Maybe<'W'> {
  const difference = mixture.value - coolant.value;
  if (!(difference > 0)) return unknown('no cooling difference', { mixture: mixture.value, coolant: coolant.value });
  const value = transfer.value * area.value * difference;
  return known(computed('cooling power', value, 'W', 'U × A × ΔT', [transfer, area, mixture, coolant]));
}
