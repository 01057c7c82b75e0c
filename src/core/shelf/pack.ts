import * as z from 'zod/mini';
import { Form } from '../matter/form.ts';
import { Key, ShortText } from '../matter/material.ts';

/** A pack that can be bought. Prices are in the person's own currency and are never assumed. */
export const Pack = z.strictObject({
  material: Key,
  form: z.optional(Form),
  amount: z.number().check(z.gt(0), z.lte(1e9)),
  unit: z.enum(['g', 'mL']),
  supplier: z.optional(ShortText),
  price: z.optional(z.number().check(z.gte(0), z.lte(1e9))),
  /** Days from order to delivery, as the supplier says. */
  leadDays: z.optional(z.int().check(z.gte(0), z.lte(3650))),
  /** So many at least in one order. */
  minimum: z.optional(z.int().check(z.gte(1), z.lte(10_000))),
});
export type Pack = z.infer<typeof Pack>;

/** What is known of a supplier as a whole. */
export const Supplier = z.strictObject({
  name: ShortText,
  /** The least an order has to come to, in the person's own currency. */
  leastOrder: z.number().check(z.gt(0), z.lte(1e9)),
});
export type Supplier = z.infer<typeof Supplier>;
