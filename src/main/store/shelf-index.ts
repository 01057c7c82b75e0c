import type { Material } from '../../core/matter/material.ts';
import { emptyColumns, putEntry, putHolding, type ShelfColumns } from '../../core/shelf/find/columns.ts';
import type { Database } from './database.ts';

/*
 * The shelf's columns in memory, read from the store once and kept true: each row of `bottle` that this connection touches
 * is noted by a trigger of the connection and read again before the next search, whether its write was kept or taken back;
 * after a write of another process everything is read anew. The store stays the one truth; nothing is written from here.
 */

interface Held {
  readonly columns: ShelfColumns;
  readonly foreign: number;
}

const held = new WeakMap<Database, Held>();

/** From here on reading all is quicker than reading one by one. */
const MANY = 5000;

interface EntryRow {
  readonly row: number;
  readonly code: string;
  readonly lot: string;
  readonly place: string;
  readonly supplier: string;
  readonly material: number;
  readonly form: string;
  readonly left: number;
  readonly held_back: number;
  readonly use_by: string | null;
  readonly water: number | null;
}

const COLUMNS = 'bottle.id AS row, code, lot, place, supplier, material, form, amount_left AS left, held_back, use_by, water';
/** Every bottle but those of files that were taken back: read once when the workbook is first searched. */
export const READ_ALL = `SELECT ${COLUMNS} FROM bottle WHERE taken_back = 0 ORDER BY bottle.id`;
export const READ_SOME = `SELECT ${COLUMNS} FROM json_each(?) CROSS JOIN bottle ON bottle.id = json_each.value
  WHERE taken_back = 0 ORDER BY bottle.id`;

/** The columns as the store is now. Never inside a write: what a write has not finished may yet be taken back. */
export function shelfColumns(database: Database): ShelfColumns {
  const foreign = database.foreignCommits();
  const { writtenBottles } = database;
  const known = held.get(database);
  const columns = known && known.foreign === foreign && writtenBottles.size <= MANY ? known.columns : readAll(database);
  const now = columns === known?.columns ? readWritten(database, columns) : columns;
  writtenBottles.clear();
  held.set(database, { columns: now, foreign });
  return now;
}

function readAll(database: Database): ShelfColumns {
  const columns = emptyColumns();
  putMaterials(database, columns);
  for (const row of database.all<EntryRow>(READ_ALL)) put(columns, row);
  return columns;
}

function readWritten(database: Database, columns: ShelfColumns): ShelfColumns {
  const written = [...database.writtenBottles];
  if (written.length === 0) return columns;
  putMaterials(database, columns);
  const rows = database.all<EntryRow>(READ_SOME, [JSON.stringify(written)]);
  for (const row of rows) put(columns, row);
  // A bottle that was put and taken back in one write was never here; one that has gone was.
  const found = new Set(rows.map((row) => row.row));
  const gone = written.some((row) => !found.has(row) && columns.position.has(row));
  return gone ? readAll(database) : columns;
}

/** Materials are only ever added, each with a greater number than those before. */
function putMaterials(database: Database, columns: ShelfColumns): void {
  const last = [...columns.holdingOf.keys()].at(-1) ?? 0;
  const rows = database.all<{ id: number; data: string }>('SELECT id, data FROM material WHERE id > ? ORDER BY id', [last]);
  for (const { id, data } of rows) putHolding(columns, id, JSON.parse(data) as Material);
}

function put(columns: ShelfColumns, { form, held_back, use_by, water, ...row }: EntryRow): void {
  putEntry(columns, { ...row, form, known: isKnown(form, water), heldBack: held_back === 1, useBy: use_by });
}

/** By the text alone: reading every form of a large shelf would take longer than the search. */
function isKnown(form: string, water: number | null): boolean {
  return !form.includes('"kind":"unknown"') && (water !== null || !form.includes('"assayOn"'));
}
