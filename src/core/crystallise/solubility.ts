import type { Figure } from '../quantity/figure.ts';
import { computed } from '../quantity/figure.ts';
import { type Maybe, known, unknown } from '../words/why.ts';

/** What a solubility is counted per. The basis is always named: 60 g per 100 g of solution is 150 g per 100 g of solvent. */
export type SolubilityBasis = '100 mL solvent' | '100 g solvent' | '100 g solution';

/** A measured or tabulated solubility. */
export interface SolubilityPoint {
  readonly celsius: number;
  /** g of solute. */
  readonly grams: number;
}

const ZERO_CELSIUS = 273.15;

/**
 * g of solute per 100 of solvent (mL or g), from any basis.
 * @param grams ≥ 0; below 100 where it is counted per 100 g of solution.
 * @throws RangeError where a solution would hold more solute than itself.
 */
export function perSolvent(grams: number, basis: SolubilityBasis): number {
  if (!(grams >= 0) || (basis === '100 g solution' && grams >= 100)) {
    throw new RangeError(`a solubility per ${basis} needs to be 0 or more, and below 100 g of a solution (got ${grams} g)`);
  }
  return basis === '100 g solution' ? (100 * grams) / (100 - grams) : grams;
}

/**
 * Solubility at a temperature, g per 100 (mL or g) of solvent: between the two neighbouring points the logarithm runs
 * straight against 1/T, as van 't Hoff has it, so that every point itself is honoured.
 * @param points two or more at different temperatures, each > 0 g. @param celsius °C.
 * @returns why not, outside the points: nothing is extrapolated.
 * Source: Atkins' Physical Chemistry, ideal solubility (ln x against 1/T).
 */
export function solubilityAt(points: readonly SolubilityPoint[], basis: SolubilityBasis, celsius: number): Maybe<'g'> {
  const sorted = [...points].sort((a, b) => a.celsius - b.celsius);
  const [first, last] = [sorted[0], sorted.at(-1)];
  if (!first || !last || first.celsius === last.celsius) return unknown('too few solubility points');
  if (celsius < first.celsius || celsius > last.celsius) {
    return unknown('outside solubility points', { celsius, from: first.celsius, to: last.celsius });
  }
  const at = sorted.findIndex((point) => point.celsius >= celsius);
  const [below, above] = [sorted[Math.max(0, at - 1)] ?? first, sorted[at] ?? last];
  const value = between(below, above, basis, celsius);
  return known(
    computed(
      `solubility at ${celsius} °C, g per 100 of solvent`,
      value,
      'g',
      'between its neighbouring points, ln S straight against 1/T',
      [pointFigure(below, basis), pointFigure(above, basis)],
    ),
  );
}

function between(below: SolubilityPoint, above: SolubilityPoint, basis: SolubilityBasis, celsius: number): number {
  const [low, high] = [perSolvent(below.grams, basis), perSolvent(above.grams, basis)];
  if (below.celsius === above.celsius) return low;
  const inverse = (degrees: number): number => 1 / (degrees + ZERO_CELSIUS);
  const part = (inverse(celsius) - inverse(below.celsius)) / (inverse(above.celsius) - inverse(below.celsius));
  return Math.exp(Math.log(low) + part * (Math.log(high) - Math.log(low)));
}

function pointFigure(point: SolubilityPoint, basis: SolubilityBasis): Figure<'g'> {
  return {
    label: `solubility at ${point.celsius} °C, per ${basis}`,
    value: point.grams,
    unit: 'g',
    digits: 3,
    from: { kind: 'entered', where: 'the solubility points of the step' },
  };
}

/** A straight line through the logarithms of all points. */
export interface VantHoffFit {
  /** ln S = intercept + slope ÷ T, S in g per 100 of solvent, T in K. */
  readonly slope: number;
  readonly intercept: number;
  /** Largest distance of a point from the line, as a part of its solubility: 0.1 is a tenth. */
  readonly scatter: number;
}

/**
 * Least-squares line of ln S against 1/T through two or more points at different temperatures, each > 0 g; null where
 * there are fewer. The line is for the eye: amounts follow the points.
 */
export function vantHoffFit(points: readonly SolubilityPoint[], basis: SolubilityBasis): VantHoffFit | null {
  const rows = points.map((point) => ({ x: 1 / (point.celsius + ZERO_CELSIUS), y: Math.log(perSolvent(point.grams, basis)) }));
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
  return Math.exp(fit.intercept + fit.slope / (celsius + ZERO_CELSIUS));
}
