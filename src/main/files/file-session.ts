// One file on its way to the shelf: read, shown with every row's fate, written. Runs in a worker of its own.
import { createHash } from 'node:crypto';
import type { FateRow, FileChoices, FilePreview, FileWritten } from '../../core/port/files.ts';
import type { Reference } from '../../core/reference.ts';
import { type Fate, FateJudge, type FateKind } from '../../core/shelf/import/fate.ts';
import { guessMapping, isOwnTable } from '../../core/shelf/import/guess.ts';
import { type Layout, layOut } from '../../core/shelf/import/cell-reader.ts';
import type { CheckedMaterials } from '../../core/shelf/import/read-material.ts';
import { type ReadRow, readRow } from '../../core/shelf/import/read-row.ts';
import { NO_ROUTES, type RouteMaterials, routeMaterials } from '../../core/shelf/import/route-materials.ts';
import { type Mapping, shownCell, type TableRow } from '../../core/shelf/import/table.ts';
import { shelfImportWords } from '../../core/words/shelf-import-words.ts';
import { putFromFile, updateFromFile } from '../store/bottle-from-file.ts';
import type { Clock } from '../clock.ts';
import { recordIntake } from '../store/intakes.ts';
import type { Moment } from '../store/bottle-edits.ts';
import type { Database } from '../store/database.ts';
import { Refusal } from '../store/refusal.ts';
import { newestRoutes } from '../store/routes.ts';
import { fateRow, refusedCsv } from './fate-rows.ts';
import { fileWords, refuse, UNWATCHED, type Watch } from './limits.ts';
import { OpenedFile, type ReadTable } from './opened-file.ts';
import { type Refusals, refusalsOf } from './refusal-reasons.ts';
import { shelfView } from './shelf-view.ts';
import { withStructures } from './structures.ts';

const EVERY = 250;
const SAMPLE_CELLS = 3;

interface Judged {
  readonly preview: number;
  readonly table: ReadTable;
  readonly rows: readonly ReadRow[];
  readonly fates: readonly Fate[];
  readonly takeDuplicates: boolean;
  readonly headings: readonly string[];
  readonly refusals: Refusals;
}

export class FileSession {
  readonly #file: OpenedFile;
  readonly #reference: Reference;
  readonly #clock: Clock;
  #judged: Judged | null = null;
  #previews = 0;

  constructor(name: string, bytes: Uint8Array, reference: Reference, clock: Clock) {
    this.#file = new OpenedFile(name, bytes);
    this.#clock = clock;
    this.#reference = reference;
  }

  /** Reads the file as chosen and holds every row against the shelf. Writes nothing. */
  async preview(
    choices: FileChoices,
    database: Database,
    watch: { readonly reading: Watch; readonly judging: Watch },
  ): Promise<FilePreview> {
    this.#judged = null;
    const table = await this.#file.read(choices, watch.reading);
    if ('ask' in table) return { at: 'encoding', proposed: table.ask[0]?.encoding ?? 'windows-1252', samples: table.ask };
    const own = isOwnTable(table.headings.cells);
    const mapping = mappingOf(table, choices.mapping);
    const routes = own ? NO_ROUTES : routeMaterials(newestRoutes(database));
    const rows = await this.#rows(table, layOut(mapping, table.rows, own), routes, watch.judging);
    const takeDuplicates = choices.takeDuplicates ?? false;
    const fates = judge(rows, database, takeDuplicates, this.#clock.today(), watch.judging);
    const headings = mapping.map((_, column) => String(table.headings.cells[column] ?? ''));
    this.#previews += 1;
    const refusals = refusalsOf(rows, fates, headings);
    this.#judged = { preview: this.#previews, table, rows, fates, takeDuplicates, headings, refusals };
    const { format, encoding, separator, sheets, sheet, headingRow } = table;
    const columns = headings.map((heading, column) => ({ heading, cells: sampleOf(table.rows, column) }));
    const how = { format, encoding, separator, sheets, sheet, headingRow };
    return {
      at: 'table',
      preview: this.#previews,
      ...how,
      mapping: [...mapping],
      columns,
      own,
      takeDuplicates,
      counts: countsOf(fates),
      reasons: refusals.reasons,
      unlabelled: fates.filter((fate) => fate.kind === 'duplicate' && fate.bottle !== null).length,
    };
  }

  async #rows(table: ReadTable, layout: Layout, routes: RouteMaterials, watch: Watch): Promise<readonly ReadRow[]> {
    const checked: CheckedMaterials = new Map();
    const width = layout.mapping.length;
    const rows = table.rows.map((row, index) => {
      if (index % EVERY === 0) watch.step(index, table.rows.length * 2);
      return readRow(table.format === 'csv' ? ragged(row, width) : row, layout, this.#reference, checked, routes);
    });
    return withStructures(rows, layout.at.get('smiles') ?? null, this.#reference);
  }

  /** A page of the rows with one fate, or of all of them, or of those refused for one reason. */
  page(
    fate: FateKind | 'all',
    from: number,
    count: number,
    reason: number | null = null,
  ): { readonly total: number; readonly rows: readonly FateRow[] } {
    const { rows, fates, headings, refusals } = this.#shown();
    const found =
      (reason === null ? null : refusals.rows[reason]) ??
      fates.flatMap((one, index) => (fate === 'all' || one.kind === fate ? [index] : []));
    const page = found.slice(from, from + count).flatMap((index) => {
      const [row, one] = [rows[index], fates[index]];
      return row && one ? [fateRow(row, one, headings)] : [];
    });
    return { total: found.length, rows: page };
  }

  /** The refused rows as a CSV file with the reasons. */
  refused(): string {
    const { table, fates, headings } = this.#shown();
    return refusedCsv(table.rows, fates, headings);
  }

  /** Writes what the preview showed, in one transaction: all of it, or nothing where it was stopped or the shelf has moved on. */
  write(preview: number, database: Database, watch: Watch = UNWATCHED): FileWritten {
    const judged = this.#shown();
    if (judged.preview !== preview) throw new Refusal('conflict', fileWords.moved);
    const { fates } = judged;
    const counts = countsOf(fates);
    if (counts.new + counts.update === 0) refuse(fileWords.nothingToWrite);
    const moment = { at: this.#clock.now(), today: this.#clock.today() };
    const reason = fileWords.reason(this.#file.name).slice(0, 300);
    const intake = database.write(() => {
      // Asked again inside the transaction: what was shown must still be so.
      if (digest(judge(judged.rows, database, judged.takeDuplicates, moment.today, UNWATCHED)) !== digest(fates)) {
        throw new Refusal('conflict', fileWords.moved);
      }
      return writeAll(database, fates, { file: this.#file.name, reason, moment }, watch);
    });
    this.#judged = null;
    return { intake, added: counts.new, updated: counts.update, leftOut: counts.duplicate + counts.refused };
  }

  #shown(): Judged {
    return this.#judged ?? refuse(fileWords.gone);
  }
}

/** What the person chose for each column, as many as there are; else what the headings say. */
function mappingOf({ format, headings, rows }: ReadTable, chosen: FileChoices['mapping']): Mapping {
  const wide = format === 'csv' ? [] : rows;
  const width = wide.reduce((most, row) => Math.max(most, row.cells.length), headings.cells.length);
  const cells = Array.from({ length: width }, (_, column) => headings.cells[column] ?? '');
  const mapping = chosen?.length === width ? chosen : guessMapping(cells);
  const seen = new Set<string>();
  for (const use of mapping) {
    if (use && seen.has(use.field)) refuse(fileWords.twiceMapped(use.field));
    if (use) seen.add(use.field);
  }
  return mapping;
}

/** A CSV row needs as many fields as there are headings; empty ones at its end aside. */
function ragged(row: TableRow, width: number): TableRow {
  if (width === 0) return row;
  const tooMany = row.cells.slice(width).some((cell) => cell !== '');
  if (row.problems.length > 0 || (!tooMany && row.cells.length >= width)) return row;
  const words = shelfImportWords.problems.ragged(row.cells.length, width);
  return { ...row, problems: [{ column: null, value: row.cells.map(String).join(' | ').slice(0, 60), words }], torn: true };
}

function judge(
  rows: readonly ReadRow[],
  database: Database,
  takeDuplicates: boolean,
  today: string,
  watch: Watch,
): readonly Fate[] {
  const judge = new FateJudge(shelfView(database, rows, today), rows);
  return rows.map((row, index) => {
    if (index % EVERY === 0) watch.step(rows.length + index, rows.length * 2);
    const fate = judge.fate(row);
    return takeDuplicates && fate.kind === 'duplicate' && fate.bottle
      ? { kind: 'new', bottle: fate.bottle, says: fate.says }
      : fate;
  });
}

function countsOf(fates: readonly Fate[]): Record<FateKind, number> {
  const counts: Record<FateKind, number> = { new: 0, update: 0, duplicate: 0, refused: 0 };
  for (const { kind } of fates) counts[kind] += 1;
  return counts;
}

function sampleOf(rows: readonly TableRow[], column: number): readonly string[] {
  const cells: string[] = [];
  for (const row of rows) {
    const cell = shownCell(row.cells[column]);
    if (cell !== '' && !cells.includes(cell)) cells.push(cell);
    if (cells.length === SAMPLE_CELLS) break;
  }
  return cells;
}

function digest(fates: readonly Fate[]): string {
  const hash = createHash('sha256');
  for (const fate of fates) hash.update(JSON.stringify(fate));
  return hash.digest('hex');
}

/** Labelled bottles come first, so that a label that is given out here is none of theirs. Gives the intake. */
function writeAll(
  database: Database,
  fates: readonly Fate[],
  { file, reason, moment }: { readonly file: string; readonly reason: string; readonly moment: Moment },
  watch: Watch,
): number {
  const updates = fates.flatMap((fate) => (fate.kind === 'update' ? [fate.update] : []));
  const coming = fates.flatMap((fate) => (fate.kind === 'new' ? [fate.bottle] : []));
  const order = [...coming.filter(({ id }) => id !== undefined), ...coming.filter(({ id }) => id === undefined)];
  const all = order.length + updates.length;
  const changed = updateFromFile(database, updates, reason, moment);
  const bottles = order.map((bottle, index) => {
    if (index % EVERY === 0) watch.step(updates.length + index, all);
    return putFromFile(database, bottle, reason, moment.at);
  });
  watch.step(all, all);
  return recordIntake(database, { file, at: moment.at, ...changed, bottles });
}
