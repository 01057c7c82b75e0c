import * as z from 'zod/mini';
import { Form } from '../matter/form.ts';
import { LedgerEntry } from './ledger-entry.ts';
import { Key, LongText, Material, ShortText } from '../matter/material.ts';

/** What was done to a bottle so that it may be used on. */
export const TestKind = z.enum(['tested', 'purified', 'titrated']);
export type TestKind = z.infer<typeof TestKind>;

/** A test, purification or titration of a bottle: what it was taken for before, and what it is since. */
export const BottleTest = z.strictObject({
  done: TestKind,
  on: z.iso.date(),
  before: Form,
  form: Form,
  useByBefore: z.optional(z.iso.date()),
  useBy: z.optional(z.iso.date()),
  remark: z.optional(ShortText),
});
export type BottleTest = z.infer<typeof BottleTest>;

/** One container on the shelf, with what is left in it. */
export const Bottle = z.strictObject({
  id: z.string().check(z.minLength(1), z.maxLength(80)),
  material: Key,
  form: Form,
  /** What is left, in the bottle's own unit; always the sum of its ledger. */
  left: z.number().check(z.gte(0), z.lte(1e9)),
  unit: z.enum(['g', 'mL']),
  lot: z.optional(ShortText),
  place: z.optional(ShortText),
  supplier: z.optional(ShortText),
  received: z.optional(z.iso.date()),
  opened: z.optional(z.iso.date()),
  useBy: z.optional(z.iso.date()),
  /** Kept back from planning by hand. */
  heldBack: z.optional(z.boolean()),
  note: z.optional(LongText),
  /** Mass of the empty bottle with its cap, g: what is left can then be weighed. */
  tare: z.optional(z.number().check(z.gte(0.000001), z.lte(1e6))),
  /** Water found in what it holds, % w/w. */
  waterPercent: z.optional(z.number().check(z.gte(0), z.lte(100))),
  /** Price paid for it, in the person's own currency. */
  price: z.optional(z.number().check(z.gte(0), z.lte(1e9))),
  /** Oldest first. What the last one found is already in the bottle's form and date. */
  tests: z.optional(z.array(BottleTest).check(z.maxLength(1000))),
  /** Every movement, oldest first; adds up to what is left. Without it the bottle comes with what is left. */
  ledger: z.optional(z.array(LedgerEntry).check(z.maxLength(100_000))),
});
export type Bottle = z.infer<typeof Bottle>;

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

/** A shelf file: bottles with the materials they hold. Documented in resources/schema. */
export const Shelf = z.strictObject({
  backweigh: z.literal('shelf'),
  version: z.literal(1),
  name: z.optional(ShortText),
  note: z.optional(LongText),
  materials: z.record(Key, Material),
  bottles: z.array(Bottle).check(z.maxLength(200_000)),
  packs: z.optional(z.array(Pack).check(z.maxLength(10_000))),
});
export type Shelf = z.infer<typeof Shelf>;

/** A shelf with no bottle on it. */
export const EMPTY_SHELF: Shelf = { backweigh: 'shelf', version: 1, materials: {}, bottles: [] };
