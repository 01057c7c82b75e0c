import { massFraction } from '../matter/solution.ts';
import type { MakeUp } from '../plan/make-up-result.ts';
import type { Reference } from '../reference.ts';
import type { Remaining } from './allocate.ts';
import type { Demand } from './demand.ts';
import { EXCESS_PERCENT, makeUp, type MakeUpInput } from './make-up.ts';
import type { Bottle } from './shelf.ts';

/** A line of the fetch list that the bottles as they stand do not cover. */
export interface Lacking {
  readonly id: string;
  readonly demands: readonly Demand[];
  /** Part of each demand not covered, 0 … 1. */
  readonly missing: readonly number[];
  readonly stronger: readonly Bottle[];
}

/**
 * The make-ups of a plan, by line; takes what they use out of `remaining`. The strongest is made first, since the fewest
 * bottles serve for it; and what would only stay in the glass is given up where another make-up would then be short.
 */
export function makeUpsOf(
  lines: readonly Lacking[],
  { remaining, useFirst, reference, settings }: MakeUpInput,
): ReadonlyMap<string, MakeUp> {
  const inOrder = lines
    .filter(({ stronger }) => stronger.length > 0)
    .toSorted((one, other) => strengthOf(other, reference) - strengthOf(one, reference));
  const attempt = (excess: number): Attempt => {
    const left: Remaining = new Map(remaining);
    const made = inOrder.flatMap(({ id, demands, missing, stronger }): readonly (readonly [string, MakeUp])[] => {
      const one = makeUp(demands, missing, stronger, { remaining: left, useFirst, reference, settings }, excess);
      return one ? [[id, one]] : [];
    });
    return { left, made };
  };
  if (inOrder.length === 0) return new Map();
  const usual = attempt(EXCESS_PERCENT);
  const bare = contested(inOrder, usual) ? attempt(0) : usual;
  const chosen = bare.made.length > usual.made.length ? bare : usual;
  for (const [bottle, left] of chosen.left) remaining.set(bottle, left);
  return new Map(chosen.made);
}

interface Attempt {
  readonly left: Remaining;
  readonly made: readonly (readonly [string, MakeUp])[];
}

/** Whether a line went without a bottle of which more was taken for another than that needs. */
function contested(lines: readonly Lacking[], { made }: Attempt): boolean {
  if (made.length === 0 || made.length === lines.length) return false;
  const done = new Set(made.map(([id]) => id));
  const taken = new Set(made.flatMap(([, one]) => (one.excessPercent > 0 ? one.parts.map((part) => part.from.bottle) : [])));
  return lines.some(({ id, stronger }) => !done.has(id) && stronger.some((bottle) => taken.has(bottle.id)));
}

/** g per g wanted; 0 where it is not known. */
function strengthOf({ demands: [first] }: Lacking, reference: Reference): number {
  const fraction = first ? massFraction(first.facts, first.form, reference) : null;
  return fraction?.ok ? fraction.figure.value : 0;
}
