import { computed, type Figure, entered, sourced } from '../quantity/figure.ts';
import { rememberLast } from '../remember.ts';

/** What decides how little a balance can weigh: its repeatability (standard deviation) where known, and its readability, g. */
export interface Fineness {
  readonly readability: number;
  readonly repeatability?: number | undefined;
}

/** Below this many readings the rounding of the display outweighs the scatter: s counts as at least 0.41·d. Source: USP ⟨41⟩. */
const FLOOR_IN_READINGS = 0.41;
/** Coverage factor of the repeatability. Source: USP ⟨41⟩ since 2013; it was 3 before. */
const COVERAGE = 2;
const SOURCE = 'USP ⟨41⟩ Balances; its own case is a tolerance of 0.10 %';

/**
 * Smallest net mass that a balance weighs within a tolerance: coverage·max(s, 0.41·d) ÷ tolerance, in g.
 * @param fineness readability d ≥ 0 and repeatability s ≥ 0, g; s counts as 0 where it is not known.
 * @param tolerance accepted relative deviation, > 0 (0.001 is 0.10 %).
 * @throws RangeError outside that. Source: USP ⟨41⟩ Balances (2019).
 */
export function smallestNetMass(fineness: Fineness, tolerance: number, coverage = COVERAGE): number {
  if (!(tolerance > 0)) throw new RangeError(`the tolerance needs to be above 0 (got ${tolerance})`);
  return (coverage * spread(fineness)) / tolerance;
}

/** Standard deviation a weighing is taken to have, g: the repeatability, or 0.41 of a reading where that is more. */
export function spread({ readability, repeatability = 0 }: Fineness): number {
  if (!(readability >= 0 && repeatability >= 0)) {
    throw new RangeError(`a balance needs readings of 0 or more (got ${readability} and ${repeatability} g)`);
  }
  return Math.max(repeatability, FLOOR_IN_READINGS * readability);
}

/** The least net mass, g, that any of some balances weighs within a tolerance; 0 where there is none. */
export function leastNetMass(balances: readonly Fineness[], tolerance: number): number {
  return balances.length === 0 ? 0 : Math.min(...balances.map((one) => smallestNetMass(one, tolerance)));
}

type Balance = Fineness & { readonly name: string };

/** The same as a figure that knows its factors. */
export function smallestNetFigure(balance: Balance, tolerance: number): Figure<'g'> {
  const known = figuresOf(balance);
  const found = known.get(tolerance) ?? netFigure(balance, tolerance);
  known.set(tolerance, found);
  return found;
}

/** By tolerance: a list of balances and a handful of tolerances serve every charge of every plan. */
const figuresOf = rememberLast((_balance: Balance) => new Map<number, Figure<'g'>>());

function netFigure(balance: Balance, tolerance: number): Figure<'g'> {
  const where = 'the laboratory’s list';
  const factors = [
    sourced('coverage factor', COVERAGE, '', SOURCE, 15),
    entered(`readability of the ${balance.name}`, balance.readability, 'g', where),
    ...(balance.repeatability === undefined
      ? []
      : [entered(`repeatability of the ${balance.name}`, balance.repeatability, 'g', where)]),
    entered('accepted range, ±', tolerance * 100, '%', 'the charge'),
  ];
  const how = '2 × the larger of repeatability and 0.41 × readability ÷ accepted range';
  return computed(`smallest net mass on the ${balance.name}`, smallestNetMass(balance, tolerance), 'g', how, factors);
}
