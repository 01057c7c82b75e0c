import * as z from 'zod/mini';
import { Key, ShortText } from '../matter/material.ts';
import type { FileProblem } from '../port/result.ts';
import { pointer } from '../words/file-problems.ts';
import { shelfFileWords as words } from '../words/shelf-file-words.ts';
import { Pack } from './pack.ts';

const Count = z.int().check(z.gte(1), z.lte(10_000));
/** Moment in UTC. */
const Moment = z.iso.datetime({ precision: 3 });

/** Packs of an order that came, or that will not come. */
const ShelfOrderEvent = z.strictObject({
  kind: z.enum(['received', 'cancelled']),
  count: Count,
  reason: z.optional(ShortText),
  at: Moment,
  /** Labels of the bottles of this file that they became. */
  bottles: z.optional(z.array(z.string().check(z.minLength(1), z.maxLength(80))).check(z.maxLength(10_000))),
  /** When it was taken back, if it was. */
  takenBack: z.optional(Moment),
});

/** An order as a shelf file holds it: what was ordered, when, what for, and what came of it, the oldest first. */
export const ShelfOrder = z.strictObject({
  material: Key,
  pack: z.omit(Pack, { material: true }),
  count: Count,
  note: z.optional(z.string().check(z.minLength(1), z.maxLength(300))),
  at: Moment,
  /** Name of the plan it was ordered for, as it was called. */
  forPlan: z.optional(ShortText),
  events: z.optional(z.array(ShelfOrderEvent).check(z.maxLength(20_000))),
});
export type ShelfOrder = z.infer<typeof ShelfOrder>;

/** What is wrong with the orders of a file: no more comes of one than was ordered, and a bottle came of one order at most. */
export function orderProblems(orders: readonly ShelfOrder[], labels: ReadonlySet<string>): readonly FileProblem[] {
  const came = new Set<string>();
  return orders.flatMap(({ count, events = [] }, order) => {
    let stands = 0;
    return events.flatMap((event, at): readonly FileProblem[] => {
      const place = ['orders', order, 'events', at] as const;
      const open = count - stands;
      if (event.takenBack === undefined) stands += event.count;
      const bottles = event.bottles ?? [];
      const fits = bottles.every((label) => labels.has(label) && !came.has(label)) && new Set(bottles).size === bottles.length;
      for (const label of bottles) came.add(label);
      if (event.count > open) return [{ at: pointer([...place, 'count']), words: words.moreThanOrdered(open) }];
      const most = event.kind === 'received' && event.takenBack === undefined ? event.count : 0;
      if (bottles.length > most) return [{ at: pointer([...place, 'bottles']), words: words.orderBottles(most) }];
      return fits ? [] : [{ at: pointer([...place, 'bottles']), words: words.orderBottle }];
    });
  });
}
