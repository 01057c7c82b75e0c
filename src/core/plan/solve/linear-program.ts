import { cheapest, type Dictionary, firstDictionary, mostShort, pivot } from './dictionary.ts';
import { exactly } from './exact-starts.ts';

/**
 * Least cost under floors:  minimise c·x  where  A·x ≥ b  and  x ≥ 0,  with c ≥ 0.
 *
 * The dual simplex method starts where nothing is started (x = 0). While some floor is not reached, it takes the worst
 * of them and raises the step that reaches it at the least extra cost, never making what is done already dearer; it
 * ends when nothing is short. Costs are lists, compared from the front: money first, say, then mass. Ties go to the
 * smaller index (Bland), so it cannot go round in circles.
 *
 * What is carried from turn to turn carries its rounding along, and beside 100 t that hides a draw of 1 µmol. So at the
 * end `exactly` works it out anew from the program itself, row by row against the row's own size.
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

/** @returns the cheapest x, exact to rounding, or the row that cannot be reached. */
export function leastCost(program: LinearProgram): LeastCost {
  const columns = program.costs.length;
  const dictionary = firstDictionary(program);
  // Far more than it ever takes; only a fault in the method could use it up.
  const most = 200 * (columns + program.rows.length + 1);
  for (let turn = 0; turn < most; turn += 1) {
    const leaving = mostShort(dictionary);
    if (leaving === null) return exactly(program, dictionary);
    const entering = cheapest(dictionary, leaving);
    if (entering === null) return unreachable(dictionary, leaving, columns);
    pivot(dictionary, leaving, entering);
  }
  throw new Error('the least cost needs to be reached in a bounded number of turns');
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
