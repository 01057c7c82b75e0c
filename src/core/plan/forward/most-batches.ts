import type { BoughtLimit } from './bought-limits.ts';

/** The greatest t with given batches, and the material that decides it. */
export type Found =
  | {
      readonly kind: 'most';
      readonly moles: number;
      readonly limit: BoughtLimit;
      readonly perUnit: number;
      readonly starts: readonly number[];
    }
  | { readonly kind: 'no limit' }
  | { readonly kind: 'nothing'; readonly material: string | null };

/** What each step starts when a target is planned: mol of basis, and batches. */
export interface Planned {
  readonly starts: readonly number[];
  readonly batches: readonly number[];
}

/** Rounds in which the most is closed in on; without anything once a batch two are enough. */
const MOST_ROUNDS = 100;
/** Relative size below which two amounts are the same. */
const SAME = 1e-10;

/** The most there is, with the batches that make it. */
export type Agreed =
  | Exclude<Found, { readonly kind: 'most' }>
  | (Extract<Found, { readonly kind: 'most' }> & { readonly batches: readonly number[]; readonly planned: Planned | null });

/**
 * The most t whose own batches leave room for it. What stays behind or is charged once a batch takes from t, what one
 * batch gives back to the next adds to it, and how many batches there are follows from t:
 *
 *     t fits   where   t ≤ most( batches( t ) )          fits ───┤ t ├─── does not: closed in on from both sides
 *
 * @param none batches where nothing of it is made; @param most the most with given batches; @param plannedFor a plan of t.
 */
export function agreeing(
  none: readonly number[],
  most: (batches: readonly number[]) => Found,
  plannedFor: (moles: number) => Planned | null,
): Agreed {
  const start = most(none);
  if (start.kind !== 'most') return start;
  let best: Agreed = { ...start, moles: 0, batches: none, planned: null };
  let [fits, tooMuch, t] = [0, Number.POSITIVE_INFINITY, start.moles];
  for (let round = 0; round < MOST_ROUNDS && tooMuch - fits > SAME * fits; round += 1) {
    const planned = plannedFor(t);
    const found = planned ? most(planned.batches) : start;
    if (found.kind === 'no limit') return found;
    const reached = found.kind === 'most' ? found.moles : 0;
    const same = planned === null || Math.abs(reached - t) <= SAME * t;
    if (found.kind === 'most' && (same || reached > t)) {
      // Where another batch would be one too many, what is made is the plan of t, and some of the limit is left.
      const starts = same || planned === null ? found.starts : planned.starts;
      best = { ...found, starts, moles: same ? reached : t, batches: planned?.batches ?? none, planned };
      if (same) return best;
      fits = t;
    } else tooMuch = t;
    const inside = reached > fits && reached < tooMuch && round % 3 !== 2;
    t = inside || tooMuch === Number.POSITIVE_INFINITY ? reached : (fits + tooMuch) / 2;
  }
  return best;
}
