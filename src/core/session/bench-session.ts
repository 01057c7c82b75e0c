import * as z from 'zod/mini';
import { Key } from '../matter/material.ts';

/** The batches picked for one spell of bench work, with its day. */
export const BenchSession = z.strictObject({
  name: z.string().check(z.maxLength(300)),
  date: z.iso.date(),
  /** When the work begins, local time. */
  starts: z.string().check(z.regex(/^([01]\d|2[0-3]):[0-5]\d$/)),
  /** How long the day is, h. */
  hours: z.number().check(z.gt(0), z.lte(24)),
  batches: z.array(z.strictObject({ step: Key, batch: z.int().check(z.gte(1), z.lte(1000)) })).check(z.maxLength(1000)),
});
export type BenchSession = z.infer<typeof BenchSession>;
