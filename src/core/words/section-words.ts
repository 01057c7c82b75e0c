import type { BenchLine } from '../bench/bench-section.ts';

type Values = BenchLine['values'];

/** What one section says. Each has a file of its own beside this one. */
export interface SectionWords {
  readonly title: string;
  /** The words of a line by its code: before a figure, or the whole sentence of a line in words. */
  readonly lines: Readonly<Record<string, (values: Values) => string>>;
  readonly assumptions: Readonly<Record<string, string>>;
  /** What the plot shows, by its code. */
  readonly plots?: Readonly<Record<string, (values: Values) => string>>;
  /** What is marked on a plot, and the columns of its table, by their codes. */
  readonly marks?: Readonly<Record<string, string>>;
  readonly columns?: Readonly<Record<string, string>>;
}
