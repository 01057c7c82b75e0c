import * as z from 'zod/mini';
import { Form } from '../matter/form.ts';
import { Material, ShortText } from '../matter/material.ts';
import { Pack, Supplier } from '../shelf/pack.ts';

const Id = z.int().check(z.gte(1), z.lte(2_000_000_000));
const Count = z.int().check(z.gte(1), z.lte(10_000));

/** A pack of the price list, without its material. */
export const PackOffer = z.omit(Pack, { material: true });
export type PackOffer = z.infer<typeof PackOffer>;

export interface PackRow {
  readonly id: number;
  readonly material: Material;
  readonly pack: PackOffer;
}

/** An order of so many packs of one kind. */
export interface OrderRow {
  readonly id: number;
  readonly material: Material;
  readonly pack: PackOffer;
  readonly count: number;
  readonly received: number;
  readonly cancelled: number;
  /** Day it was marked as ordered. */
  readonly ordered: string;
  /** Day it may come, from the pack's lead time; null where none is given. */
  readonly expected: string | null;
  readonly plan: number | null;
  readonly planName: string;
  readonly note: string;
  /** Labels of the bottles it became. */
  readonly bottles: readonly string[];
  /** What came of it and what would not, oldest first, without what was taken back. */
  readonly events: readonly OrderEvent[];
}

/** Packs of an order that came, or that will not come. */
export interface OrderEvent {
  readonly id: number;
  readonly kind: 'received' | 'cancelled';
  readonly count: number;
  /** Day it was written. */
  readonly on: string;
  /** Labels of the bottles it became. */
  readonly bottles: readonly string[];
  /** Of them those that something was done with since, so that it cannot be taken back. */
  readonly used: readonly string[];
}

/** One use of a bottle: what was taken, when, for which run, and what that run made. */
export interface LotUse {
  /** Its label; '' where a run went on with what stood in no bottle. */
  readonly bottle: string;
  /** The run that what was charged from no bottle came of, or may have come of; null where it came from a bottle. */
  readonly carriedFrom: number | null;
  readonly lot: string;
  readonly material: string;
  /** Taken, in the bottle's unit, > 0. */
  readonly amount: number;
  readonly unit: 'g' | 'mL';
  /** Moment in UTC. */
  readonly at: string;
  readonly reason: string;
  readonly run: number | null;
  readonly plan: string;
  /** Sheet of the run, "2-1". */
  readonly sheet: string;
  /** Labels of the bottles that run filled, or that it was made or split into; their own uses follow as lines of their own. */
  readonly made: readonly string[];
  /** 0 for the lot itself, 1 for what was made from it, and so on. */
  readonly depth: number;
}

export interface LotTrace {
  readonly bottles: readonly {
    readonly id: string;
    readonly lot: string;
    readonly material: string;
    readonly left: number;
    readonly unit: 'g' | 'mL';
    readonly place: string;
    readonly depth: number;
  }[];
  readonly uses: readonly LotUse[];
  /** More there would be than are listed. */
  readonly cut: boolean;
}

export interface ExpiringBottle {
  readonly id: string;
  readonly material: Material;
  readonly form: Form;
  readonly left: number;
  readonly unit: 'g' | 'mL';
  readonly lot: string;
  readonly place: string;
  readonly useBy: string;
}

export const buyInputs = {
  /** Packs known for some materials, in every form. */
  'packs.list': z.strictObject({ materials: z.array(Material).check(z.maxLength(1000)) }),
  'packs.add': z.strictObject({ material: Material, pack: PackOffer }),
  'packs.remove': z.strictObject({ id: Id }),
  'suppliers.list': z.strictObject({}),
  /** The least an order has to come to at a supplier; null where there is no such thing. */
  'suppliers.set': z.strictObject({ name: ShortText, leastOrder: z.nullable(Supplier.shape.leastOrder) }),
  /** Orders still open, and with `all` the finished ones too; the newest first. */
  'orders.list': z.strictObject({ all: z.boolean() }),
  'orders.place': z.strictObject({
    planId: z.nullable(Id),
    lines: z
      .array(z.strictObject({ material: Material, pack: PackOffer, count: Count, note: z.string().check(z.maxLength(300)) }))
      .check(z.minLength(1), z.maxLength(500)),
  }),
  /** Puts packs of an order on the shelf, one bottle each. */
  'orders.receive': z.strictObject({
    id: Id,
    bottles: z
      .array(
        z.strictObject({
          lot: z.optional(ShortText),
          place: z.optional(ShortText),
          useBy: z.optional(z.iso.date()),
        }),
      )
      .check(z.minLength(1), z.maxLength(200)),
  }),
  /** What of an order will not come. */
  'orders.cancel': z.strictObject({ id: Id, count: Count, reason: ShortText }),
  /** Takes back that packs came or would not come; bottles only while nothing was taken from them. */
  'orders.undo': z.strictObject({ event: Id }),
  /** Where bottles of a lot (or one bottle, by its label) went, and what was made from them. */
  'lots.trace': z.strictObject({ lot: z.string().check(z.minLength(1), z.maxLength(300)) }),
  /** Bottles not empty whose date lies within so many days, or is past. */
  'lots.expiring': z.strictObject({ days: z.int().check(z.gte(0), z.lte(3650)) }),
} as const;
