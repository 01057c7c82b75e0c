import type { Balance, Settings } from '../plan/settings.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import { smallestNetFigure, smallestNetMass } from './smallest-mass.ts';

/** A solution made only to have something that can be weighed: everything by mass. */
export interface StockSolution {
  /** To dissolve. */
  readonly dissolve: Figure<'g'>;
  /** Mass of the whole solution. */
  readonly total: Figure<'g'>;
  /** Of the solution, to take. */
  readonly take: Figure<'g'>;
  readonly balance: string;
  /** The balance the whole solution is weighed on. */
  readonly totalBalance: string;
}

/** Steps a mass is rounded up to, so that it is easily said. */
const ROUND = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10] as const;

/**
 * The smallest stock solution that makes a mass weighable: dissolve `a`, bring to `b`, take `c = wanted·b/a`, all in g.
 * The three weighings together keep the tolerance where (M/a)² + (M/c)² + (N/b)² ≤ 1, M and N being the smallest net
 * masses of the two balances; the smallest b is at a = c: a² = M² + √(M⁴ + N²·wanted²). a and b are rounded up.
 * Null where the balance weighs it as it is, or none carries the solution.
 * @param wanted > 0, g, contained in what is taken; @param tolerance relative, > 0. Source: USP ⟨41⟩ and error propagation.
 */
export function stockSolution(wanted: Figure<'g'>, tolerance: number, settings: Settings): StockSolution | null {
  if (!(wanted.value > 0)) return null;
  const byLeast = settings.balances.toSorted((a, b) => smallestNetMass(a, tolerance) - smallestNetMass(b, tolerance));
  const [finest] = byLeast;
  if (!finest || smallestNetMass(finest, tolerance) <= wanted.value) return null;
  for (const carrier of byLeast) {
    const made = madeWith(wanted, tolerance, finest, carrier);
    if (made) return made;
  }
  return null;
}

function madeWith(wanted: Figure<'g'>, tolerance: number, finest: Balance, carrier: Balance): StockSolution | null {
  const own = smallestNetFigure(finest, tolerance);
  const whole = smallestNetFigure(carrier, tolerance);
  const m = own.value;
  const least = Math.sqrt(m * m + Math.sqrt(m ** 4 + (whole.value * wanted.value) ** 2));
  const dissolve = roundUp(least);
  const total = roundUp((dissolve * least) / wanted.value);
  const take = (wanted.value * total) / dissolve;
  if (total > carrier.largest || Math.max(dissolve, take) > finest.largest) return null;
  const how = 'smallest that keeps the accepted range over the three weighings, rounded up';
  const dissolved = computed('to dissolve', dissolve, 'g', how, [own]);
  const made = computed('stock solution in all', total, 'g', how, [own, whole, wanted]);
  return {
    dissolve: dissolved,
    total: made,
    take: computed('to take of the stock solution', take, 'g', 'amount wanted × solution in all ÷ dissolved', [
      wanted,
      made,
      dissolved,
    ]),
    balance: finest.name,
    totalBalance: carrier.name,
  };
}

function roundUp(grams: number): number {
  const power = 10 ** Math.floor(Math.log10(grams));
  const step = ROUND.find((one) => one * power >= grams * (1 - 1e-12)) ?? 10;
  return Number((step * power).toPrecision(6));
}
