import { cheapest, type Dictionary, mostShort, pivot, ROUNDING } from './dictionary.ts';
import type { LeastCost, LinearProgram } from './linear-program.ts';
import { solveLinear } from './solve-linear.ts';

/**
 * The answer of a linear program without the rounding of the way there.
 *
 *     rows that decide ──solve──▶ x ──every row against its own size──▶ all reached: done
 *            ▲                                   │ one is short
 *            └──── one more turn of the simplex ◀┘
 *
 * Solving for what the first solving left over makes each row right to its own size (iterative refinement: Skeel,
 * Math. Comp. 35 (1980) 817), so that 1 µmol beside 100 t counts. Where no turn helps, the answer that was short least
 * is given, never a refusal: that the floors can be reached to rounding is known by then.
 */

/** What a sum of doubles may be off by, relative to the sizes added up. */
const SUM_ROUNDING = 1e-14;
/** What a start may be off by, relative to what it is worked out from: smaller than that, it is none. */
const START_ROUNDING = 4e-16;
/** A start this small beside the largest is none: less than one molecule for a mole. */
const NO_MOLECULE = 1e-24;
/** Times what a solving left over is solved for. */
const REFINEMENTS = 2;

interface Exact {
  /** As solved; what is below zero is taken as nothing in `x`. */
  readonly solved: readonly number[];
  readonly x: readonly number[];
  readonly tight: readonly number[];
  /** By row: what it has beyond its floor with `x`, and what that may be off by. */
  readonly beyond: readonly number[];
  readonly allowance: readonly number[];
}

/** @param dictionary where the rough way ended: no row short by more than the rounding it carried along. */
export function exactly(program: LinearProgram, dictionary: Dictionary): LeastCost & { readonly ok: true } {
  let best = exactAt(program, dictionary);
  let now = best;
  // Each turn mends a row; more turns than rows and columns only a fault in the method could ask for.
  const most = program.rows.length + program.costs.length;
  for (let turn = 0; turn < most && worst(now) > 1; turn += 1) {
    refresh(program, dictionary, now);
    const leaving = mostShort(dictionary);
    const entering = leaving === null ? null : cheapest(dictionary, leaving);
    if (leaving === null || entering === null) break;
    pivot(dictionary, leaving, entering);
    now = exactAt(program, dictionary);
    if (worst(now) < worst(best)) best = now;
  }
  return { ok: true, x: best.x, tight: best.tight };
}

/** How far the shortest row is below its floor, in units of what it may be off by. */
function worst({ beyond, allowance }: Exact): number {
  return beyond.reduce((most, value, i) => Math.max(most, -value / Math.max(allowance[i] ?? 0, Number.MIN_VALUE)), 0);
}

/** Solves the rows that decide from the program itself, and looks at all the others. */
function exactAt(program: LinearProgram, dictionary: Dictionary): Exact {
  const { rows, floors, scale, costs } = program;
  const { basic, others, constant } = dictionary;
  const columns = costs.length;
  const running = basic.filter((variable) => variable < columns).sort((a, b) => a - b);
  const tight = others.flatMap((variable) => (variable >= columns ? [variable - columns] : [])).sort((a, b) => a - b);
  const found = refined(
    tight.map((i) => running.map((j) => rows[i]?.[j] ?? 0)),
    tight.map((i) => floors[i] ?? 0),
  );
  const solved = new Array<number>(columns).fill(0);
  running.forEach((variable, place) => {
    solved[variable] = found?.[place] ?? constant[basic.indexOf(variable)] ?? 0;
  });
  const sizes = rows.map((row, i) =>
    row.reduce((sum, value, j) => sum + Math.abs(value * (solved[j] ?? 0)), Math.abs(floors[i] ?? 0)),
  );
  const noise = noiseOf(dictionary, columns, sizes);
  const none = solved.reduce((most, value) => Math.max(most, value), 0) * NO_MOLECULE;
  const x = solved.map((value, j) => (value > Math.max(none, noise[j] ?? 0) ? value : 0));
  return {
    solved,
    x,
    tight,
    beyond: rows.map((row, i) => dot(row, x) - (floors[i] ?? 0)),
    allowance: rows.map((_, i) => ROUNDING * (scale[i] ?? 0) + SUM_ROUNDING * (sizes[i] ?? 0)),
  };
}

/** What each start may be off by: the rounding of the rows that decide, as it reaches the start. */
function noiseOf({ basic, others, factor }: Dictionary, columns: number, sizes: readonly number[]): readonly number[] {
  const noise = new Array<number>(columns).fill(0);
  basic.forEach((variable, place) => {
    if (variable >= columns) return;
    noise[variable] = others.reduce((sum, other, j) => {
      return other < columns ? sum : sum + Math.abs(factor[place]?.[j] ?? 0) * START_ROUNDING * (sizes[other - columns] ?? 0);
    }, 0);
  });
  return noise;
}

/** Solved, and solved again for what is left over; null where the matrix is singular. */
function refined(matrix: readonly (readonly number[])[], right: readonly number[]): readonly number[] | null {
  let x = solveLinear(matrix, right);
  for (let time = 0; x && time < REFINEMENTS; time += 1) {
    const now = x;
    const rest = solveLinear(
      matrix,
      matrix.map((row, i) => (right[i] ?? 0) - dot(row, now)),
    );
    if (!rest) return now;
    x = now.map((value, i) => value + (rest[i] ?? 0));
  }
  return x;
}

/** Sets what stands in the dictionary, and what it may be off by, to what the program itself says. */
function refresh({ rows, floors, costs }: LinearProgram, { basic, constant, rounding }: Dictionary, exact: Exact): void {
  const columns = costs.length;
  basic.forEach((variable, place) => {
    const row = variable - columns;
    constant[place] = row < 0 ? (exact.solved[variable] ?? 0) : dot(rows[row] ?? [], exact.solved) - (floors[row] ?? 0);
    rounding[place] = row < 0 ? unfelt(rows, variable, exact.allowance) : (exact.allowance[row] ?? 0);
  });
}

/** A start this far below zero may be taken as nothing: no row is left short by it. */
function unfelt(rows: LinearProgram['rows'], variable: number, allowance: readonly number[]): number {
  return rows.reduce((least, row, i) => {
    const value = row[variable] ?? 0;
    return value < 0 ? Math.min(least, (allowance[i] ?? 0) / -value) : least;
  }, Number.POSITIVE_INFINITY);
}

function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, i) => sum + value * (other[i] ?? 0), 0);
}
