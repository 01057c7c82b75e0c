import type { FateRow } from '../../core/port/files.ts';
import type { Fate } from '../../core/shelf/import/fate.ts';
import type { ReadRow } from '../../core/shelf/import/read-row.ts';
import { columnName, type TableRow } from '../../core/shelf/import/table.ts';
import { formWords } from '../../core/words/form-words.ts';
import { csvText } from './write-csv.ts';

/** A row of the preview: what it says, what becomes of it, and why. */
export function fateRow(row: ReadRow, fate: Fate, headings: readonly string[]): FateRow {
  const { number, label = '', material, form, amount, written } = row;
  return {
    number,
    fate: fate.kind,
    label,
    name: material?.name ?? '',
    form: form ? formWords(form) : '',
    left: amount ? `${amount.left} ${amount.unit}` : '',
    place: written.place ?? '',
    says: fate.says,
    problems:
      fate.kind === 'refused'
        ? fate.problems.map(({ column, value, words }) => ({ column: headingWords(column, headings), value, words }))
        : [],
  };
}

/** A column by its heading, or by its letters where it has none. */
export function headingWords(column: number | null, headings: readonly string[]): string {
  if (column === null) return '';
  const heading = headings[column] ?? '';
  return heading === '' ? columnName(column) : heading;
}

/** The refused rows as they stand in the file, with row number and reasons behind them, to be put right and taken in again. */
export function refusedCsv(rows: readonly TableRow[], fates: readonly Fate[], headings: readonly string[]): string {
  const refused = rows.flatMap((row, index) => {
    const fate = fates[index];
    if (fate?.kind !== 'refused') return [];
    const why = fate.problems
      .map(({ column, words }) => [headingWords(column, headings), words].filter(Boolean).join(': '))
      .join('; ');
    return [[...headings.map((_, column) => row.cells[column] ?? ''), row.number, why]];
  });
  return csvText([...headings, 'row', 'why refused'], refused);
}
