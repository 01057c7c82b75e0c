/**
 * Standard uncertainties of a made solution. Source of the rules: EURACHEM/CITAC Guide QUAM, 3rd ed., 8.1 and example A1.
 */

/** Standard uncertainty of limits ±h without further knowledge: h/√3. Any unit. */
export function rectangular(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}

/** Standard uncertainty of limits ±h where the middle is likelier, e.g. a glass tolerance: h/√6. Any unit. */
export function triangular(halfWidth: number): number {
  return halfWidth / Math.sqrt(6);
}

/** Root of the sum of squares: the standard uncertainty of independent parts, all in one unit. */
export function combined(parts: readonly number[]): number {
  return Math.hypot(...parts);
}

export interface VolumeSpread {
  /** mL. */
  readonly volume: number;
  /** Tolerance of the glass, ± mL. */
  readonly tolerance: number;
  /** Temperature of the room, ± K around that of the calibration, and cubic expansion of the liquid, 1/K. */
  readonly kelvin: number;
  readonly expansion: number;
  /** Standard deviation of filling to the mark, mL. */
  readonly repeatability: number;
}

/** Standard uncertainty of a volume, mL: glass (triangular), temperature (rectangular) and filling. Source: QUAM A1. */
export function volumeUncertainty(spread: VolumeSpread): number {
  return combined([
    triangular(spread.tolerance),
    rectangular(spread.volume * spread.kelvin * spread.expansion),
    spread.repeatability,
  ]);
}

/** A value with its standard uncertainty, in the same unit. */
export interface Spread {
  readonly value: number;
  readonly uncertainty: number;
}

/**
 * Concentration of a solution made by mass and brought to a volume, g/mL: mass × purity ÷ volume, relative uncertainties
 * added in quadrature. Mass in g, purity as a fraction, volume in mL; all > 0. Source: QUAM A1.
 */
export function madeConcentration(mass: Spread, purity: Spread, volume: Spread): Spread {
  const value = (mass.value * purity.value) / volume.value;
  const relative = combined([mass, purity, volume].map((part) => part.uncertainty / part.value));
  return { value, uncertainty: value * relative };
}
