import type { Balance, Settings } from '../plan/settings.ts';
import { computed, type Figure } from '../quantity/figure.ts';
import { smallestNetFigure, smallestNetMass } from './smallest-mass.ts';

/** A solution made only to have something that can be weighed: everything by mass. */
export interface StockSolution {
  /** To dissolve. */
  readonly dissolve: Figure<'g'>;
  /** Mass of the whole solution. */
  readonly total: Figure<'g'>;
  /** Where one solution would be too large: so much of it is thinned once more, to that mass in all. */
  readonly thinned: { readonly of: Figure<'g'>; readonly total: Figure<'g'> } | null;
  /** Of the solution that was made last, to take. */
  readonly take: Figure<'g'>;
  readonly balance: string;
  /** What that balance shows, g. */
  readonly readability: number;
  /** The balance the whole solution is weighed on. */
  readonly totalBalance: string;
  readonly totalReadability: number;
}

/** A larger stock solution than this is made in two steps, g: nobody dissolves 60 mg in 3 kg. Common practice, no source. */
const LARGEST_IN_ONE = 250;

const SAME = 1e-9;

/** Steps a mass is rounded up to, so that it is easily said. */
const ROUND = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10] as const;

/**
 * The smallest stock solution that makes a mass weighable: dissolve `a`, bring to `b`, take `c = wanted·b/a`, all in g.
 * The three weighings together keep the tolerance where (M/a)² + (M/c)² + (N/b)² ≤ 1, M and N being the smallest net
 * masses of the two balances; the smallest b is at a = c: a² = M² + √(M⁴ + N²·wanted²). a and b are rounded up. Where b
 * would be more than 250 g, it is thinned in two equal steps: dissolve `a`, to `b`, of that `a`, to `b`, take `c`.
 * One solution serves all portions, so that never less is dissolved than goes in with all of them.
 * Null where the balance weighs it as it is, or none carries the solution.
 * @param wanted > 0, g, contained in what is taken for one portion; @param tolerance relative, > 0; @param portions ≥ 1.
 * Source: USP ⟨41⟩ and error propagation.
 */
export function stockSolution(wanted: Figure<'g'>, tolerance: number, settings: Settings, portions = 1): StockSolution | null {
  if (!(wanted.value > 0)) return null;
  const byLeast = settings.balances.toSorted((a, b) => smallestNetMass(a, tolerance) - smallestNetMass(b, tolerance));
  const [finest] = byLeast;
  if (!finest || smallestNetMass(finest, tolerance) <= wanted.value) return null;
  const first = (way: Way): StockSolution | null => {
    for (const carrier of byLeast) {
      const made = madeIn(way, { wanted, tolerance, portions }, finest, carrier);
      if (made) return made;
    }
    return null;
  };
  const inOne = first(IN_ONE);
  return inOne && inOne.total.value <= LARGEST_IN_ONE ? inOne : (first(IN_TWO) ?? inOne);
}

/** Part of the tolerance, squared, for the three small weighings of two steps; the rest is for their two solutions. */
const SMALL_WEIGHINGS = 0.9;

/** How a stock solution is made: its masses, g, from the smallest net masses of its two balances and what is wanted. */
interface Way {
  readonly thinned: boolean;
  readonly sizes: (of: { readonly own: number; readonly whole: number; readonly wanted: number; readonly portions: number }) => {
    readonly dissolve: number;
    readonly total: number;
  };
  readonly how: string;
  readonly from: string;
  readonly of: string;
}

const IN_ONE: Way = {
  thinned: false,
  sizes: ({ own, whole, wanted, portions }) => {
    const least = Math.sqrt(own * own + Math.sqrt(own ** 4 + (whole * wanted) ** 2));
    const dissolve = roundUp(Math.max(least, portions * wanted));
    return { dissolve, total: roundUp((dissolve * least) / wanted) };
  },
  how: 'smallest that keeps the accepted range over the three weighings, rounded up',
  from: 'to take of the stock solution',
  of: 'amount wanted × solution in all ÷ dissolved',
};

const IN_TWO: Way = {
  thinned: true,
  sizes: ({ own, whole, wanted }) => {
    const dissolve = roundUp(own * Math.sqrt(3 / SMALL_WEIGHINGS));
    const least = Math.max(dissolve * Math.sqrt(dissolve / wanted), whole * Math.sqrt(2 / (1 - SMALL_WEIGHINGS)), 2 * dissolve);
    return { dissolve, total: roundUp(least) };
  },
  how: 'two equal steps that keep the accepted range over the five weighings, rounded up',
  from: 'to take of the thinned solution',
  of: 'amount wanted × (solution in all ÷ dissolved)²',
};

/** What is wanted of it, g, for each of so many portions, within a relative tolerance. */
interface Wanted {
  readonly wanted: Figure<'g'>;
  readonly tolerance: number;
  readonly portions: number;
}

function madeIn(way: Way, { wanted, tolerance, portions }: Wanted, finest: Balance, carrier: Balance): StockSolution | null {
  const own = smallestNetFigure(finest, tolerance);
  const whole = smallestNetFigure(carrier, tolerance);
  const size = way.sizes({ own: own.value, whole: whole.value, wanted: wanted.value, portions });
  const take = wanted.value * (size.total / size.dissolve) ** (way.thinned ? 2 : 1);
  if (size.total > carrier.largest || Math.max(size.dissolve, take) > finest.largest) return null;
  if (take * portions > size.total * (1 + SAME)) return null;
  const dissolve = computed('to dissolve', size.dissolve, 'g', way.how, [own]);
  const total = computed('stock solution in all', size.total, 'g', way.how, [own, whole, wanted]);
  return {
    dissolve,
    total,
    thinned: way.thinned ? { of: dissolve, total } : null,
    take: computed(way.from, take, 'g', way.of, [wanted, total, dissolve]),
    balance: finest.name,
    readability: finest.readability,
    totalBalance: carrier.name,
    totalReadability: carrier.readability,
  };
}

function roundUp(grams: number): number {
  const power = 10 ** Math.floor(Math.log10(grams));
  const step = ROUND.find((one) => one * power >= grams * (1 - 1e-12)) ?? 10;
  return Number((step * power).toPrecision(6));
}
