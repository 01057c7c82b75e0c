import * as z from 'zod/mini';
import { PlotPicture } from '../bench/plot-picture.ts';

/** A weighing sheet as data: already rounded and in words, as paper.ts says. */

export const Text = z.string().check(z.maxLength(20_000));
export const Lines = z.array(Text).check(z.maxLength(1000));
export const Count = z.int().check(z.gte(0), z.lte(1_000_000));

/** A sentence that stands immediately before the operation it belongs to. */
export const Warning = z.strictObject({ kind: z.enum(['limit', 'caution', 'short', 'note']), words: Text });
export type Warning = z.infer<typeof Warning>;

/** A bottle, dish or tap to take from, with how much where more than one serves. */
const Source = z.strictObject({ words: Text, amount: Text });

export const ChargeEntry = z.strictObject({
  do: z.literal('charge'),
  id: Text,
  /** 1 … n on this sheet. */
  number: Count,
  before: z.array(Warning),
  material: Text,
  form: Text,
  sources: z.array(Source),
  isBasis: z.boolean(),
  /** On the basis: how the contained mass follows from the net, e.g. "net ÷ 1.02"; else empty. */
  contained: Text,
  by: z.enum(['mass', 'volume', 'unknown']),
  /** The whole charge; null where it is unknown. */
  target: z.nullable(z.number()),
  unit: z.enum(['g', 'mL']),
  decimals: Count,
  low: z.nullable(z.number()),
  high: z.nullable(z.number()),
  portions: Count,
  /** What is printed large: one portion with its count ("3 × 40"), or the whole. */
  targetText: Text,
  /** The unit it is printed with, where that is not the unit of the target: "µg". */
  targetUnit: z.optional(Text),
  /** Under a charge in portions: "120 mL in all", or "in 3 portions" where they cannot be read exactly; else empty. */
  totalText: Text,
  /** One portion in words: "40 mL each", "about 50 mL each"; else empty. */
  portionText: Text,
  accepted: Text,
  device: Text,
  /** What the device's tolerance and the density rest on; papers kept from before say it with them. */
  deviceFrom: z.optional(Text),
  densityFrom: z.optional(Text),
  /** True for a burette; papers kept from before have boxes for two readings everywhere. */
  readTwice: z.optional(z.boolean()),
  /** Moles and equivalents of the rounded target. */
  amounts: Lines,
  /** For each g, kg or t of contained basis (`basisUnit` of the sheet), in the unit of the target. */
  perGram: Text,
  density: Text,
  /** The same charge by mass, for a volume whose density is known. */
  orByMass: Text,
  hazards: Lines,
  /** Said where no hazard code can be printed; never a dash. */
  hazardWords: Text,
  /** How it is added: over so long, at such a temperature, until an end point. */
  addition: Text,
  note: Text,
});
export type ChargeEntry = z.infer<typeof ChargeEntry>;

export const HoldEntry = z.strictObject({
  do: z.literal('hold'),
  id: Text,
  before: z.array(Warning),
  until: Text,
  /** Temperature and time. */
  how: Text,
  check: Text,
  ifNot: Text,
  /** How long it may stand when it is so; records kept from before do not say. */
  stands: z.optional(Text),
  note: Text,
  /** Asks for a temperature reading. */
  temperature: z.boolean(),
});
export type HoldEntry = z.infer<typeof HoldEntry>;

export const RemovalEntry = z.strictObject({
  do: z.literal('removal'),
  id: Text,
  before: z.array(Warning),
  title: Text,
  takes: Text,
  /** Where it is taken down to a volume: that, mL, for the basis as planned. */
  leaves: z.optional(z.number().check(z.gt(0))),
  /** Name of the waste container; empty where the route names none. */
  waste: Text,
  /** Whether something is left over that needs a container. */
  wasteNeeded: z.boolean(),
  note: Text,
});
export type RemovalEntry = z.infer<typeof RemovalEntry>;

export const Entry = z.discriminatedUnion('do', [ChargeEntry, HoldEntry, RemovalEntry]);
export type Entry = z.infer<typeof Entry>;

export const StageBlock = z.strictObject({
  title: Text,
  apparatus: Text,
  newVessel: z.boolean(),
  fill: Text,
  entries: z.array(Entry),
});
export type StageBlock = z.infer<typeof StageBlock>;

/** A solution to be made before the session starts, in the order things go into the vessel. */
export const MakeUpEntry = z.strictObject({
  id: Text,
  label: Text,
  title: Text,
  before: z.array(Warning),
  /** In order of addition. */
  parts: z.array(z.strictObject({ material: Text, source: Text, target: Text, or: Text })),
  gives: Text,
  uses: Text,
  /** Where it is made on a page of its own of the same papers: what is said instead of its parts. */
  page: z.optional(Text),
});
export type MakeUpEntry = z.infer<typeof MakeUpEntry>;

export const CodeWords = z.strictObject({ code: Text, words: Text });

/** A heading with its lines: conditions, vessel, what to wear. */
const Box = z.strictObject({ title: Text, strong: Text, lines: Lines });

const BenchBlock = z.strictObject({ title: Text, lines: Lines, assumed: Text, plot: z.optional(PlotPicture) });

export const WeighingSheet = z.strictObject({
  /** "2-1": step 2, batch 1. */
  id: Text,
  step: Text,
  stepNumber: Count,
  batch: Count,
  batches: Count,
  title: Text,
  batchWords: Text,
  expected: Text,
  follows: Text,
  equation: Text,
  equationProblem: Text,
  boxes: z.array(Box),
  /** Trouble of the whole step, before anything is done. */
  before: z.array(Warning),
  /** Worst first; papers kept from before say only the code and its words. */
  statements: z.array(z.strictObject({ code: Text, words: Text, of: z.optional(Text) })),
  /** What has no harmonised entry, in a sentence. */
  unlisted: z.optional(Text),
  gases: Lines,
  makeUps: z.array(MakeUpEntry),
  stages: z.array(StageBlock),
  charges: Count,
  /** What the basis is written in: "kg", "t"; "g" where it is not given. */
  basisUnit: z.optional(Text),
  temperatureLog: z.boolean(),
  /** g; what a yield of 100 % would give this batch. */
  theoryGrams: z.number(),
  yieldOf: Text,
  product: Text,
  sourceWords: Text,
  /** What to do with what is spilt, and for who is hurt; papers kept from before have none. */
  emergency: z.optional(Lines),
  /** How long the product keeps, and where; not there where the route does not say. */
  keeps: z.optional(Text),
  /** What of the product is kept rather than used. */
  keep: z.optional(Text),
  /** Bench numbers of the whole batch, by section; papers kept from before have none. */
  bench: z.optional(z.array(BenchBlock)),
});
export type WeighingSheet = z.infer<typeof WeighingSheet>;
