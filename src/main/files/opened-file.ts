// A file that was handed over, read as often as the person changes how it is to be read.
import type { Encoding, FileChoices, Separator } from '../../core/port/files.ts';
import { guessHeadingRow } from '../../core/shelf/import/guess.ts';
import type { TableRow } from '../../core/shelf/import/table.ts';
import { encodingSamples, kindOfFile, saidEncoding, textOf } from './decode.ts';
import { fileWords, refuse, type Watch } from './limits.ts';
import { guessSeparator, readCsv } from './read-csv.ts';
import { type OpenWorkbook, openWorkbook } from './read-xlsx.ts';
import { unguarded } from './write-csv.ts';

/** How a file was read, and the rows that came of it. */
export interface ReadTable {
  readonly format: 'csv' | 'xlsx';
  readonly encoding: Encoding | null;
  readonly separator: Separator | null;
  readonly sheets: readonly string[];
  readonly sheet: number;
  /** As a person counts them. */
  readonly headingRow: number;
  readonly headings: TableRow;
  /** The rows below the headings. */
  readonly rows: readonly TableRow[];
}

export type Unclear = { readonly ask: ReturnType<typeof encodingSamples> };

type Rows = Pick<ReadTable, 'format' | 'encoding' | 'separator' | 'sheets' | 'sheet'> & { readonly all: readonly TableRow[] };

export class OpenedFile {
  readonly name: string;
  readonly #bytes: Uint8Array;
  #workbook: OpenWorkbook | null = null;
  /** What was read last, by the choices it was read with. */
  #last: { readonly key: string; readonly rows: Rows } | null = null;

  constructor(name: string, bytes: Uint8Array) {
    this.name = name;
    this.#bytes = bytes;
  }

  /** Reads the file as it was chosen; what was not chosen is told by the file itself, or asked for. */
  async read(choices: FileChoices, watch: Watch): Promise<ReadTable | Unclear> {
    const kind = kindOfFile(this.#bytes);
    const encoding = kind === 'text' ? (choices.encoding ?? saidEncoding(this.#bytes)) : null;
    if (kind === 'text' && encoding === null) {
      const ask = encodingSamples(this.#bytes);
      return ask.length === 0 ? refuse(fileWords.notText) : { ask };
    }
    const key = JSON.stringify([encoding, choices.separator, choices.sheet]);
    if (this.#last?.key !== key) {
      const rows = encoding === null ? await this.#sheet(choices, watch) : this.#text(encoding, choices, watch);
      this.#last = { key, rows };
    }
    return headed(this.#last.rows, choices.headingRow);
  }

  #text(encoding: Encoding, choices: FileChoices, watch: Watch): Rows {
    const text = textOf(this.#bytes, encoding);
    const separator = choices.separator ?? guessSeparator(text);
    const all = readCsv(text, separator, watch).map((row) =>
      row.cells.some((cell) => typeof cell === 'string' && cell.startsWith("'"))
        ? { ...row, cells: row.cells.map(unguarded) }
        : row,
    );
    return { format: 'csv', encoding, separator, sheets: [], sheet: 0, all };
  }

  async #sheet(choices: FileChoices, watch: Watch): Promise<Rows> {
    this.#workbook ??= await openWorkbook(this.#bytes);
    const { sheets, rows } = this.#workbook;
    const chosen = choices.sheet === undefined || choices.sheet >= sheets.length ? null : choices.sheet;
    const how = { format: 'xlsx', encoding: null, separator: null, sheets } as const;
    if (chosen !== null) return { ...how, sheet: chosen, all: rows(chosen, watch) };
    for (const sheet of sheets.keys()) {
      const all = rows(sheet, watch);
      if (all.length > 0) return { ...how, sheet, all };
    }
    return refuse(fileWords.noSheet);
  }
}

function headed({ all, ...how }: Rows, chosen: number | undefined): ReadTable {
  const guessed = all[guessHeadingRow(all.map((row) => row.cells))]?.number ?? 1;
  const headingRow = chosen ?? guessed;
  // Without headings the columns are as many as the first row has.
  const cells = headingRow === 0 ? (all[0]?.cells ?? []).map(() => '') : [];
  const headings = all.find((row) => row.number === headingRow) ?? { number: headingRow, cells, problems: [] };
  const rows = all.filter((row) => row.number > headingRow);
  if (rows.length === 0 && all.every(({ cells }) => cells.every((cell) => String(cell).trim() === '')))
    refuse(fileWords.nothingInIt);
  return { ...how, headingRow, headings, rows };
}
