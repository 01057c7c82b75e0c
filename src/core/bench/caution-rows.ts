import type { Mark } from '../quantity/figure.ts';

/** What two groups of the compatibility chart can give, each a code of the chart, e.g. "GT" for a poisonous gas. */
export interface CompatibilityRow {
  readonly one: number;
  readonly other: number;
  readonly gives: readonly string[];
  readonly mark: Mark | null;
}

/** A group of the compatibility chart; `ours`: groups of the reactivity table that belong to it. */
export interface CompatibilityGroupRow {
  readonly number: number;
  /** As the chart has it. */
  readonly name: string;
  /** In a sentence: "an oxidising acid". */
  readonly words: string;
  readonly ours: readonly string[];
}

/** A material that forms peroxides in the air, with its class. */
export interface PeroxideFormerRow {
  readonly cas: string;
  readonly class: string;
  readonly source: string;
  readonly mark: Mark | null;
}

/** What a class of peroxide formers means, and how many months an opened bottle is kept. */
export interface PeroxideClassRow {
  readonly class: string;
  readonly months: number;
  readonly words: string;
  readonly source: string;
}
