import type { Facts } from '../matter/facts.ts';
import type { Settings } from '../plan/settings.ts';
import type { PlanResult, StepPlan } from '../plan/result.ts';
import type { Figure } from '../quantity/figure.ts';
import type { Reference } from '../reference.ts';
import type { Step } from '../route/route.ts';
import type { Bottle } from '../shelf/shelf.ts';
import type { Maybe, Why } from '../words/why.ts';

/** What a section of bench numbers is made from: one step as it is planned. */
export interface BenchInput {
  readonly plan: StepPlan;
  /** The same step as the route has it. */
  readonly step: Step;
  readonly result: PlanResult;
  /** By the route's key of a material. */
  readonly facts: ReadonlyMap<string, Facts>;
  /** Bottles that are not empty, by the route's key of what they hold. */
  readonly bottles: ReadonlyMap<string, readonly Bottle[]>;
  readonly settings: Settings;
  readonly reference: Reference;
}

export type SectionCode = 'heat' | 'addition' | 'neutralise' | 'gas' | 'vessel' | 'recrystallise';

/** One number of the bench, for one batch; its words are in words/bench-number-words.ts, by section and code. */
export interface BenchLine {
  readonly code: string;
  readonly values: Readonly<Record<string, string | number>>;
  readonly shown:
    | { readonly kind: 'figure'; readonly figure: Figure }
    | { readonly kind: 'from to'; readonly from: Figure; readonly to: Figure }
    /** Not known, and why: never zero, never "none". */
    | { readonly kind: 'unknown'; readonly why: Why }
    /** Said in words only. */
    | { readonly kind: 'words' };
  /** A caution stands out; a number is only told. */
  readonly level: 'number' | 'caution';
  /** The operation it belongs to, printed immediately before it; null where it belongs to the whole step. */
  readonly operation: string | null;
}

/** Points and the curve through them, drawn small beside the lines. */
export interface BenchPlot {
  readonly name: string;
  readonly values: Readonly<Record<string, string | number>>;
  readonly x: string;
  readonly y: string;
  /** As they were measured or entered. */
  readonly points: readonly { readonly x: number; readonly y: number }[];
  /** Drawn through the points; dashed where they are carried beyond them. */
  readonly lines: readonly { readonly dashed: boolean; readonly at: readonly { readonly x: number; readonly y: number }[] }[];
  /** From the first point to the last: shaded. */
  readonly inside: { readonly from: number; readonly to: number };
  /** Values of x that the work uses, by the code of their name. */
  readonly marks: readonly { readonly x: number; readonly name: string }[];
  /** The same as a table: codes of its columns, and a row for each point; null where there is no line. */
  readonly table: { readonly columns: readonly string[]; readonly rows: readonly (readonly (number | null)[])[] };
}

/** Numbers about one thing, with what was assumed for them. */
export interface BenchSection {
  readonly kind: SectionCode;
  readonly lines: readonly BenchLine[];
  /** Codes of sentences: what every number of the section rests on. */
  readonly assumptions: readonly string[];
  readonly plot: BenchPlot | null;
}

/** Makes one section of a step; null where the step has nothing of the kind. */
export type SectionMaker = (of: BenchInput) => BenchSection | null;

type Where = Partial<Pick<BenchLine, 'values' | 'level' | 'operation'>>;

/** A line with its figure, or with the reason why there is none. */
export function benchLine(code: string, figure: Maybe<Figure['unit']>, where: Where = {}): BenchLine {
  const shown: BenchLine['shown'] = figure.ok ? { kind: 'figure', figure: figure.figure } : { kind: 'unknown', why: figure.why };
  return { ...blank(code, where), shown };
}

/** A line that goes from one figure to another: a temperature before and after. */
export function benchRange(code: string, from: Figure, to: Figure, where: Where = {}): BenchLine {
  return { ...blank(code, where), shown: { kind: 'from to', from, to } };
}

/** A line that is said in words only, without a figure. */
export function benchWords(code: string, where: Where = {}): BenchLine {
  return { ...blank(code, where), shown: { kind: 'words' } };
}

function blank(code: string, where: Where): Omit<BenchLine, 'shown'> {
  return { code, values: where.values ?? {}, level: where.level ?? 'number', operation: where.operation ?? null };
}
