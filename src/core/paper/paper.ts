import * as z from 'zod/mini';
import { CodeWords, Count, Lines, MakeUpEntry, Text, Warning, WeighingSheet } from './sheet.ts';

/**
 * What a printed paper says, as plain data that is kept for ever: every amount already rounded and put into words, so
 * that a paper reopened years later shows exactly what lay on the bench. Numbers stand beside their text only where
 * something is computed from them later (the target of a charge, the theory of a batch).
 */

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
  /** What to take. */
  need: Text,
  /** What will be used of it, where that is less; papers kept from before say here what to have in hand. */
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

/** Which start a list is for, e.g. "for a start of 25 g of …, at the likeliest yields"; not there where nothing is started. */
const StartWords = z.optional(Text);

export const FetchPaper = z.strictObject({
  ...head,
  kind: z.literal('fetch list'),
  session: Text,
  start: StartWords,
  before: z.array(Warning),
  makeUps: z.array(MakeUpEntry),
  places: z.array(z.strictObject({ place: Text, lines: z.array(FetchLineEntry) })),
  lines: Count,
});
export type FetchPaper = z.infer<typeof FetchPaper>;

export const BuyingPaper = z.strictObject({
  ...head,
  kind: z.literal('buying list'),
  start: StartWords,
  lines: z.array(BuyingLineEntry),
  /** What it all costs, as far as prices are known. */
  total: z.optional(Text),
  /** Where a least order is not reached: what to buy instead so that all are, and what that costs. */
  within: z.optional(Lines),
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
