import { UNSEEN } from '../find/search-text.ts';
import { schemaProblems } from '../../words/file-problems.ts';
import { shelfImportWords as words } from '../../words/shelf-import-words.ts';
import { SHELF_FIELDS, type FieldName } from './fields.ts';
import { hasDecimalCommas, type Read, readDateCell, readList, readNumberCell, readTruthCell } from './read-cells.ts';
import { type Cell, type CellProblem, type ColumnUse, type Mapping, shownCell, type TableRow } from './table.ts';

/** Where each field stands in a table, and what is known of its column. */
export interface Layout {
  readonly mapping: Mapping;
  readonly at: ReadonlyMap<FieldName, number>;
  /** Columns whose cells show decimal commas. */
  readonly commas: ReadonlySet<number>;
  /** The table is headed as our own files are: every cell is taken exactly as it stands. */
  readonly exact: boolean;
}

/** Looks once over a table's columns. */
export function layOut(mapping: Mapping, rows: readonly TableRow[], exact: boolean): Layout {
  const at = new Map<FieldName, number>();
  const commas = new Set<number>();
  for (const [column, use] of mapping.entries()) {
    if (!use) continue;
    at.set(use.field, column);
    if (['number', 'amount', 'strength'].includes(SHELF_FIELDS[use.field].kind) && hasDecimalCommas(cellsOf(rows, column))) {
      commas.add(column);
    }
  }
  return { mapping, at, commas, exact };
}

function* cellsOf(rows: readonly TableRow[], column: number): Iterable<Cell> {
  for (const row of rows) yield row.cells[column] ?? '';
}

/** NUL, and halves of a surrogate pair: the store would not give them back as they came. */
// oxlint-disable-next-line no-control-regex
const BAD_TEXT = /\u0000|\p{Surrogate}/u;

/** Begins as a spreadsheet's formula does; a name alone also with what a sheet takes for one. Free notes may begin as they like. */
const FORMULA = /^=/;
const FORMULA_NAME = /^[=@]|^[+-]\s*[\d(=@]/;
const FREE: ReadonlySet<FieldName> = new Set(['note', 'materialNote']);

/** What tells one bottle or one delivery from another: a digit less, and two of them are one. */
const IDENTITIES: ReadonlySet<FieldName> = new Set(['label', 'lot']);

/** A long number as spreadsheets shorten it, in our own files too once they were saved there: 4.00638E+12, or too long for all of its digits. */
function isShortened(cell: Cell): boolean {
  return typeof cell === 'number' ? Math.abs(cell) >= 1e15 : /^\s*\d([.,]\d+)?E\+\d+\s*$/i.test(cell);
}

function looksLikeFormula(field: FieldName, text: string): boolean {
  return !FREE.has(field) && (field === 'name' ? FORMULA_NAME : FORMULA).test(text);
}

/** Reads the fields of one row and gathers what is wrong, each at its column. */
export class CellReader {
  readonly problems: CellProblem[];
  readonly remarks: string[] = [];
  readonly exact: boolean;
  readonly #layout: Layout;
  readonly #row: TableRow;

  constructor(layout: Layout, row: TableRow) {
    this.#layout = layout;
    this.#row = row;
    this.exact = layout.exact;
    // What is wrong in a column that is left out stands in nobody's way.
    this.problems = row.problems.filter(({ column }) => column === null || layout.mapping[column]);
  }

  /** The cell of a field; empty where it has no column. */
  cell(field: FieldName): Cell {
    const column = this.#layout.at.get(field);
    const cell = column === undefined ? '' : (this.#row.cells[column] ?? '');
    return typeof cell === 'string' && cell !== '' && !this.exact && cell.replaceAll(UNSEEN, '').trim() === '' ? '' : cell;
  }

  has(field: FieldName): boolean {
    return this.cell(field) !== '';
  }

  use(field: FieldName): ColumnUse {
    const column = this.#layout.at.get(field);
    return (column === undefined ? null : this.#layout.mapping[column]) ?? { field };
  }

  /** What a column is for. */
  fieldOf(column: number): FieldName | null {
    return this.#layout.mapping[column]?.field ?? null;
  }

  commas(field: FieldName): boolean {
    return this.#layout.commas.has(this.#layout.at.get(field) ?? -1);
  }

  /** Says what is wrong with a field's cell. */
  wrong(field: FieldName | null, said: string): void {
    const column = field === null ? null : (this.#layout.at.get(field) ?? null);
    this.problems.push({ column, value: field === null ? '' : shownCell(this.cell(field)), words: said });
  }

  text(field: FieldName): string | undefined {
    const cell = this.cell(field);
    if (cell === '') return undefined;
    const text = this.exact ? String(cell) : String(cell).replaceAll(UNSEEN, '').trim();
    if (BAD_TEXT.test(text)) this.wrong(field, words.problems.badText);
    else if (!this.exact && looksLikeFormula(field, text)) this.wrong(field, words.problems.formula);
    else if (IDENTITIES.has(field) && isShortened(cell)) this.wrong(field, words.problems.shortened);
    return text;
  }

  list(field: FieldName): string[] | undefined {
    const text = this.text(field);
    return text === undefined ? undefined : [...readList(text, this.exact)];
  }

  date(field: FieldName): string | undefined {
    return this.#taken(field, () => readDateCell(this.cell(field), this.use(field)));
  }

  truth(field: FieldName): boolean | undefined {
    return this.#taken(field, () => readTruthCell(this.cell(field)));
  }

  /** A bare number, or one with the unit its field is in. */
  number(field: FieldName, unit: RegExp, negative = false): number | undefined {
    return this.#taken(field, () => readNumberCell(this.cell(field), this.use(field), this.commas(field), unit, negative));
  }

  /** The same for a part of a cell. */
  numberIn(field: FieldName, text: string, unit: RegExp): number | undefined {
    return this.#taken(field, () => readNumberCell(text, this.use(field), this.commas(field), unit));
  }

  /** One of a few words; what is none of them is said with all of them. */
  choice<T extends string>(field: FieldName, choices: Readonly<Record<string, T>>): T | undefined {
    const text = this.text(field)?.trim().toLowerCase();
    if (text === undefined) return undefined;
    if (Object.hasOwn(choices, text)) return choices[text];
    this.wrong(field, words.problems.oneOf([...new Set(Object.values(choices))]));
    return undefined;
  }

  /** What a schema has against what was read, at the columns it was read from. */
  issues(
    issues: Parameters<typeof schemaProblems>[0],
    root: unknown,
    fields: readonly (readonly [start: string, FieldName])[],
  ): void {
    for (const problem of schemaProblems(issues, root)) {
      const found = fields.find(([start]) => problem.at.startsWith(start));
      this.wrong(found?.[1] ?? null, problem.words);
    }
  }

  #taken<T>(field: FieldName, read: () => Read<T>): T | undefined {
    if (!this.has(field)) return undefined;
    const got = read();
    if (got.ok) return got.value;
    this.wrong(field, got.words);
    return undefined;
  }
}
