/** A solubility per 100 (mL or g) of solvent at a temperature. */
export interface Solubility {
  readonly celsius: number;
  /** g per 100 of solvent, > 0. */
  readonly grams: number;
}

/** A straight line through the logarithms of solubilities. */
export interface VantHoffFit {
  /** ln S = intercept + slope ÷ T, S in g per 100 of solvent, T in K. */
  readonly slope: number;
  readonly intercept: number;
  /** Largest distance of a point from the line, as a part of its solubility: 0.1 is a tenth. */
  readonly scatter: number;
}

const ZERO_CELSIUS = 273.15;

/** 1 ÷ T. @param celsius > −273.15 °C. @returns 1/K. */
export function inverseKelvin(celsius: number): number {
  return 1 / (celsius + ZERO_CELSIUS);
}

/**
 * Least-squares line of ln S against 1/T through two or more points at different temperatures; null where there are fewer.
 * @param points each > 0 g per 100 of solvent.
 * Source: Atkins' Physical Chemistry, ideal solubility.
 */
export function vantHoffFit(points: readonly Solubility[]): VantHoffFit | null {
  const rows = points.map((point) => ({ x: inverseKelvin(point.celsius), y: Math.log(point.grams) }));
  const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
  const [x, y] = [mean(rows.map((row) => row.x)), mean(rows.map((row) => row.y))];
  const spread = rows.reduce((sum, row) => sum + (row.x - x) ** 2, 0);
  if (rows.length < 2 || spread === 0) return null;
  const slope = rows.reduce((sum, row) => sum + (row.x - x) * (row.y - y), 0) / spread;
  const intercept = y - slope * x;
  const scatter = Math.max(...rows.map((row) => Math.abs(Math.exp(row.y - intercept - slope * row.x) - 1)));
  return { slope, intercept, scatter };
}

/** What the fitted line says at a temperature, g per 100 of solvent. @param celsius > −273.15 °C. */
export function fitted(fit: VantHoffFit, celsius: number): number {
  return Math.exp(fit.intercept + fit.slope * inverseKelvin(celsius));
}

/** A point carried along a fitted line's slope to another temperature, g per 100 of solvent. @param celsius > −273.15 °C. */
export function along(fit: VantHoffFit, from: Solubility, celsius: number): number {
  return from.grams * Math.exp(fit.slope * (inverseKelvin(celsius) - inverseKelvin(from.celsius)));
}
