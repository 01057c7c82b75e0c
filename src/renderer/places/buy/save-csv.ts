import Papa from 'papaparse';
import type { Cell } from '../../../core/buy/shopping-rows.ts';
import { saveFile } from '../../parts/save-file.ts';

/** A table as CSV text: nothing in it is ever taken for a formula; a byte order mark, so that µ and ° are read right. */
export function csvText(rows: readonly (readonly Cell[])[]): string {
  return `\uFEFF${Papa.unparse(rows as Cell[][], { escapeFormulae: true, newline: '\r\n' })}\r\n`;
}

/** Hands a table to the person as a CSV file. */
export function saveCsv(name: string, rows: readonly (readonly Cell[])[]): void {
  saveFile(name.replaceAll(/[/\\:*?"<>|]/g, ' '), new Blob([csvText(rows)], { type: 'text/csv;charset=utf-8' }));
}
