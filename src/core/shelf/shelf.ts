import { lacksWater } from './wet-form.ts';
import * as z from 'zod/mini';
import { Form } from '../matter/form.ts';
import { LedgerEntry } from './ledger-entry.ts';
import { ShelfOrder } from './order.ts';
import { ShelfEdit } from './shelf-edit.ts';
import { Pack, Supplier } from './pack.ts';
import { Key, LongText, Material, ShortText } from '../matter/material.ts';

/** What was done to a bottle so that it may be used on; "peroxides": a test for them that found none. */
export const TestKind = z.enum(['tested', 'peroxides', 'purified', 'titrated']);
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

/** What may be written on a bottle as it is entered, and stands on it from then on. */
export const ON_BOTTLE = {
  lot: z.optional(ShortText),
  place: z.optional(ShortText),
  supplier: z.optional(ShortText),
  opened: z.optional(z.iso.date()),
  useBy: z.optional(z.iso.date()),
  note: z.optional(LongText),
  /** Mass of the empty bottle with its cap, g: what is left can then be weighed. */
  tare: z.optional(z.number().check(z.gte(0.000001), z.lte(1e6))),
  /** Water found in what it holds, % w/w. */
  waterPercent: z.optional(z.number().check(z.gte(0), z.lte(100))),
  /** Price paid for it, in the person's own currency. */
  price: z.optional(z.number().check(z.gte(0), z.lte(1e9))),
};

/** An assay that leaves water out is taken only where the water is known. */
export const WATER_KNOWN = z.refine<{ readonly form: Form; readonly waterPercent?: number | undefined }>(
  ({ form, waterPercent }) => !lacksWater(form, waterPercent),
  { error: 'an assay on the anhydrous basis needs the water found, below 100 % w/w', path: ['waterPercent'] },
);

/** One container on the shelf, with what is left in it. */
export const Bottle = z
  .strictObject({
    id: z.string().check(z.minLength(1), z.maxLength(80)),
    material: Key,
    form: Form,
    /** What is left, in the bottle's own unit; always the sum of its ledger. */
    left: z.number().check(z.gte(0), z.lte(1e9)),
    unit: z.enum(['g', 'mL']),
    ...ON_BOTTLE,
    received: z.optional(z.iso.date()),
    /** Kept back from planning by hand. */
    heldBack: z.optional(z.boolean()),
    /** Oldest first. What the last one found is already in the bottle's form and date. */
    tests: z.optional(z.array(BottleTest).check(z.maxLength(1000))),
    /** Every movement, oldest first; adds up to what is left. Without it the bottle comes with what is left. */
    ledger: z.optional(z.array(LedgerEntry).check(z.maxLength(100_000))),
  })
  .check(WATER_KNOWN);
export type Bottle = z.infer<typeof Bottle>;

/** A shelf file: bottles with the materials they hold. Documented in resources/schema. */
export const Shelf = z.strictObject({
  backweigh: z.literal('shelf'),
  version: z.literal(1),
  name: z.optional(ShortText),
  note: z.optional(LongText),
  materials: z.record(Key, Material),
  bottles: z.array(Bottle).check(z.maxLength(200_000)),
  packs: z.optional(z.array(Pack).check(z.maxLength(10_000))),
  suppliers: z.optional(z.array(Supplier).check(z.maxLength(10_000))),
  /** What was ordered, the oldest first, and what came of it. */
  orders: z.optional(z.array(ShelfOrder).check(z.maxLength(100_000))),
  /** What was changed of what is written on bottles, the oldest first; the bottles say what came of it. */
  edits: z.optional(z.array(ShelfEdit).check(z.maxLength(200_000))),
});
export type Shelf = z.infer<typeof Shelf>;

/** A shelf with no bottle on it. */
export const EMPTY_SHELF: Shelf = { backweigh: 'shelf', version: 1, materials: {}, bottles: [] };
