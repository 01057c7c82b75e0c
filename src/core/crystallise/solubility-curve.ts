import { computed, type Figure, sourced } from '../quantity/figure.ts';
import { type Maybe, known, unknown } from '../words/why.ts';
import { findPhaseChange, type PhaseChange, statedChange } from './phase-change.ts';
import { along, inverseKelvin, type Solubility, type VantHoffFit, vantHoffFit } from './van-t-hoff.ts';

/** A point of a curve with where it came from. */
export interface CurvePoint extends Solubility {
  readonly figure: Figure<'g'>;
}

/** The points of one solid with their line; no line where there is only one. */
export interface Side {
  readonly points: readonly CurvePoint[];
  readonly fit: VantHoffFit | null;
}

/** All that is known of a solubility: one side, or two where the solid changes between them. */
export interface SolubilityCurve {
  /** One for each temperature, in order. */
  readonly points: readonly CurvePoint[];
  readonly sides: readonly Side[];
  readonly change: PhaseChange | null;
  /** A change that was stated outside the points: nothing is carried across it. */
  readonly changeOutside: number | null;
  /** Temperatures for which more than one solubility was given. */
  readonly conflicts: readonly { readonly celsius: number; readonly least: number; readonly most: number }[];
}

/** How far a line is carried beyond its last point, K: common practice, no source. */
export const REACH = 15;

/**
 * Builds the curve of some points. Of several at one temperature the geometric mean is taken, and told.
 * @param points g per 100 of solvent, > 0. @param changeCelsius where the solid changes, if a person says so.
 */
export function solubilityCurve(points: readonly CurvePoint[], changeCelsius?: number): SolubilityCurve {
  const merged = mergedPoints(points);
  const change = changeCelsius === undefined ? findPhaseChange(merged) : statedChange(merged, changeCelsius);
  const parts = change
    ? [merged.filter((one) => one.celsius <= change.from), merged.filter((one) => one.celsius >= change.to)]
    : [merged];
  return {
    points: merged,
    sides: parts.map((part) => ({ points: part, fit: vantHoffFit(part) })),
    change,
    changeOutside: change === null ? (changeCelsius ?? null) : null,
    conflicts: conflictsOf(points),
  };
}

function byTemperature(points: readonly CurvePoint[]): readonly (readonly CurvePoint[])[] {
  const groups = new Map<number, CurvePoint[]>();
  for (const point of points) groups.set(point.celsius, [...(groups.get(point.celsius) ?? []), point]);
  return [...groups.values()].sort((a, b) => (a[0]?.celsius ?? 0) - (b[0]?.celsius ?? 0));
}

function mergedPoints(points: readonly CurvePoint[]): readonly CurvePoint[] {
  return byTemperature(points).flatMap((same) => {
    const [first] = same;
    if (!first || same.length === 1) return first ? [first] : [];
    const grams = Math.exp(same.reduce((sum, one) => sum + Math.log(one.grams), 0) / same.length);
    const figures = same.map((one) => one.figure);
    const figure = computed(first.figure.label, grams, 'g', 'geometric mean of what was given for this temperature', figures);
    return [{ celsius: first.celsius, grams, figure }];
  });
}

function conflictsOf(points: readonly CurvePoint[]): SolubilityCurve['conflicts'] {
  return byTemperature(points).flatMap((same) => {
    const grams = same.map((one) => one.grams);
    const [least, most] = [Math.min(...grams), Math.max(...grams)];
    return most > least ? [{ celsius: same[0]?.celsius ?? 0, least, most }] : [];
  });
}

/** Where a temperature lies on a curve. */
export type Where = 'between' | 'at the change' | 'beyond' | 'outside';

/** Between the points, in the gap where the solid changes, up to REACH beyond the last one, or farther outside. */
export function whereOn({ points, change, changeOutside }: SolubilityCurve, celsius: number): Where {
  const [first, last] = [points[0]?.celsius ?? Number.NaN, points.at(-1)?.celsius ?? Number.NaN];
  if (celsius >= first && celsius <= last) {
    return change && celsius > change.from && celsius < change.to ? 'at the change' : 'between';
  }
  const end = celsius < first ? first : last;
  const crossed = changeOutside !== null && (changeOutside - end) * (changeOutside - celsius) <= 0;
  return crossed || Math.abs(celsius - end) > REACH ? 'outside' : 'beyond';
}

/**
 * Solubility at a temperature, g per 100 (mL or g) of solvent. Between two points ln S runs straight against 1/T, as van 't
 * Hoff has it, so that every point itself is honoured. A little beyond the points it follows the slope of that side's
 * line; in the gap of a phase change the less soluble of the two sides holds, since that solid is the stable one. Both
 * carry the mark "estimate".
 * @returns why not: too few points, or too far outside.
 * Source: Atkins' Physical Chemistry, ideal solubility (ln x against 1/T).
 */
export function solubilityAt(curve: SolubilityCurve, celsius: number): Maybe<'g'> {
  const { points } = curve;
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last || first === last) return unknown('too few solubility points');
  const where = whereOn(curve, celsius);
  if (where === 'outside') {
    return unknown('outside solubility points', { celsius, from: first.celsius, to: last.celsius, reach: REACH });
  }
  if (where === 'between') return known(between(points, celsius));
  if (where === 'at the change') return known(atChange(curve, celsius) ?? between(points, celsius));
  const side = celsius < first.celsius ? curve.sides[0] : curve.sides.at(-1);
  const end = celsius < first.celsius ? first : last;
  if (!side?.fit) return unknown('too few solubility points');
  return known(estimate(celsius, along(side.fit, end, celsius), 'beyond its points, along their line', [end.figure]));
}

function between(points: readonly CurvePoint[], celsius: number): Figure<'g'> {
  const at = points.findIndex((point) => point.celsius >= celsius);
  const [below, above] = [points[Math.max(0, at - 1)], points[at]];
  if (!below || !above) throw new RangeError(`a temperature needs to lie between the points (got ${celsius} °C)`);
  return computed(
    labelAt(celsius),
    interpolated(below, above, celsius),
    'g',
    'between its neighbours, ln S straight against 1/T',
    [below.figure, above.figure],
  );
}

function interpolated(below: Solubility, above: Solubility, celsius: number): number {
  if (below.celsius === above.celsius) return below.grams;
  const span = inverseKelvin(above.celsius) - inverseKelvin(below.celsius);
  const part = (inverseKelvin(celsius) - inverseKelvin(below.celsius)) / span;
  return Math.exp(Math.log(below.grams) + part * (Math.log(above.grams) - Math.log(below.grams)));
}

/** Both sides carried into the gap; null where a side has no line, or would undercut the other's own point. */
function atChange({ sides }: SolubilityCurve, celsius: number): Figure<'g'> | null {
  const [low, high] = sides;
  const [below, above] = [low?.points.at(-1), high?.points[0]];
  if (!low?.fit || !high?.fit || !below || !above) return null;
  if (along(high.fit, above, below.celsius) < below.grams || along(low.fit, below, above.celsius) < above.grams) return null;
  const grams = Math.min(along(low.fit, below, celsius), along(high.fit, above, celsius));
  return estimate(celsius, grams, 'the less soluble of the two solids, each along its line', [below.figure, above.figure]);
}

function estimate(celsius: number, grams: number, how: string, of: readonly Figure[]): Figure<'g'> {
  const line = sourced('slope of the fitted line', grams, 'g', 'ln S against 1/T', 3, 'estimate');
  return computed(labelAt(celsius), grams, 'g', how, [...of, line]);
}

function labelAt(celsius: number): string {
  return `solubility at ${celsius} °C, g per 100 of solvent`;
}
