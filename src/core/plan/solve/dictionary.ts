import type { LinearProgram } from './linear-program.ts';

/** Relative size below which a difference of doubles means nothing. */
export const ROUNDING = 1e-12;

/** The dictionary of the simplex method: every basic variable as a constant plus a sum over the others. */
export interface Dictionary {
  /** Variables 0 … n−1 are the program's; n + i is what row i has beyond its floor. */
  readonly basic: number[];
  readonly others: number[];
  readonly constant: number[];
  readonly factor: number[][];
  readonly cost: number[][];
  /** What a constant of this row may be off by. */
  readonly rounding: number[];
}

/** The dictionary where nothing is started: every row stands below zero by its floor. */
export function firstDictionary({ rows, floors, scale, costs }: LinearProgram): Dictionary {
  const columns = costs.length;
  return {
    basic: rows.map((_, i) => columns + i),
    others: costs.map((_, j) => j),
    constant: floors.map((floor) => -floor),
    factor: rows.map((row) => [...row]),
    cost: costs.map((one) => [...one]),
    rounding: scale.map((size) => size * ROUNDING),
  };
}

/** The row furthest below zero, in units of its own size. */
export function mostShort({ constant, rounding, basic }: Dictionary): number | null {
  let found: number | null = null;
  let worst = 1;
  constant.forEach((value, i) => {
    const short = -value / Math.max(rounding[i] ?? 0, Number.MIN_VALUE);
    if (short > worst || (short === worst && found !== null && (basic[i] ?? 0) < (basic[found] ?? 0))) {
      worst = short;
      found = i;
    }
  });
  return found;
}

/** The other variable that raises this row at the least extra cost. */
export function cheapest({ factor, cost, others }: Dictionary, row: number): number | null {
  const own = factor[row] ?? [];
  const largest = own.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  let found: number | null = null;
  own.forEach((value, j) => {
    if (value <= largest * ROUNDING) return;
    if (found === null) found = j;
    else if (cheaper(cost[j] ?? [], value, cost[found] ?? [], own[found] ?? 1, (others[j] ?? 0) < (others[found] ?? 0)))
      found = j;
  });
  return found;
}

function cheaper(one: readonly number[], per: number, other: readonly number[], otherPer: number, earlier: boolean): boolean {
  for (const [level, cost] of one.entries()) {
    const a = cost / per;
    const b = (other[level] ?? 0) / otherPer;
    if (Math.abs(a - b) > ROUNDING * Math.max(Math.abs(a), Math.abs(b))) return a < b;
  }
  return earlier;
}

/** Swaps a basic variable with another: solves the row for the entering one and puts it in everywhere. */
export function pivot(dictionary: Dictionary, row: number, column: number): void {
  const { basic, others, constant, factor, cost, rounding } = dictionary;
  const own = factor[row] as number[];
  const by = own[column] as number;
  [basic[row], others[column]] = [others[column] as number, basic[row] as number];
  constant[row] = -(constant[row] as number) / by;
  rounding[row] = (rounding[row] as number) / Math.abs(by);
  own.forEach((value, j) => {
    own[j] = j === column ? 1 / by : -value / by;
  });
  const put = (target: number[]): number => {
    const times = target[column] as number;
    if (times === 0) return 0;
    own.forEach((value, j) => {
      target[j] = j === column ? times * value : (target[j] as number) + times * value;
    });
    return times;
  };
  factor.forEach((target, i) => {
    if (i === row) return;
    const times = put(target);
    constant[i] = (constant[i] as number) + times * (constant[row] as number);
    rounding[i] = (rounding[i] as number) + Math.abs(times) * (rounding[row] as number);
  });
  const levels = cost[0]?.length ?? 0;
  for (let level = 0; level < levels; level += 1) {
    const line = cost.map((one) => one[level] as number);
    put(line);
    line.forEach((value, j) => {
      (cost[j] as number[])[level] = j === column ? value : Math.max(0, value);
    });
  }
}
