import Papa from 'papaparse';
import { decimalText } from '../../core/shelf/import/read-cells.ts';
import type { Cell } from '../../core/shelf/import/table.ts';

/**
 * Texts that a spreadsheet would take for a formula, and those that begin with apostrophes before such a sign: all of
 * them get one apostrophe more, so that it can be taken off again.
 */
const LOOKS_LIKE_FORMULA = /^'*[=+\-@\t\r\n＝＋－＠]/;

/** A table as CSV: UTF-8 with its mark, rows ended by CR LF; text that could be a formula is guarded by an apostrophe. */
export function csvText(headings: readonly string[], rows: readonly (readonly Cell[])[]): string {
  // A number is no text: it is written as it is, and never guarded. The parser's own writing of it may have an exponent.
  const guarded = rows.map((row) => row.map((cell) => (typeof cell === 'number' ? decimalText(cell) : guard(cell))));
  // A heading may come from a file of somebody else as well.
  return `\ufeff${Papa.unparse([headings.map(guard), ...guarded], { newline: '\r\n' })}\r\n`;
}

function guard(text: string): string {
  return LOOKS_LIKE_FORMULA.test(text) ? `'${text}` : text;
}

/** A cell of a CSV file without its guarding apostrophe. */
export function unguarded(cell: Cell): Cell {
  return typeof cell === 'string' && cell.startsWith("'") && LOOKS_LIKE_FORMULA.test(cell) ? cell.slice(1) : cell;
}
