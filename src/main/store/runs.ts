import { createHash } from 'node:crypto';
import { grouped } from '../../core/grouped.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { BrokenRun, RunRecord, RunStart } from '../../core/port/runs.ts';
import { brokenLink, firstLink, type Hash, type Linked, nextLink, type RunHead } from '../../core/run/chain.ts';
import type { Recorded, RunEntry } from '../../core/run/entry.ts';
import type { RunSheet } from '../../core/run/run-sheet.ts';
import { foldRun, whyNotWritten } from '../../core/run/state.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { sentence } from '../../core/words/sentences.ts';
import type { Database } from './database.ts';
import { numberState, readPlan } from './plans.ts';
import { Refusal } from './refusal.ts';
import { onShelf } from './run-shelf.ts';

const sha256: Hash = (text) => createHash('sha256').update(text, 'utf8').digest('hex');

interface RunTableRow {
  readonly id: number;
  readonly plan: number;
  readonly revision: number;
  readonly data: string;
  readonly link: string;
}

interface EntryTableRow {
  readonly run: number;
  readonly number: number;
  readonly at: string;
  readonly data: string;
  readonly link: string;
}

/** A record as it is kept. */
export interface StoredRun {
  readonly record: RunRecord;
  readonly link: string;
  readonly entries: readonly Linked[];
}

interface NewRun {
  readonly plan: number;
  readonly state: number;
  readonly sheet: RunSheet;
  readonly by: string;
  readonly at: string;
}

/** Starts a run; the plan's state gets a revision number. Only inside a write. */
export function startRun(database: Database, { plan, state, sheet, by, at }: NewRun): number {
  const { routeId, routeRevision } = readPlan(database, plan);
  const going = storedRuns(database, plan).find(
    ({ record }) =>
      record.start.sheet.step === sheet.step &&
      record.start.sheet.batch === sheet.batch &&
      foldRun(record.start.sheet, record.entries).phase !== 'finished',
  );
  if (going) throw new Refusal('conflict', mainWords.runGoesOn(going.record.id));
  const revision = numberState(database, plan, state, 'started', at);
  const start: RunStart = { plan, revision, route: routeId, routeRevision, started: at, sheet };
  const link = firstLink(headOf(start), sha256);
  const id = database.run('INSERT INTO run (plan, revision, data, link) VALUES (?, ?, ?, ?)', [
    plan,
    revision,
    canonicalJson(start),
    link,
  ]);
  appendEntry(database, id, link, { number: 1, at, entry: { kind: 'started', by } });
  return id;
}

interface NewEntry {
  readonly id: number;
  /** Number of the entry the person saw last. */
  readonly after: number;
  readonly entry: RunEntry;
  readonly adjust: boolean;
  readonly at: string;
}

/** Adds an entry with what it does to the shelf. Only inside a write. */
export function addEntry(
  database: Database,
  { id, after, entry: given, adjust, at }: NewEntry,
): { readonly number: number; readonly bottle: string | null; readonly said: string } {
  const { record, link, entries } = readStored(database, id);
  if (record.broken !== null) throw new Refusal('refused', mainWords.runChanged(id, record.broken));
  if (entries.length !== after) throw new Refusal('conflict', mainWords.runMoved(entries.length));
  const why = whyNotWritten(record.start.sheet, record.entries, given);
  if (why) throw new Refusal('refused', sentence(why));
  const { entry, lines, said, bottle } = onShelf(database, record, given, adjust, at);
  const number = entries.length + 1;
  appendEntry(database, id, entries.at(-1)?.link ?? link, { number, at, entry });
  for (const line of lines) {
    database.run('INSERT INTO run_ledger (run, number, ledger) VALUES (?, ?, ?)', [id, number, line]);
  }
  return { number, bottle, said };
}

function appendEntry(database: Database, run: number, before: string, recorded: Recorded): void {
  const { number, at, entry } = recorded;
  database.run('INSERT INTO run_entry (run, number, at, data, link) VALUES (?, ?, ?, ?, ?)', [
    run,
    number,
    at,
    canonicalJson(entry),
    nextLink(before, recorded, sha256),
  ]);
}

/** A run with its whole record, checked against its chain. */
export function readStored(database: Database, id: number): StoredRun {
  const row = database.get<RunTableRow>('SELECT id, plan, revision, data, link FROM run WHERE id = ?', [id]);
  if (!row) throw new Refusal('not found', mainWords.noRun(id));
  const entries = database.all<EntryTableRow>('SELECT run, number, at, data, link FROM run_entry WHERE run = ? ORDER BY number', [
    id,
  ]);
  return storedOf(row, entries);
}

/** Every run, or those of a plan, oldest first. */
export function storedRuns(database: Database, plan?: number): readonly StoredRun[] {
  const of = plan === undefined ? '' : 'WHERE plan = ?';
  const values = plan === undefined ? [] : [plan];
  const rows = database.all<RunTableRow>(`SELECT id, plan, revision, data, link FROM run ${of} ORDER BY id`, values);
  const entries = grouped(
    database.all<EntryTableRow>(
      `SELECT run, number, at, run_entry.data AS data, run_entry.link AS link
       FROM run_entry JOIN run ON run.id = run_entry.run ${of} ORDER BY run, number`,
      values,
    ),
    (entry) => String(entry.run),
  );
  return rows.map((row) => storedOf(row, entries.get(String(row.id)) ?? []));
}

function storedOf(row: RunTableRow, rows: readonly EntryTableRow[]): StoredRun {
  const start = JSON.parse(row.data) as RunStart;
  const entries = rows.map(({ number, at, data, link }): Linked => {
    return { recorded: { number, at, entry: JSON.parse(data) as RunEntry }, link };
  });
  const moved = start.plan !== row.plan || start.revision !== row.revision;
  const broken = moved ? 0 : brokenLink(headOf(start), row.link, entries, sha256);
  return { link: row.link, entries, record: { id: row.id, start, entries: entries.map((one) => one.recorded), broken } };
}

const headOf = (start: RunStart): RunHead => ({ ...start });

/** Runs whose record no longer fits its chain. */
export function brokenRuns(database: Database): readonly BrokenRun[] {
  return storedRuns(database).flatMap(({ record }) =>
    record.broken === null ? [] : [{ id: record.id, entry: record.broken, sheet: record.start.sheet.sheet.id }],
  );
}
