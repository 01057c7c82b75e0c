import type { FieldName } from './fields.ts';

/** A cell as its file shows it; a number where the file holds a number, so that no decimal sign is in question. */
export type Cell = string | number;

/** Something of one cell that stands in the way; `column` is null where it is about the whole row. */
export interface CellProblem {
  /** Index of the column. */
  readonly column: number | null;
  /** What stands there, shortened. */
  readonly value: string;
  readonly words: string;
}

/** One row of a file, with its number as a person counts them in it. */
export interface TableRow {
  readonly number: number;
  readonly cells: readonly Cell[];
  /** What was wrong with it before its cells could be read: ragged, a stray quote, a number shown as another. */
  readonly problems: readonly CellProblem[];
  /** Its fields cannot be told apart for sure: nothing else is said of them. */
  readonly torn?: true;
}

/** What one column is for, and how its cells are to be understood where they do not say themselves. */
export interface ColumnUse {
  readonly field: FieldName;
  /** Unit of a cell that holds a bare number. */
  readonly unit?: string | undefined;
  /** Which sign parts whole from fraction; unset: a cell that could be read in two ways is asked about. */
  readonly decimal?: 'point' | 'comma' | undefined;
  /** Which comes first in 03/04/2027; unset: it is asked. */
  readonly dates?: 'day' | 'month' | undefined;
}

/** For each column what it is for; null for one that is left out. */
export type Mapping = readonly (ColumnUse | null)[];

const SHOWN = 60;

/** A cell's value as it is quoted in a problem. */
export function shownCell(cell: Cell | undefined): string {
  const text = String(cell ?? '');
  return text.length > SHOWN ? `${text.slice(0, SHOWN - 1)}…` : text;
}

/** The letters a spreadsheet calls a column by its index: 0 is A, 25 is Z, 26 is AA. */
export function columnName(column: number): string {
  const rest = Math.floor(column / 26);
  return (rest > 0 ? columnName(rest - 1) : '') + String.fromCharCode(65 + (column % 26));
}
