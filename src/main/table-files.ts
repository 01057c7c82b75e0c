import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import Papa from 'papaparse';

/** A row of a table, by the name of its column. */
export type Row = Readonly<Record<string, string>>;

// The same two steps up from src/main and from the built out/main.
const FOLDER = new URL('../../resources/tables/', import.meta.url);

/** A table written as JSON, resources/tables/NAME.json. */
export function json(name: string): unknown {
  return JSON.parse(readFileSync(fileURLToPath(new URL(`${name}.json`, FOLDER)), 'utf8'));
}

/** A table's rows, resources/tables/NAME.csv. Throws with the file and line where it is malformed. */
export function rows(name: string): readonly Row[] {
  const file = fileURLToPath(new URL(`${name}.csv`, FOLDER));
  const parsed = Papa.parse<Row>(readFileSync(file, 'utf8'), { header: true, skipEmptyLines: true });
  const [problem] = parsed.errors;
  if (problem) throw new Error(`${file} line ${(problem.row ?? 0) + 2}: ${problem.message}`);
  return parsed.data;
}

/** A cell. Throws where the table has no such column. */
export function text(row: Row, column: string): string {
  const value = row[column];
  if (value === undefined) throw new Error(`a table lacks the column ${column}`);
  return value;
}

/** A cell's number; null where it is empty. */
export function number(row: Row, column: string): number | null {
  const value = text(row, column);
  return value === '' ? null : Number(value);
}

/** A cell's words, parted by spaces. */
export function list(row: Row, column: string): readonly string[] {
  return text(row, column).split(/\s+/).filter(Boolean);
}

/** Whether a cell says yes. */
export function truth(row: Row, column: string): boolean {
  return /^(true|1|yes)$/i.test(text(row, column));
}
