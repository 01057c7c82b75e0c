import * as z from 'zod/mini';
import { Form } from '../matter/form.ts';
import { Filter } from '../shelf/find/filters.ts';
import { SORTS } from '../shelf/find/orders.ts';
import { ON_BOTTLE, TestKind, WATER_KNOWN } from '../shelf/shelf.ts';
import { Written, WrittenOnMany } from '../shelf/written.ts';
import { Material } from '../matter/material.ts';

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
  /** Mass of the empty bottle with its cap, g. */
  readonly tare: number | null;
  /** Water found in what it holds, % w/w. */
  readonly water: number | null;
  /** In the person's own currency. */
  readonly price: number | null;
}

/**
 * Which act a ledger line is one half of, and the bottle the other half is in. What was taken to make something is undone
 * alone: what was made stays as it is.
 */
export interface LineHalf {
  readonly act: 'split' | 'correction' | 'made';
  readonly other: string;
}

/** A change of what is written on a bottle. */
export interface BottleEdit {
  readonly id: number;
  readonly at: string;
  readonly before: Written;
  readonly after: Written;
  /** How many bottles were changed with it. */
  readonly bottles: number;
  /** The entry this one undoes. */
  readonly undoes: number | null;
  readonly undone: boolean;
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
  /** Where the line is one half of an act on two bottles. */
  readonly half?: LineHalf;
}

const Search = z.string().check(z.maxLength(200));

/** A bottle as it is entered. */
const entered = {
  material: Material,
  form: Form,
  amount: z.number().check(z.gt(0), z.lte(1e6)),
  unit: z.enum(['g', 'mL']),
  ...ON_BOTTLE,
};
const Entered = z.strictObject(entered).check(WATER_KNOWN);

/** What was taken of another bottle to make this one, in that bottle's unit. */
const Took = z.strictObject({ id: Id, amount: z.number().check(z.gt(0), z.lte(1e6)) });

export const shelfInputs = {
  'shelf.list': z.strictObject({
    search: Search,
    from: z.int().check(z.gte(0), z.lte(1_000_000)),
    count: z.int().check(z.gte(1), z.lte(500)),
    sort: z.enum(SORTS),
    down: z.optional(z.boolean()),
    filter: z.optional(Filter),
  }),
  /** Every place with the number of its bottles. */
  'shelf.places': z.strictObject({}),
  'shelf.bottle': z.strictObject({ id: Id }),
  /** Labels of the bottles that a typed or scanned one may mean: capitals, blanks and accents aside. */
  'shelf.labelled': z.strictObject({ typed: Id }),
  /** A new bottle; what it was made from comes off its bottles in the same write. */
  'shelf.add': z.strictObject({ ...entered, took: z.optional(z.array(Took).check(z.maxLength(20))) }).check(WATER_KNOWN),
  /** The right bottle in the place of one that was entered wrong. */
  'shelf.correct': z.strictObject({ id: Id, bottle: Entered }),
  /** Changes what is written on the bottle, never how much is in it. */
  'shelf.change': z.extend(Written, { id: Id }),
  /** The same for many: those named, or all that a search finds, whose number says that they are still the same. */
  'shelf.changeMany': z.strictObject({
    bottles: z.union([
      z.strictObject({ ids: z.array(Id).check(z.minLength(1), z.maxLength(20_000)) }),
      z.strictObject({ search: Search, filter: Filter, total: z.int().check(z.gte(1), z.lte(200_000)) }),
    ]),
    change: WrittenOnMany,
  }),
  /** Puts back what an entry changed on one bottle or many. */
  'shelf.undoChange': z.strictObject({ edit: z.int().check(z.gte(1)) }),
  /** A movement: signed change in the bottle's unit; "adjusted" and "discarded" need a reason. */
  'shelf.move': z.strictObject({
    id: Id,
    kind: z.enum(['received', 'used', 'made', 'adjusted', 'discarded']),
    change: z.number().check(z.gte(-1e6), z.lte(1e6)),
    reason: z.string().check(z.maxLength(300)),
  }),
  /** The bottle on the balance, g with its cap: what is left becomes gross less tare. */
  'shelf.weigh': z.strictObject({
    id: Id,
    gross: z.number().check(z.gt(0), z.lte(1e6)),
    reason: z.string().check(z.maxLength(300)),
  }),
  /** Part of a bottle into a new one, in the bottle's unit. */
  'shelf.split': z.strictObject({
    id: Id,
    amount: z.number().check(z.gt(0), z.lte(1e6)),
    place: z.optional(z.string().check(z.maxLength(300))),
  }),
  /** Appends the counter-entry of a ledger line, and of its other half where it has one. */
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
  'shelf.import': z.strictObject({
    file: z.optional(z.string().check(z.minLength(1), z.maxLength(300))),
    text: z.string().check(z.maxLength(60_000_000)),
  }),
  'shelf.export': z.strictObject({}),
} as const;
