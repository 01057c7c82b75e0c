import type { Facts } from '../matter/facts.ts';
import { parseFormula } from '../matter/formula.ts';
import type { Reference } from '../reference.ts';
import type { Step, Term } from './route.ts';

/** A row of whole numbers; dividing it by its greatest divisor keeps the numbers small. */
type Row = readonly bigint[];

/** Atoms may come in halves (CaSO4·½H2O): counts are taken in thousandths, so that whole numbers serve. */
const PARTS = 1000;
const LARGEST = 1000n;

/**
 * The equation of a step with the smallest whole coefficients that balance it in atoms and charge. Null where a formula
 * is not known, where nothing balances it, and where more than one set would: then it is for the chemist to say.
 * Method: Gauss-Jordan elimination over whole numbers; one free column is one set up to a factor.
 */
export function balancedEquation(
  step: Pick<Step, 'equation'>,
  facts: ReadonlyMap<string, Facts>,
  reference: Reference,
): Step['equation'] | null {
  const { uses, makes } = step.equation;
  const columns = [
    ...uses.map((term) => countsOf(term, 1, facts, reference)),
    ...makes.map((term) => countsOf(term, -1, facts, reference)),
  ];
  const known = columns.filter((one) => one !== null);
  if (known.length < columns.length) return null;
  const kinds = [...new Set(known.flatMap((one) => [...one.keys()]))];
  const solution = singleSolution(kinds.map((kind) => known.map((one) => one.get(kind) ?? 0n)));
  if (!solution || solution.some((one) => one <= 0n || one > LARGEST)) return null;
  const withCoefficients = (terms: readonly Term[], from: number): Term[] =>
    terms.map((term, index) => ({ ...term, coefficient: Number(solution[from + index] ?? 1n) }));
  return { uses: withCoefficients(uses, 0), makes: withCoefficients(makes, uses.length) };
}

function countsOf(
  term: Term,
  sign: 1 | -1,
  facts: ReadonlyMap<string, Facts>,
  reference: Reference,
): ReadonlyMap<string, bigint> | null {
  const text = facts.get(term.material)?.formula;
  const formula = text ? parseFormula(text, reference) : null;
  if (!formula?.ok) return null;
  const counts = [...formula.atoms, ['charge', formula.charge] as const];
  return new Map(counts.map(([kind, count]) => [kind, BigInt(Math.round(count * PARTS * sign))]));
}

/** The one solution of a homogeneous system up to a factor, as smallest whole numbers; null where it has none or more. */
function singleSolution(system: readonly Row[]): Row | null {
  const width = system[0]?.length ?? 0;
  const rows = system.map((row) => [...row]);
  const pivots: number[] = [];
  for (let column = 0; column < width; column += 1) {
    const at = rows.findIndex((row, index) => index >= pivots.length && row[column] !== 0n);
    if (at < 0) continue;
    const place = pivots.length;
    const pivot = rows[at] as bigint[];
    rows[at] = rows[place] as bigint[];
    rows[place] = pivot;
    pivots.push(column);
    for (const [index, row] of rows.entries()) {
      if (index !== place && row[column] !== 0n) rows[index] = reduced(row, pivot, column);
    }
  }
  const free = Array.from({ length: width }, (_, column) => column).filter((column) => !pivots.includes(column));
  const [only] = free;
  if (only === undefined || free.length > 1) return null;
  const all = pivots.map((column, index) => ({ top: -(rows[index]?.[only] ?? 0n), bottom: rows[index]?.[column] ?? 1n }));
  // Large enough that every quotient is whole; what is shared is divided out at the end.
  const common = all.reduce((product, { bottom }) => (product * size(bottom)) / divisor(product, bottom), 1n);
  const values = Array.from({ length: width }, () => 0n);
  values[only] = common;
  for (const [index, column] of pivots.entries()) {
    const one = all[index];
    if (one) values[column] = (one.top * common) / one.bottom;
  }
  const shared = values.reduce((found, one) => divisor(found, one), 0n);
  return shared === 0n ? null : values.map((one) => one / shared);
}

function reduced(row: Row, pivot: Row, column: number): bigint[] {
  const own = row[column] ?? 0n;
  const top = pivot[column] ?? 1n;
  const made = row.map((one, index) => one * top - (pivot[index] ?? 0n) * own);
  const shared = made.reduce((found, one) => divisor(found, one), 0n);
  return shared > 1n ? made.map((one) => one / shared) : made;
}

function size(one: bigint): bigint {
  return one < 0n ? -one : one;
}

/** Greatest common divisor, never negative; of 0 and a number the number. */
function divisor(one: bigint, other: bigint): bigint {
  let [a, b] = [size(one), size(other)];
  while (b !== 0n) [a, b] = [b, a % b];
  return a;
}
