import * as z from 'zod/mini';
import { LongText } from '../matter/material.ts';

const Day = z.nullable(z.iso.date());

/** What is written on a bottle and may be changed there, never how much is in it; what is not named stays. */
export const Written = z.strictObject({
  lot: z.optional(z.string().check(z.maxLength(300))),
  place: z.optional(z.string().check(z.maxLength(300))),
  supplier: z.optional(z.string().check(z.maxLength(300))),
  received: z.optional(Day),
  opened: z.optional(Day),
  useBy: z.optional(Day),
  heldBack: z.optional(z.boolean()),
  note: z.optional(LongText),
  /** Mass of the empty bottle with its cap, g. */
  tare: z.optional(z.nullable(z.number().check(z.gte(0.000001), z.lte(1e6)))),
  /** % w/w. */
  water: z.optional(z.nullable(z.number().check(z.gte(0), z.lte(100)))),
  price: z.optional(z.nullable(z.number().check(z.gte(0), z.lte(1e9)))),
});
export type Written = z.infer<typeof Written>;

/** What may be changed on many bottles at once. */
export const WrittenOnMany = z.strictObject({
  place: z.optional(z.string().check(z.maxLength(300))),
  received: z.optional(Day),
  opened: z.optional(Day),
  useBy: z.optional(Day),
  heldBack: z.optional(z.boolean()),
});

/** Only what really differs from what is there, as it was and as it is to be. */
export function writtenChange(
  now: Required<Written>,
  change: Written,
): { readonly before: Written; readonly after: Written } | null {
  const changed = Object.entries(change).filter(([field, value]) => value !== undefined && now[field as keyof Written] !== value);
  if (changed.length === 0) return null;
  const before = Object.fromEntries(changed.map(([field]) => [field, now[field as keyof Written]])) as Written;
  return { before, after: Object.fromEntries(changed) as Written };
}

/**
 * Whether a change of the use-by date would make a bottle usable again that is out of date on a day (ISO): that takes a
 * recorded test or purification.
 */
export function revives(useBy: string | null, change: Written, today: string): boolean {
  if (useBy === null || useBy >= today || change.useBy === undefined) return false;
  return change.useBy === null || change.useBy >= today;
}
