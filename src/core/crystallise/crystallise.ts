/** One crystallisation, all from solubilities in g per 100 (mL or g) of solvent; nothing supersaturates. */
export interface Crystallisation {
  /** What goes in, g, ≥ 0. */
  readonly grams: number;
  /** mL or g, in the unit of the solubility, ≥ 0. */
  readonly solvent: number;
  readonly hot: number;
  readonly cold: number;
  /** Cold solvent the crystals are washed with, ≥ 0. */
  readonly wash?: number;
}

export interface Crop {
  /** What the hot solvent can hold, g. */
  readonly capacity: number;
  /** What stays undissolved when hot, g. */
  readonly undissolved: number;
  /** Left in the cold liquor, g. */
  readonly liquor: number;
  /** Taken by the washings at most, g. */
  readonly washed: number;
  readonly crystals: number;
  /** Crystals of what went in, %; 0 where nothing did. */
  readonly recoveryPercent: number;
}

/**
 * What one crystallisation gives at best: what the cold liquor holds stays in it, and the washings leave saturated.
 * grams = crystals + liquor + washed + undissolved. What does not dissolve hot is filtered off before.
 */
export function crystallise({ grams, solvent, hot, cold, wash = 0 }: Crystallisation): Crop {
  const capacity = (hot * solvent) / 100;
  const dissolved = Math.min(grams, capacity);
  const liquor = Math.min(dissolved, (cold * solvent) / 100);
  const washed = Math.min(dissolved - liquor, (cold * wash) / 100);
  const crystals = dissolved - liquor - washed;
  const recoveryPercent = grams > 0 ? (100 * crystals) / grams : 0;
  return { capacity, undissolved: grams - dissolved, liquor, washed, crystals, recoveryPercent };
}

/** Least hot solvent that dissolves all of it, mL or g. @param grams ≥ 0 g. @param hot > 0 g per 100 of solvent. */
export function leastSolvent(grams: number, hot: number): number {
  if (!(hot > 0)) throw new RangeError(`leastSolvent needs a hot solubility above 0 g (got ${hot} g)`);
  return (100 * grams) / hot;
}

/**
 * A second crop, g: from the liquor after a part of its solvent was taken off, cooled to the same temperature.
 * @param liquor g dissolved. @param solvent mL or g before. @param takenOff fraction 0 … 1. @param cold g per 100.
 */
export function secondCrop(liquor: number, solvent: number, takenOff: number, cold: number): number {
  if (!(takenOff >= 0 && takenOff <= 1)) throw new RangeError(`secondCrop needs a fraction from 0 to 1 (got ${takenOff})`);
  return Math.max(0, liquor - (cold * solvent * (1 - takenOff)) / 100);
}

/** What several crops bring back of what went in, and what is lost; dry crops of the same substance, g each, ≥ 0. */
export interface Recovered {
  readonly total: number;
  readonly lost: number;
  /** Of what went in, %; 0 where nothing did. */
  readonly recoveryPercent: number;
}

/** Adds up crops, first and further ones apart. @param grams what went in, g, ≥ 0. @param crops g each, ≥ 0. */
export function recovered(grams: number, crops: readonly number[]): Recovered {
  const total = crops.reduce((sum, one) => sum + one, 0);
  return { total, lost: grams - total, recoveryPercent: grams > 0 ? (100 * total) / grams : 0 };
}
