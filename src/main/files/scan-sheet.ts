// A sheet's text before its reader sees it. The reader believes every reference: a column ZZZZZZ costs it half a minute, a
// cell that stands twice loses the first one without a word, and a day that is written as a day becomes its number.
import { fileWords, MOST_CELLS, refuse } from './limits.ts';

/** Rows and columns of a sheet: ECMA-376 part 1, 18.3.1.73 (row), and as every spreadsheet has them (XFD1048576). */
const LAST_ROW = 1_048_576;
const LAST_COLUMN = 16_384;

const TAG = /<(?:\w+:)?(row|c)(?=[\s>/])([^<>]*)>/g;
const REFERENCE = /(?:^|\s)r\s*=\s*["']([^"']*)["']/;
const CELL = /^([A-Z]{1,3})([1-9]\d{0,6})$/i;
const ROW = /^[1-9]\d{0,6}$/;
/** ECMA-376 part 1, 18.18.11: a cell that holds a day in ISO 8601. */
const DAY_CELL = /(<(?:\w+:)?c\b[^<>]*\st\s*=\s*["'])d(?=["'])/g;

export interface ScannedSheet {
  readonly cells: number;
  readonly rows: number;
  /** The sheet, with days as the text that they are. */
  readonly content: Uint8Array;
}

/** Counts a sheet's cells; refused where rows or cells are not in order, or lie beyond what a sheet has. `most`: cells. */
export function scanSheet(content: Uint8Array, most: number): ScannedSheet {
  const text = Buffer.from(content.buffer, content.byteOffset, content.byteLength).toString('latin1');
  let [row, column, cells, rows] = [0, 0, 0, 0];
  for (const [, tag, attributes = ''] of text.matchAll(TAG)) {
    const reference = REFERENCE.exec(attributes)?.[1];
    if (tag === 'row') {
      row = next(row, reference === undefined ? row + 1 : ROW.test(reference) ? Number(reference) : 0, LAST_ROW);
      column = 0;
      rows += 1;
      continue;
    }
    cells += 1;
    if (cells > most) refuse(fileWords.tooManyCells(MOST_CELLS));
    const at = reference === undefined ? column + 1 : columnAt(reference, row);
    column = next(column, at, LAST_COLUMN);
  }
  const plain = text.replace(DAY_CELL, '$1str');
  return { cells, rows, content: plain === text ? content : Buffer.from(plain, 'latin1') };
}

function next(before: number, one: number, last: number): number {
  return one > before && one <= last ? one : refuse(fileWords.damagedWorkbook);
}

/** The column of a reference, from 1; 0 where it is none of this row. */
function columnAt(reference: string, row: number): number {
  const [, letters = '', digits] = CELL.exec(reference) ?? [];
  if (Number(digits) !== row) return 0;
  return [...letters.toUpperCase()].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
}
