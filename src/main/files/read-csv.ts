// A CSV text as rows of cells. The parser lets some broken quotes through, so every row with a quote is looked at again.
import Papa from 'papaparse';
import { MOST_COLUMNS, type Separator } from '../../core/port/files.ts';
import { guessMapping } from '../../core/shelf/import/guess.ts';
import type { CellProblem, TableRow } from '../../core/shelf/import/table.ts';
import { shelfImportWords } from '../../core/words/shelf-import-words.ts';
import { fileWords, LONGEST_FIELD, MOST_CELLS, MOST_ROWS, refuse, UNWATCHED, type Watch } from './limits.ts';

const problems = shelfImportWords.problems;
const SEPARATORS: readonly Separator[] = [',', ';', '\t', '|'];
const LINE_END = /\r\n|\r|\n/g;
/** Rows of a sheet (ECMA-376): a table with more lines, though empty, is none that a spreadsheet wrote. */
const MOST_LINES = 1_048_577;
/** A first line that only names the separator, as some spreadsheets write it. */
const NAMES_SEPARATOR = /^sep=([,;\t|])(\r\n|\r|\n)/i;

/** The separator of a text: named by its first line, else the one whose headings are known best, else cut rows most alike. */
export function guessSeparator(text: string): Separator {
  const named = NAMES_SEPARATOR.exec(text)?.[1];
  if (named) return named as Separator;
  const start = text.slice(0, 200_000);
  const scores = SEPARATORS.map((separator) => {
    const { data } = Papa.parse<string[]>(start, { delimiter: separator, preview: 30, newline: newlineOf(start) });
    const known = Math.max(
      0,
      ...data.map((row) => guessMapping(row.slice(0, MOST_COLUMNS)).filter((use) => use !== null).length),
    );
    const widths = data.filter((row) => row.length > 1).map((row) => row.length);
    const usual = widths[Math.floor(widths.length / 2)] ?? 0;
    return { separator, score: known * 1000 + widths.filter((width) => width === usual).length + Math.min(usual, 50) / 100 };
  });
  return scores.reduce((best, one) => (one.score > best.score ? one : best)).separator;
}

/** How the first row outside quotes ends, so that a line end inside a note is no row. */
function newlineOf(text: string): '\r\n' | '\r' | '\n' {
  let quoted = false;
  for (let at = 0; at < text.length; at += 1) {
    const letter = text[at];
    if (letter === '"') quoted = !quoted;
    else if (!quoted && letter === '\n') return '\n';
    else if (!quoted && letter === '\r') return text[at + 1] === '\n' ? '\r\n' : '\r';
  }
  return '\n';
}

/** Every row of a text that has anything in it, with its number; refused as a whole where it is beyond what a table may be. */
export function readCsv(text: string, separator: Separator, watch: Watch = UNWATCHED): readonly TableRow[] {
  const named = NAMES_SEPARATOR.exec(text)?.[0].length ?? 0;
  const body = evenLines(text.slice(named));
  const rows: TableRow[] = [];
  let number = named > 0 ? 1 : 0;
  let from = 0;
  let all = 0;
  let stopped: unknown = null;
  Papa.parse<string[]>(body, {
    delimiter: separator,
    newline: newlineOf(body),
    step: (result, parser) => {
      try {
        number += 1;
        const cells = result.data;
        guard(cells, number, rows.length);
        all += filled(cells);
        if (all > MOST_CELLS) refuse(fileWords.tooManyCells(MOST_CELLS));
        if (number % 1000 === 0) watch.step(result.meta.cursor, body.length);
        const quotes = cells.some((cell) => cell.includes('"')) || result.errors.length > 0;
        const found = quotes ? quoteProblems(body.slice(from, result.meta.cursor), separator) : [];
        if (found.length > 0 || cells.some((cell) => cell !== ''))
          rows.push({ number, cells, problems: found, ...(found.length > 0 ? { torn: true } : {}) });
        from = result.meta.cursor;
      } catch (error) {
        stopped = error;
        parser.abort();
      }
    },
  });
  if (stopped !== null) throw stopped;
  return rows;
}

/** A text may mix its line ends: outside of quotes all of them end a row. One that does not is left as it is. */
function evenLines(text: string): string {
  // Every other part stands between two quotes; a quote that is doubled inside them only begins an empty one.
  const parts = text.split('"');
  const kinds = new Set(parts.flatMap((part, at) => (at % 2 === 0 ? (part.match(LINE_END) ?? []) : [])));
  if (kinds.size < 2) return text;
  return parts.map((part, at) => (at % 2 === 0 ? part.replaceAll(LINE_END, '\n') : part)).join('"');
}

function filled(cells: readonly string[]): number {
  let count = 0;
  for (const cell of cells) if (cell !== '') count += 1;
  return count;
}

function guard(cells: readonly string[], number: number, rows: number): void {
  if (rows >= MOST_ROWS || number > MOST_LINES) refuse(fileWords.tooManyRows(MOST_ROWS));
  if (cells.some((cell) => cell.length > LONGEST_FIELD)) refuse(fileWords.fieldTooLong(number, LONGEST_FIELD));
  if (cells.length > MOST_COLUMNS && cells.slice(MOST_COLUMNS).some((cell) => cell !== '')) {
    refuse(fileWords.tooManyColumns(number, MOST_COLUMNS));
  }
}

/** What is wrong with the quotes of one row by RFC 4180: a quoted field is quoted from end to end, any other has none. */
function quoteProblems(row: string, separator: Separator): readonly CellProblem[] {
  let column = 0;
  let at = 0;
  const say = (words: string): readonly CellProblem[] => [{ column, value: row.slice(at, at + 40), words }];
  for (;;) {
    const quoted = row[at] === '"';
    const end = quoted ? closing(row, at) : plainEnd(row, at, separator);
    if (end === null) return say(problems.openQuote);
    if (!quoted && row.slice(at, end).includes('"')) return say(problems.strayQuote);
    const after = row.slice(end, end + 2);
    if (after === '' || /^[\r\n]/.test(after)) return [];
    if (!after.startsWith(separator)) return say(problems.strayQuote);
    at = end + 1;
    column += 1;
  }
}

/** Index behind the closing quote of the field that is opened at `from`; null where there is none. */
function closing(row: string, from: number): number | null {
  for (let at = from + 1; at < row.length; at += 1) {
    if (row[at] !== '"') continue;
    if (row[at + 1] !== '"') return at + 1;
    at += 1;
  }
  return null;
}

function plainEnd(row: string, from: number, separator: Separator): number {
  let at = from;
  while (at < row.length && row[at] !== separator && row[at] !== '\n' && row[at] !== '\r') at += 1;
  return at;
}
