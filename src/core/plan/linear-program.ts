import { solveLinear } from './solve-linear.ts';

/**
 * Least cost under floors:  minimise c·x  where  A·x ≥ b  and  x ≥ 0,  with c ≥ 0.
 *
 * The dual simplex method starts where nothing is started (x = 0). While some floor is not reached, it takes the worst
 * of them and raises the step that reaches it at the least extra cost, never making what is done already dearer; it
 * ends when nothing is short. Costs are lists, compared from the front: money first, say, then mass. Ties go to the
 * smaller index (Bland), so it cannot go round in circles.
 */
export interface LinearProgram {
  /** One row per floor, one column per variable. */
  readonly rows: readonly (readonly number[])[];
  readonly floors: readonly number[];
  /** Size of what each floor is the difference of: what is smaller than its rounding is not a need. */
  readonly scale: readonly number[];
  /** By column: what one unit costs, most important first; every part ≥ 0. */
  readonly costs: readonly (readonly number[])[];
}

export type LeastCost =
  | {
      readonly ok: true;
      readonly x: readonly number[] /** Rows reached exactly, i.e. that decide. */;
      readonly tight: readonly number[];
    }
  /**
   * No x reaches every floor. The proof is a weight ≥ 0 for each row: the rows so weighted and added have no
   * positive factor left, but a positive floor.
   */
  | { readonly ok: false; readonly row: number; readonly proof: readonly number[] };

/** Relative size below which a difference of doubles means nothing. */
const ROUNDING = 1e-12;

/** The dictionary of the simplex method: every basic variable as a constant plus a sum over the others. */
interface Dictionary {
  /** Variables 0 … n−1 are the program's; n + i is what row i has beyond its floor. */
  readonly basic: number[];
  readonly others: number[];
  readonly constant: number[];
  readonly factor: number[][];
  readonly cost: number[][];
  /** What a constant of this row may be off by. */
  readonly rounding: number[];
}

/** @returns the cheapest x, exact to rounding, or the row that cannot be reached. */
export function leastCost(program: LinearProgram): LeastCost {
  const columns = program.costs.length;
  const dictionary = firstDictionary(program);
  // Far more than it ever takes; only a fault in the method could use it up.
  const most = 200 * (columns + program.rows.length + 1);
  for (let turn = 0; turn < most; turn += 1) {
    const leaving = mostShort(dictionary);
    if (leaving === null) return polished(program, dictionary);
    const entering = cheapest(dictionary, leaving);
    if (entering === null) return unreachable(dictionary, leaving, columns);
    pivot(dictionary, leaving, entering);
  }
  throw new Error('the least cost needs to be reached in a bounded number of turns');
}

function firstDictionary({ rows, floors, scale, costs }: LinearProgram): Dictionary {
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
function mostShort({ constant, rounding, basic }: Dictionary): number | null {
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
function cheapest({ factor, cost, others }: Dictionary, row: number): number | null {
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

/** Why a row stays short: its own weight is one, the others' are what it is made of. */
function unreachable({ basic, others, factor }: Dictionary, leaving: number, columns: number): LeastCost {
  const proof = new Array<number>(basic.length).fill(0);
  const row = (basic[leaving] ?? columns) - columns;
  proof[row] = 1;
  others.forEach((variable, j) => {
    if (variable >= columns) proof[variable - columns] = Math.max(0, -(factor[leaving]?.[j] ?? 0));
  });
  return { ok: false, row, proof };
}

/** Swaps a basic variable with another: solves the row for the entering one and puts it in everywhere. */
function pivot(dictionary: Dictionary, row: number, column: number): void {
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

/** Solves the rows that decide once more from the program itself, so that no rounding of the way there is left. */
function polished(program: LinearProgram, { basic, others, constant }: Dictionary): LeastCost {
  const columns = program.costs.length;
  const running = basic.filter((variable) => variable < columns).sort((a, b) => a - b);
  const tight = others.flatMap((variable) => (variable >= columns ? [variable - columns] : [])).sort((a, b) => a - b);
  const solved = solveLinear(
    tight.map((i) => running.map((j) => program.rows[i]?.[j] ?? 0)),
    tight.map((i) => program.floors[i] ?? 0),
  );
  const x = new Array<number>(columns).fill(0);
  running.forEach((variable, place) => {
    const rough = constant[basic.indexOf(variable)] ?? 0;
    x[variable] = Math.max(0, solved?.[place] ?? rough);
  });
  return { ok: true, x, tight };
}
