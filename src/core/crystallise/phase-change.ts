import { inverseKelvin, type Solubility, type VantHoffFit, vantHoffFit } from './van-t-hoff.ts';

/** Where the solid under the solution becomes another one: a hydrate loses its water, a crystal form changes. */
export interface PhaseChange {
  /** Between these two points, °C. */
  readonly from: number;
  readonly to: number;
  /** Where the lines of the two sides cross, held between the points; as stated, where it was. °C. */
  readonly near: number;
  readonly stated: boolean;
}

/** One straight line misses a point by more than this part, else there is nothing to explain. */
const MISSED = 0.1;
/** A smooth bend (a parabola) misses a point by this part too: bends alone are common and no other solid. */
const BENT = 0.03;
/** Two lines have to leave less than this part of what the parabola leaves. */
const BETTER = 0.6;
const LEAST_POINTS = 5;
/** The lines have to cross this near to the gap, K. */
const CROSSES_WITHIN = 20;

/**
 * A change of the solid told by the points alone: two straight lines of ln S against 1/T fit far better than one line and
 * than a smooth bend, and the upper one rises less (the stable solid is the less soluble one, so that the curve can only
 * bend down there). Held against the built-in table, where the handbook marks such changes: tests/core/phase-change.
 * @param points in order of temperature, five or more, else null. The thresholds are common practice, no source.
 */
export function findPhaseChange(points: readonly Solubility[]): PhaseChange | null {
  const whole = vantHoffFit(points);
  if (!whole || points.length < LEAST_POINTS || whole.scatter <= MISSED) return null;
  const bend = parabola(points);
  if (bend.largest <= BENT) return null;
  const best = points
    .flatMap((_, at) => (at < 2 || at > points.length - 2 ? [] : [split(points, at)]))
    .reduce((least, one) => (one.squares < least.squares ? one : least));
  // ln S = a + b/T: the more negative b is, the faster the solubility rises.
  const bendsDown = best.below.slope < best.above.slope;
  if (!bendsDown || best.squares > BETTER ** 2 * bend.squares) return null;
  const near = crossing(best.below, best.above);
  if (!(near > best.from - CROSSES_WITHIN && near < best.to + CROSSES_WITHIN)) return null;
  return { from: best.from, to: best.to, near: Math.min(best.to, Math.max(best.from, near)), stated: false };
}

/** The change a person states, between the two points around it; null where it lies outside the points. */
export function statedChange(points: readonly Solubility[], celsius: number): PhaseChange | null {
  const from = points.findLast((point) => point.celsius <= celsius);
  const to = points.find((point) => point.celsius > celsius);
  return from && to ? { from: from.celsius, to: to.celsius, near: celsius, stated: true } : null;
}

interface Split {
  readonly below: VantHoffFit;
  readonly above: VantHoffFit;
  readonly from: number;
  readonly to: number;
  readonly squares: number;
}

const LEVEL: VantHoffFit = { slope: 0, intercept: 0, scatter: Infinity };

function split(points: readonly Solubility[], at: number): Split {
  const [low, high] = [points.slice(0, at), points.slice(at)];
  const [below, above] = [vantHoffFit(low) ?? LEVEL, vantHoffFit(high) ?? LEVEL];
  const squares = (part: readonly Solubility[], { slope, intercept }: VantHoffFit): number =>
    part.reduce((sum, one) => sum + (Math.log(one.grams) - intercept - slope * inverseKelvin(one.celsius)) ** 2, 0);
  return {
    below,
    above,
    from: low.at(-1)?.celsius ?? Number.NaN,
    to: high[0]?.celsius ?? Number.NaN,
    squares: squares(low, below) + squares(high, above),
  };
}

function crossing(below: VantHoffFit, above: VantHoffFit): number {
  const inverse = (above.intercept - below.intercept) / (below.slope - above.slope);
  return inverse > 0 ? 1 / inverse - 1 / inverseKelvin(0) : Number.NaN;
}

/** What a parabola of ln S against 1/T leaves: orthogonal polynomials, so that no equations need solving. */
function parabola(points: readonly Solubility[]): { readonly squares: number; readonly largest: number } {
  const x = points.map((point) => inverseKelvin(point.celsius));
  const y = points.map((point) => Math.log(point.grams));
  const sum = (work: (at: number) => number): number => x.reduce((total, _, at) => total + work(at), 0);
  const [meanX, meanY] = [sum((at) => x[at] ?? 0) / x.length, sum((at) => y[at] ?? 0) / x.length];
  const first = x.map((one) => one - meanX);
  const of = (row: readonly number[], at: number): number => row[at] ?? 0;
  const norm = sum((at) => of(first, at) ** 2);
  const skew = sum((at) => of(first, at) ** 3) / norm;
  const second = first.map((one) => one * one - skew * one - norm / x.length);
  const [a, b] = [first, second].map((row) => sum((at) => of(row, at) * of(y, at)) / sum((at) => of(row, at) ** 2));
  const left = y.map((one, at) => one - meanY - (a ?? 0) * of(first, at) - (b ?? 0) * of(second, at));
  return { squares: left.reduce((total, one) => total + one * one, 0), largest: Math.max(...left.map(Math.abs)) };
}
