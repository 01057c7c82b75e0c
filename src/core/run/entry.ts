import * as z from 'zod/mini';
import { CautionWords } from '../caution/acknowledgement.ts';
import { Key, LongText, ShortText } from '../matter/material.ts';

/**
 * What can be written into a run's record. Entries are only ever added: a mistake is put right by a further entry, and
 * the mistake stays readable. Masses in g, volumes in mL, temperatures in °C.
 */

import { Initials } from './initials.ts';
const Amount = z.number().check(z.gt(0), z.lte(1e6));
const Text = z.string().check(z.maxLength(300));
const Celsius = z.number().check(z.gte(-200), z.lte(1000));
const Portion = z.int().check(z.gte(1), z.lte(1000));
const Unit = z.enum(['g', 'mL']);
const by = { by: Initials };

/** A weighing that has not gone into the vessel: out of range, or the first half of tare and gross. */
const Reading = z.strictObject({
  kind: z.literal('reading'),
  ...by,
  charge: Key,
  portion: Portion,
  what: z.enum(['net', 'tare', 'gross']),
  amount: z.number().check(z.gte(0), z.lte(1e6)),
  unit: Unit,
  /** What the balance typed, or the person. */
  text: Text,
  /** The bottle in hand; not there for the tap or a dish, and in records kept from before. */
  bottle: z.optional(z.string().check(z.minLength(1), z.maxLength(80))),
});

/** A portion of a charge that is weighed and taken. */
export const Charged = z.strictObject({
  kind: z.literal('charged'),
  ...by,
  charge: Key,
  portion: Portion,
  /** As weighed or measured. */
  net: Amount,
  unit: Unit,
  tare: z.optional(z.number().check(z.gte(0), z.lte(1e6))),
  gross: z.optional(Amount),
  text: Text,
  /** Null where it does not come from a bottle: the tap, a dish. */
  bottle: z.nullable(z.string().check(z.minLength(1), z.maxLength(80))),
  lot: Text,
  /** In the bottle's own unit; null where that cannot be told, and the shelf is then not charged. */
  taken: z.nullable(Amount),
  /** Contained moles of the active material; null where they cannot be told. */
  moles: z.nullable(z.number().check(z.gte(0), z.lte(1e6))),
  /** Density of what was measured by volume from a bottle, g/mL; null where it is not the plan's and not known. Not in records kept from before. */
  gramsPerMillilitre: z.optional(z.nullable(z.number().check(z.gt(0), z.lte(25)))),
  checkedBy: z.optional(Initials),
  /** Why it is taken though it is out of range. */
  deviation: z.optional(ShortText),
  /** Nothing more of this charge follows. */
  complete: z.boolean(),
});
export type Charged = z.infer<typeof Charged>;

/** A hold whose condition was met, a removal that was done, a weighed basis that was added at its place. */
const Confirmed = z.strictObject({ kind: z.literal('confirmed'), ...by, operation: Key, remark: z.optional(ShortText) });
const Temperature = z.strictObject({
  kind: z.literal('temperature'),
  ...by,
  operation: z.nullable(Key),
  celsius: Celsius,
  remark: z.optional(ShortText),
});
const Check = z.strictObject({
  kind: z.literal('check'),
  ...by,
  operation: z.nullable(Key),
  found: ShortText,
  passed: z.boolean(),
});
const Deviation = z.strictObject({ kind: z.literal('deviation'), ...by, operation: z.nullable(Key), words: ShortText });
/** The targets of what follows are multiplied, from the basis as it was weighed; 1: they stay as they are. */
const Rescaled = z.strictObject({ kind: z.literal('rescaled'), ...by, factor: z.number().check(z.gte(0.001), z.lte(1000)) });
/** How what a run gives is weighed, and where it stands. */
const putOnShelf = {
  tare: z.optional(z.number().check(z.gte(0), z.lte(1e6))),
  gross: z.optional(Amount),
  /** Wet: weighed before it was dry. */
  wet: z.boolean(),
  assayPercent: z.nullable(z.number().check(z.gt(0), z.lte(100))),
  place: Text,
  text: Text,
  /** The label of the bottle it stands in; given by the shelf. */
  bottle: z.nullable(z.string().check(z.minLength(1), z.maxLength(80))),
};
export const Product = z.strictObject({
  kind: z.literal('product'),
  ...by,
  crop: z.int().check(z.gte(1), z.lte(20)),
  /** 0: nothing was obtained. */
  grams: z.number().check(z.gte(0), z.lte(1e6)),
  ...putOnShelf,
});
export type Product = z.infer<typeof Product>;
/** Basis that was got back, unchanged: weighed, and put on the shelf like a product. */
export const Recovered = z.strictObject({
  kind: z.literal('recovered'),
  ...by,
  grams: Amount,
  ...putOnShelf,
});
export type Recovered = z.infer<typeof Recovered>;
const Remark = z.strictObject({ kind: z.literal('remark'), ...by, words: LongText });
/** A spectrum, a picture: where it lies, and its SHA-256 where that was taken. */
const FileNamed = z.strictObject({
  kind: z.literal('file'),
  ...by,
  name: ShortText,
  sha256: z.optional(z.string().check(z.regex(/^[0-9a-f]{64}$/))),
  remark: z.optional(ShortText),
});

const Started = z.strictObject({ kind: z.literal('started'), ...by });

/** What a correction can put in the place of an entry. */
const Correctable = z.discriminatedUnion('kind', [
  Started,
  Reading,
  Charged,
  Confirmed,
  Temperature,
  Check,
  Deviation,
  Rescaled,
  Product,
  Recovered,
  Remark,
  FileNamed,
]);
export type Correctable = z.infer<typeof Correctable>;

const Correction = z.strictObject({
  kind: z.literal('correction'),
  ...by,
  /** Number of the entry that is put right. */
  of: z.int().check(z.gte(1), z.lte(100_000)),
  reason: ShortText,
  /** What it should have said; null where it should not be there at all. */
  instead: z.nullable(Correctable),
  /** A weighing that was right and never reached the vessel: its bottle stays charged, and it is weighed again. */
  spilled: z.optional(z.literal(true)),
});

/** That a caution of the sheet was read, as it stands there; it stays on the screen and the paper for everybody. */
const Acknowledged = z.strictObject({
  kind: z.literal('acknowledged'),
  ...by,
  /** Null for what stands at the head of the sheet. */
  operation: z.nullable(Key),
  words: CautionWords,
});

const Paused = z.strictObject({ kind: z.literal('paused'), ...by });
const Resumed = z.strictObject({ kind: z.literal('resumed'), ...by });
/** `why`: it ended before its last operation. */
const Finished = z.strictObject({ kind: z.literal('finished'), ...by, why: z.optional(ShortText) });

export const RunEntry = z.discriminatedUnion('kind', [
  Started,
  Reading,
  Charged,
  Confirmed,
  Temperature,
  Check,
  Deviation,
  Rescaled,
  Product,
  Recovered,
  Remark,
  FileNamed,
  Acknowledged,
  Paused,
  Resumed,
  Correction,
  Finished,
]);
export type RunEntry = z.infer<typeof RunEntry>;

/** An entry as it stands in the record: its number from 1, and the moment it was written. */
export interface Recorded<E extends RunEntry = RunEntry> {
  readonly number: number;
  /** ISO moment in UTC. */
  readonly at: string;
  readonly entry: E;
}
