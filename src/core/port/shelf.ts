import * as z from 'zod/mini';
import { Form } from '../matter/form.ts';
import { TestKind } from '../shelf/shelf.ts';
import { LongText, Material, ShortText } from '../matter/material.ts';

const Id = z.string().check(z.minLength(1), z.maxLength(80));
export const LedgerKind = z.enum(['received', 'used', 'made', 'adjusted', 'discarded', 'undone']);
export type LedgerKind = z.infer<typeof LedgerKind>;

/** A row of the shelf list. */
export interface BottleRow {
  readonly id: string;
  readonly material: Material;
  readonly materialId: string;
  readonly form: Form;
  readonly left: number;
  readonly unit: 'g' | 'mL';
  readonly lot: string;
  readonly place: string;
  readonly supplier: string;
  readonly received: string | null;
  readonly opened: string | null;
  readonly useBy: string | null;
  readonly heldBack: boolean;
  readonly note: string;
}

export interface LedgerLine {
  readonly id: number;
  readonly kind: LedgerKind;
  /** Signed, in the bottle's unit. */
  readonly change: number;
  readonly reason: string;
  readonly at: string;
  /** The line this one undoes. */
  readonly undoes: number | null;
  readonly undone: boolean;
}

export const shelfInputs = {
  'shelf.list': z.strictObject({
    search: z.string().check(z.maxLength(200)),
    from: z.int().check(z.gte(0), z.lte(1_000_000)),
    count: z.int().check(z.gte(1), z.lte(500)),
    sort: z.enum(['name', 'place', 'useBy', 'left']),
  }),
  'shelf.bottle': z.strictObject({ id: Id }),
  'shelf.add': z.strictObject({
    material: Material,
    form: Form,
    amount: z.number().check(z.gt(0), z.lte(1e6)),
    unit: z.enum(['g', 'mL']),
    lot: z.optional(ShortText),
    place: z.optional(ShortText),
    supplier: z.optional(ShortText),
    opened: z.optional(z.iso.date()),
    useBy: z.optional(z.iso.date()),
    note: z.optional(LongText),
  }),
  /** Changes what is written on the bottle, never how much is in it. */
  'shelf.change': z.strictObject({
    id: Id,
    lot: z.optional(z.string().check(z.maxLength(300))),
    place: z.optional(z.string().check(z.maxLength(300))),
    opened: z.optional(z.nullable(z.iso.date())),
    useBy: z.optional(z.nullable(z.iso.date())),
    heldBack: z.optional(z.boolean()),
    note: z.optional(LongText),
  }),
  /** A movement: signed change in the bottle's unit; "adjusted" and "discarded" need a reason. */
  'shelf.move': z.strictObject({
    id: Id,
    kind: z.enum(['received', 'used', 'adjusted', 'discarded']),
    change: z.number().check(z.gte(-1e6), z.lte(1e6)),
    reason: z.string().check(z.maxLength(300)),
  }),
  /** Appends the counter-entry of a ledger line. */
  'shelf.undo': z.strictObject({ id: Id, line: z.int().check(z.gte(1)) }),
  /** A test, purification or titration: what is not named stays as it was. A titration needs its strength or assay. */
  'shelf.test': z.strictObject({
    id: Id,
    done: TestKind,
    on: z.iso.date(),
    form: z.optional(Form),
    useBy: z.optional(z.nullable(z.iso.date())),
    remark: z.string().check(z.maxLength(300)),
  }),
  /** Bottles of these materials (and of what they can be made up from), as the planner's snapshot. */
  'shelf.snapshot': z.strictObject({ materials: z.array(Material).check(z.maxLength(2000)) }),
  'shelf.import': z.strictObject({ text: z.string().check(z.maxLength(20_000_000)) }),
  'shelf.export': z.strictObject({}),
} as const;
