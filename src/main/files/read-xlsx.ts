// The cells of a workbook's sheet as it shows them. No formula is evaluated: a cell with one is what was shown last.
import type { CellObject, ParsingOptions, WorkSheet } from '@e965/xlsx';
import { MOST_COLUMNS } from '../../core/port/files.ts';
import type { Cell, CellProblem, TableRow } from '../../core/shelf/import/table.ts';
import { shelfImportWords } from '../../core/words/shelf-import-words.ts';
import { Refusal } from '../store/refusal.ts';
import { fileWords, LONGEST_FIELD, MOST_CELLS, MOST_ROWS, refuse, UNWATCHED, type Watch } from './limits.ts';
import { type Cells, onlyCells } from './unpack.ts';

type Xlsx = typeof import('@e965/xlsx');

const problems = shelfImportWords.problems;
/** The reader is large: it is loaded when the first workbook comes. */
const library = (): Promise<Xlsx> => import('@e965/xlsx');

export interface OpenWorkbook {
  readonly sheets: readonly string[];
  readonly rows: (sheet: number, watch?: Watch) => readonly TableRow[];
}

/** Opens a workbook; its sheets are read when they are asked for. */
export async function openWorkbook(bytes: Uint8Array): Promise<OpenWorkbook> {
  const cells = onlyCells(bytes);
  const xlsx = await library();
  const { SheetNames: sheets } = guarded(() => xlsx.read(cells.bytes, { type: 'array', bookSheets: true }));
  if (sheets.length === 0) refuse(fileWords.noSheet);
  return { sheets, rows: (sheet, watch = UNWATCHED) => readSheet(xlsx, cells, sheet, watch) };
}

/** What the reader throws says nothing to a person; the file is damaged. */
function guarded<T>(read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (error instanceof Refusal) throw error;
    return refuse(fileWords.damagedWorkbook);
  }
}

function readSheet(xlsx: Xlsx, { bytes, rows }: Cells, sheet: number, watch: Watch): readonly TableRow[] {
  const options: ParsingOptions = {
    type: 'array',
    dense: true,
    sheets: sheet,
    cellFormula: false,
    cellHTML: false,
    cellNF: true,
    cellText: true,
  };
  const stopped = lookPerRow(options, (row) => watch.step(row, rows * 2));
  const book = guarded(() => xlsx.read(bytes, options));
  if (stopped.by !== null) throw stopped.by;
  const page = book.Sheets[book.SheetNames[sheet] ?? ''];
  const date1904 = book.Workbook?.WBProps?.date1904 === true;
  // What the reader stumbles over it leaves out whole, and says nothing.
  if (!page) return refuse(fileWords.damagedWorkbook);
  return rowsOf(page, (cell) => shown(xlsx, cell, date1904), watch);
}

/**
 * The reader goes through a sheet in one piece and asks at each row how many it may read: there it is told how far it is. What
 * `step` throws the reader would keep to itself; it is given back instead.
 */
function lookPerRow(options: ParsingOptions, step: (row: number) => void): { readonly by: unknown } {
  const stopped: { by: unknown } = { by: null };
  let row = 0;
  Object.defineProperty(options, 'sheetRows', {
    enumerable: true,
    get: () => {
      row += 1;
      if (row % 1000 !== 0 || stopped.by !== null) return 0;
      try {
        step(row);
      } catch (error) {
        stopped.by = error;
        throw error;
      }
      return 0;
    },
    // It sets what is not given to nought.
    set: () => {},
  });
  return stopped;
}

type Shown = { readonly cell: Cell; readonly problem?: string };

function rowsOf(page: WorkSheet, read: (cell: CellObject) => Shown, watch: Watch): readonly TableRow[] {
  const lines: readonly (readonly (CellObject | undefined)[] | undefined)[] = page['!data'] ?? [];
  const mergedInto = mergedRows(page, lines.length);
  const rows: TableRow[] = [];
  for (const [index, line] of lines.entries()) {
    if (index % 1000 === 0) watch.step(lines.length + index, lines.length * 2);
    const row = line ? rowOf(index + 1, line, read, mergedInto.get(index)) : null;
    if (!row) continue;
    // The headings are a row too.
    if (rows.length > MOST_ROWS) refuse(fileWords.tooManyRows(MOST_ROWS));
    rows.push(row);
  }
  return rows;
}

/** Columns of each row whose cells are merged with one further up, which alone holds the value; each with the row of that. */
function mergedRows(page: WorkSheet, rows: number): ReadonlyMap<number, readonly Merged[]> {
  const merged = new Map<number, Merged[]>();
  let all = 0;
  for (const { s, e } of page['!merges'] ?? []) {
    for (let row = s.r + 1; row <= Math.min(e.r, rows - 1); row += 1) {
      all += 1;
      if (all > MOST_CELLS) refuse(fileWords.tooManyCells(MOST_CELLS));
      const inRow = merged.get(row);
      if (inRow) inRow.push({ column: s.c, row: s.r + 1 });
      else merged.set(row, [{ column: s.c, row: s.r + 1 }]);
    }
  }
  return merged;
}

interface Merged {
  readonly column: number;
  readonly row: number;
}

function rowOf(
  number: number,
  line: readonly (CellObject | undefined)[],
  read: (cell: CellObject) => Shown,
  merged: readonly Merged[] = [],
): TableRow | null {
  const cells: Cell[] = [];
  const found: CellProblem[] = merged.map(({ column, row }) => ({ column, value: '', words: problems.merged(row) }));
  // Only cells that are there are visited: a line may claim sixteen thousand.
  line.forEach((one, column) => {
    if (!one || one.t === 'z') return;
    const { cell, problem } = read(one);
    if (cell === '') return;
    if (column >= MOST_COLUMNS) refuse(fileWords.tooManyColumns(number, MOST_COLUMNS));
    if (String(cell).length > LONGEST_FIELD) refuse(fileWords.fieldTooLong(number, LONGEST_FIELD));
    while (cells.length < column) cells.push('');
    cells[column] = cell;
    if (problem !== undefined) found.push({ column, value: String(cell).slice(0, 60), words: problem });
  });
  return cells.length === 0 ? null : { number, cells, problems: found };
}

/** A cell as a person sees it: a day as ISO writes it, a bare number as it is, one with a unit or percent sign as text. */
function shown(xlsx: Xlsx, cell: CellObject, date1904: boolean): Shown {
  const { t, v, w, z } = cell;
  if (t === 'e') return { cell: w ?? '#?', problem: problems.cellError(w ?? '#?') };
  if (t === 'b') return { cell: v === true ? 'yes' : 'no' };
  if (typeof v !== 'number') return { cell: typeof v === 'string' ? v : (w ?? '') };
  const format = typeof z === 'string' ? z : 'General';
  if (format === 'General') return { cell: v };
  if (xlsx.SSF.is_date(format)) {
    // Before its first day, or behind its last, a sheet shows no day but #####.
    const day = dayOf(xlsx, v, date1904);
    return day === null ? { cell: v, problem: problems.noDay(v) } : { cell: day };
  }
  const text = (w ?? String(v)).replaceAll(/(?<=\d),(?=\d{3}(?!\d))/g, '').trim();
  const number = /-?\d+(\.\d+)?([eE][+-]?\d+)?/.exec(text)?.[0];
  const held = text.includes('%') ? v * 100 : v;
  const problem = number !== undefined && !near(Number(number), held) ? problems.shownAsOther(text, v) : undefined;
  // 00012 is a label or a lot, not twelve.
  const bare = number === text && !/^-?0\d/.test(text) ? Number(text) : text;
  return problem === undefined ? { cell: bare } : { cell: bare, problem };
}

/** A format may round what it shows; where it turns a number into another one, it must be asked. */
const ROUNDING = 0.005;

function near(shownAs: number, held: number): boolean {
  return Math.abs(Math.abs(shownAs) - Math.abs(held)) <= ROUNDING * Math.abs(held);
}

function dayOf(xlsx: Xlsx, serial: number, date1904: boolean): string | null {
  const date = xlsx.SSF.parse_date_code(serial, { date1904 }) as { y: number; m: number; d: number } | null;
  if (!date) return null;
  const two = (part: number): string => String(part).padStart(2, '0');
  return `${String(date.y).padStart(4, '0')}-${two(date.m)}-${two(date.d)}`;
}
