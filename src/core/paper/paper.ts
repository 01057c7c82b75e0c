import * as z from 'zod/mini';
import { PlotPicture } from '../bench/plot-picture.ts';

/**
 * What a printed paper says, as plain data that is kept for ever: every amount already rounded and put into words, so
 * that a paper reopened years later shows exactly what lay on the bench. Numbers stand beside their text only where
 * something is computed from them later (the target of a charge, the theory of a batch).
 */

const Text = z.string().check(z.maxLength(20_000));
const Lines = z.array(Text).check(z.maxLength(1000));
const Count = z.int().check(z.gte(0), z.lte(1_000_000));

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
  /** Under a charge in portions: "120 mL in all", or "in 3 portions" where they cannot be read exactly; else empty. */
  totalText: Text,
  /** One portion in words: "40 mL each", "about 50 mL each"; else empty. */
  portionText: Text,
  accepted: Text,
  device: Text,
  /** True for a burette; papers kept from before have boxes for two readings everywhere. */
  readTwice: z.optional(z.boolean()),
  /** Moles and equivalents of the rounded target. */
  amounts: Lines,
  /** g or mL per g of contained basis. */
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
});
export type MakeUpEntry = z.infer<typeof MakeUpEntry>;

const CodeWords = z.strictObject({ code: Text, words: Text });

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
  temperatureLog: z.boolean(),
  /** g; what a yield of 100 % would give this batch. */
  theoryGrams: z.number(),
  yieldOf: Text,
  product: Text,
  sourceWords: Text,
  /** What to do with what is spilt, and for who is hurt; papers kept from before have none. */
  emergency: z.optional(Lines),
  /** What of the product is kept rather than used. */
  keep: z.optional(Text),
  /** Bench numbers of the whole batch, by section; papers kept from before have none. */
  bench: z.optional(z.array(BenchBlock)),
});
export type WeighingSheet = z.infer<typeof WeighingSheet>;

const head = {
  backweigh: z.literal('paper'),
  version: z.literal(1),
  size: z.enum(['A4', 'Letter']),
  title: Text,
  plan: Text,
  route: Text,
  /** Date of the shelf and tables it was computed from. */
  asOf: Text,
};

const FetchLineEntry = z.strictObject({
  number: Count,
  material: Text,
  form: Text,
  lots: Lines,
  need: Text,
  peak: Text,
  onHand: Text,
  status: Text,
  mark: z.enum(['ok', 'act', 'wait']),
  uses: Text,
});
export type FetchLineEntry = z.infer<typeof FetchLineEntry>;

const BuyingLineEntry = z.strictObject({
  number: Count,
  material: Text,
  form: Text,
  cas: Text,
  need: Text,
  onHand: Text,
  short: Text,
  why: Text,
  uses: Text,
  /** Packs to buy and what they come to; papers kept from before have none. */
  buy: z.optional(Lines),
});
export type BuyingLineEntry = z.infer<typeof BuyingLineEntry>;

export const WeighingPaper = z.strictObject({
  ...head,
  kind: z.literal('weighing sheet'),
  secondCheck: z.boolean(),
  sheets: z.array(WeighingSheet),
});
export type WeighingPaper = z.infer<typeof WeighingPaper>;

export const FetchPaper = z.strictObject({
  ...head,
  kind: z.literal('fetch list'),
  session: Text,
  before: z.array(Warning),
  makeUps: z.array(MakeUpEntry),
  places: z.array(z.strictObject({ place: Text, lines: z.array(FetchLineEntry) })),
  lines: Count,
});
export type FetchPaper = z.infer<typeof FetchPaper>;

export const BuyingPaper = z.strictObject({
  ...head,
  kind: z.literal('buying list'),
  lines: z.array(BuyingLineEntry),
  /** What it all costs, as far as prices are known. */
  total: z.optional(Text),
});
export type BuyingPaper = z.infer<typeof BuyingPaper>;

/** One operation of making a solution, with places to write down what was done. */
export const SolutionLine = z.strictObject({
  number: Count,
  before: z.array(Warning),
  /** What goes in or what is done. */
  what: Text,
  form: Text,
  source: Text,
  how: Text,
  target: Text,
  accepted: Text,
  device: Text,
  or: Text,
  record: z.enum(['weighing', 'temperature', 'volume', 'none']),
});
export type SolutionLine = z.infer<typeof SolutionLine>;

export const MakeUpPaper = z.strictObject({
  ...head,
  kind: z.literal('make-up'),
  /** What it is for; empty where it is for the shelf. */
  purpose: Text,
  /** What it weighs, fills and holds. */
  gives: Lines,
  heat: Text,
  hazards: z.array(z.strictObject({ form: Text, codes: Text })),
  statements: z.array(CodeWords),
  lines: z.array(SolutionLine),
  /** To be cut out for the bottle: name and strength large, then lines, then places to write. */
  label: z.strictObject({ name: Text, strength: Text, signal: Text, lines: Lines }),
});
export type MakeUpPaper = z.infer<typeof MakeUpPaper>;

const Fact = z.strictObject({ label: Text, value: Text });

/** A charge as it was really weighed, its parts together. */
export const ReportCharge = z.strictObject({
  number: Count,
  material: Text,
  target: Text,
  range: Text,
  /** A line for each part, as it counts now. */
  taken: Lines,
  from: Lines,
  done: Lines,
  /** Out of range, and why. */
  remarks: Lines,
});

/** One entry of a record; `at` is a moment in UTC, shown where the reader is. */
const ReportEntry = z.strictObject({ number: Count, at: Text, by: Text, words: Text, struck: z.boolean() });

/** What was really done, entry by entry, and what it came to. */
export const RunReportPaper = z.strictObject({
  ...head,
  kind: z.literal('run report'),
  /** E.g. "2-1". */
  sheet: Text,
  step: Text,
  facts: z.array(Fact),
  scaled: Text,
  charges: z.array(ReportCharge),
  outcome: z.array(Fact),
  entries: z.array(ReportEntry).check(z.maxLength(100_000)),
});
export type RunReportPaper = z.infer<typeof RunReportPaper>;

const PictureShape = z.strictObject({
  kind: z.enum(['recycle', 'loss', 'left over', 'stock', 'band', 'line']),
  /** SVG path data. */
  path: Text,
  /** Of what is drawn as a stroke, px. */
  width: z.optional(z.number()),
});
const PictureWord = z.strictObject({
  x: z.number(),
  y: z.number(),
  anchor: z.enum(['start', 'middle']),
  strong: z.boolean(),
  text: Text,
});

/** The cascade as it was drawn, px. */
const CascadePicture = z.strictObject({
  width: z.number(),
  height: z.number(),
  shapes: z.array(PictureShape),
  words: z.array(PictureWord),
});
export type CascadePicture = z.infer<typeof CascadePicture>;

export const RouteSummary = z.strictObject({
  ...head,
  kind: z.literal('route summary'),
  follows: Text,
  draws: z.array(z.strictObject({ amount: Text, material: Text, purpose: Text, date: Text })),
  picture: CascadePicture,
  steps: z.array(
    z.strictObject({ number: Count, title: Text, equation: Text, from: Text, yield: Text, gives: Text, batches: Text }),
  ),
});
export type RouteSummary = z.infer<typeof RouteSummary>;

/** One bottle's label; dates in words, empty where they are not known. */
const BottleLabel = z.strictObject({
  label: Text,
  /** What its square of dots says. */
  code: Text,
  name: Text,
  strength: Text,
  more: Text,
  signal: z.enum(['Danger', 'Warning', '']),
  pictograms: Lines,
  statements: Lines,
  unlisted: Text,
  lot: Text,
  place: Text,
  received: Text,
  opened: Text,
  useBy: Text,
});
export type BottleLabel = z.infer<typeof BottleLabel>;

const Millimetres = z.number().check(z.gte(0), z.lte(1000));

export const LabelPaper = z.strictObject({
  ...head,
  kind: z.literal('labels'),
  layout: z.strictObject({
    name: Text,
    /** The page is the label. */
    single: z.boolean(),
    width: Millimetres,
    height: Millimetres,
    columns: Count,
    rows: Count,
    left: Millimetres,
    top: Millimetres,
    across: Millimetres,
    down: Millimetres,
  }),
  /** Place of the first label on the first page, from 1. */
  start: Count,
  labels: z.array(BottleLabel).check(z.maxLength(1000)),
});
export type LabelPaper = z.infer<typeof LabelPaper>;

/** The day of a session: what is done before it, and the times of its batches as far as the route gives them. */
export const SessionDayPaper = z.strictObject({
  ...head,
  kind: z.literal('session day'),
  /** Day, beginning and hours. */
  when: Text,
  /** What the known times come to against the day. */
  notes: Lines,
  before: Lines,
  batches: z.array(z.strictObject({ number: Count, title: Text, begins: Text, times: Lines, open: Lines, ends: Text })),
});
export type SessionDayPaper = z.infer<typeof SessionDayPaper>;

const SessionPart = z.discriminatedUnion('kind', [SessionDayPaper, FetchPaper, MakeUpPaper, WeighingPaper]);

/** Every paper of a session, one after the other, printed in one go. */
export const SessionPapers = z.strictObject({
  ...head,
  kind: z.literal('session papers'),
  parts: z.array(SessionPart).check(z.minLength(1), z.maxLength(200)),
});
export type SessionPapers = z.infer<typeof SessionPapers>;

export const Paper = z.discriminatedUnion('kind', [
  WeighingPaper,
  FetchPaper,
  BuyingPaper,
  MakeUpPaper,
  RunReportPaper,
  RouteSummary,
  LabelPaper,
  SessionDayPaper,
  SessionPapers,
]);
export type Paper = z.infer<typeof Paper>;
