import { ROUNDING } from './needs.ts';
import { solveLinear } from './solve-linear.ts';

/**
 * The least starts that meet every need.
 *
 *      draws            step j uses A[i][j] mol of what step i makes (as basis of i) per mol of its own basis
 *        │
 *   x_j ─┴─▶ x_i        x_i = max( floor_i , need_i + Σ_j A[i][j] · x_j )
 *
 * Every coefficient is ≥ 0, so starts only ever push other starts up, and there is one least solution. Steps are
 * taken group by group, users before makers: a group of one is a plain division; a loop (a step that in the end
 * feeds itself) is solved as a small linear system on the steps that really have to run.
 */

export interface StartSystem {
  readonly count: number;
  /** use(i, j) ≥ 0: mol of step i's basis needed per mol of step j's basis. */
  readonly use: (i: number, j: number) => number;
  /** The steps j of which use(i, j) may be more than 0, in the order of the groups. */
  readonly users: (i: number) => readonly number[];
  /** Need from draws less stock, as mol of step i's basis; negative where stock exceeds the draws. */
  readonly need: readonly number[];
  /** Size of what `need` is the difference of: a difference this much smaller is rounding, not a need. */
  readonly scale: readonly number[];
  /** What must be started whatever the others use; ≥ 0. */
  readonly floor: readonly number[];
  /** Groups of steps that feed each other, users before makers. */
  readonly groups: readonly (readonly number[])[];
}

/** A loop that needs this many times its draws returns, within rounding, as much as it takes. */
const NO_END = 1e9;

export type Starts =
  | { readonly ok: true; readonly starts: readonly number[] }
  | { readonly ok: false; readonly loop: readonly number[] };

/** @returns mol of basis to start per step, or the loop that does not return less than it takes. */
export function solveStarts(system: StartSystem): Starts {
  const starts = new Array<number>(system.count).fill(0);
  for (const group of system.groups) {
    // The steps of the group itself have no start yet.
    const fromOutside = (i: number): number =>
      system.users(i).reduce((sum, j) => sum + system.use(i, j) * (starts[j] ?? 0), system.need[i] ?? 0);
    const constant = group.map(fromOutside);
    const floor = group.map((i) => Math.max(0, system.floor[i] ?? 0));
    const inner = group.map((i) => group.map((j) => system.use(i, j)));
    const rounding = group.map(
      (i, place) => ROUNDING * ((system.scale[i] ?? 0) + (constant[place] ?? 0) - (system.need[i] ?? 0)),
    );
    const solved = leastSolution(inner, constant, floor, rounding);
    if (!solved) return { ok: false, loop: group };
    group.forEach((i, place) => {
      starts[i] = solved[place] ?? 0;
    });
  }
  return { ok: true, starts };
}

/**
 * Least x = max(floor, constant + A·x) for A ≥ 0. A step runs once what the running steps use of it exceeds its
 * floor; each added step only raises the others, so the set of running steps grows to the right one.
 * @returns null where a running loop returns as much as it takes, or more (spectral radius ≥ 1).
 */
export function leastSolution(
  a: readonly (readonly number[])[],
  constant: readonly number[],
  floor: readonly number[],
  rounding: readonly number[] = [],
): readonly number[] | null {
  const size = constant.length;
  const running = new Set<number>();
  let x: number[] = [...floor];
  for (let round = 0; round <= size; round += 1) {
    const wanted = constant.map((c, i) => x.reduce((sum, xj, j) => sum + (a[i]?.[j] ?? 0) * xj, c));
    const joining = wanted.flatMap((value, i) => (!running.has(i) && value > (floor[i] ?? 0) + (rounding[i] ?? 0) ? [i] : []));
    if (joining.length === 0) return x;
    for (const i of joining) running.add(i);
    const solved = solveRunning(
      a,
      constant,
      floor,
      [...running].sort((p, q) => p - q),
    );
    if (!solved) return null;
    x = solved;
  }
  return x;
}

function solveRunning(
  a: readonly (readonly number[])[],
  constant: readonly number[],
  floor: readonly number[],
  running: readonly number[],
): number[] | null {
  const isRunning = new Set(running);
  const matrix = running.map((i) => running.map((j) => (i === j ? 1 : 0) - (a[i]?.[j] ?? 0)));
  const right = running.map((i) =>
    floor.reduce((sum, fixed, j) => (isRunning.has(j) ? sum : sum + (a[i]?.[j] ?? 0) * fixed), constant[i] ?? 0),
  );
  // I − A has a non-negative inverse exactly where the loop returns less than it takes: then, and only then, the
  // answer for an all-ones right-hand side is positive throughout.
  const ones = solveLinear(
    matrix,
    running.map(() => 1),
  );
  if (!ones || ones.some((value) => !(value > 0 && value < NO_END))) return null;
  const solved = solveLinear(matrix, right);
  if (!solved) return null;
  const x = [...floor];
  running.forEach((i, place) => {
    x[i] = Math.max(floor[i] ?? 0, solved[place] ?? 0);
  });
  return x;
}
