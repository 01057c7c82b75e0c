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
  /** Not even the other draws: what is too little for them, where that can be told. */
  | { readonly kind: 'nothing'; readonly limit: BoughtLimit | null };

/** What each step starts when a target is planned: mol of basis, and batches. */
export interface Planned {
  readonly starts: readonly number[];
  readonly batches: readonly number[];
}

/** Rounds in which the most is closed in on; without anything once a batch two are enough. */
const MOST_ROUNDS = 150;
/** Relative size below which two amounts are the same. */
const SAME = 1e-10;
/** Where only batches limit there is no first guess: this, mol, and ever so many times more, until it does not fit. */
const FIRST = 1e-3;
const GROWTH = 10;
/** Far more than any laboratory makes, mol: where this much can be made, nothing limits. */
export const WITHOUT_LIMIT = 1e9;

type Most = Extract<Found, { readonly kind: 'most' }>;

/** The most there is, with the batches that make it. */
export type Agreed =
  | Exclude<Found, Most>
  | (Most & {
      readonly batches: readonly number[];
      readonly planned: Planned | null;
      /** Where another batch would be one too many of what limits: what would be run with it. */
      readonly another?: Planned;
    });

/**
 * The most t whose own batches leave room for it. What stays behind or is charged once a batch takes from t, what one
 * batch gives back to the next adds to it, and how many batches there are follows from t:
 *
 *     t fits   where   t ≤ most( batches( t ) )          fits ───┤ t ├─── does not: closed in on from both sides
 *
 * @param none batches where nothing of it is made; @param most the most with given batches; @param plannedFor a plan of t;
 * @param byBatch whether what was chosen is charged once a batch: then it limits, however little a mol takes of it.
 */
export function agreeing(
  none: readonly number[],
  most: (batches: readonly number[]) => Found,
  plannedFor: (moles: number) => Planned | null,
  byBatch: boolean,
): Agreed {
  const start = most(none);
  if (start.kind === 'nothing' || (start.kind === 'no limit' && !byBatch)) return start;
  let best: { readonly found: Found; readonly moles: number; readonly planned: Planned | null } = {
    found: start,
    moles: 0,
    planned: null,
  };
  let over: { readonly found: Found; readonly planned: Planned } | null = null;
  let [fits, tooMuch, t] = [0, Number.POSITIVE_INFINITY, start.kind === 'most' ? start.moles : FIRST];
  for (let round = 0; round < MOST_ROUNDS && tooMuch - fits > SAME * fits; round += 1) {
    if (t > WITHOUT_LIMIT) return { kind: 'no limit' };
    const planned = plannedFor(t);
    const found = planned ? most(planned.batches) : start;
    const reached = found.kind === 'most' ? found.moles : found.kind === 'no limit' ? Number.POSITIVE_INFINITY : 0;
    if (found.kind === 'most' && (planned === null || Math.abs(reached - t) <= SAME * t))
      return { ...found, batches: planned?.batches ?? none, planned };
    if (planned === null) return start.kind === 'most' ? { ...start, batches: none, planned } : start;
    if (reached > t) {
      // Where another batch would be one too many, what is made is the plan of t, and some of the limit is left.
      best = { found, moles: t, planned };
      fits = t;
    } else {
      tooMuch = t;
      over = { found, planned };
    }
    const inside = reached > fits && reached < tooMuch && round % 3 !== 2;
    if (inside) t = reached;
    else if (tooMuch < Number.POSITIVE_INFINITY) t = (fits + tooMuch) / 2;
    else t *= GROWTH;
  }
  return closedIn(best, over, none);
}

/** What was closed in on: it is the next batch that something is too little for. */
function closedIn(
  best: { readonly found: Found; readonly moles: number; readonly planned: Planned | null },
  over: { readonly found: Found; readonly planned: Planned } | null,
  none: readonly number[],
): Agreed {
  const { found, moles, planned } = best;
  const stops = over && over.found.kind !== 'no limit' ? over.found.limit : null;
  const limit = stops ?? (found.kind === 'most' ? found.limit : null);
  if (limit === null || (found.kind !== 'most' && moles === 0)) return { kind: 'nothing', limit };
  return {
    kind: 'most',
    moles,
    limit,
    perUnit: found.kind === 'most' ? found.perUnit : 0,
    starts: planned?.starts ?? (found.kind === 'most' ? found.starts : []),
    batches: planned?.batches ?? none,
    planned,
    ...(stops && over ? { another: over.planned } : {}),
  };
}
