import { createHash } from 'node:crypto';
import { grouped } from '../../core/grouped.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { BrokenRun, RunRecord, RunStart } from '../../core/port/runs.ts';
import { brokenEnd, brokenLink, firstLink, type Hash, type Linked, nextLink } from '../../core/run/chain.ts';
import type { Recorded, RunEntry } from '../../core/run/entry.ts';
import type { RunSheet } from '../../core/run/run-sheet.ts';
import { foldRun, whyNotWritten } from '../../core/run/state.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { sentence } from '../../core/words/sentences.ts';
import type { Database } from './database.ts';
import { numberState, readPlan } from './plans.ts';
import { Refusal } from './refusal.ts';
import { brokenLines } from './run-lines.ts';
import { onShelf } from './run-shelf.ts';

const sha256: Hash = (text) => createHash('sha256').update(text, 'utf8').digest('hex');

interface RunTableRow {
  readonly id: number;
  readonly plan: number;
  readonly revision: number;
  readonly data: string;
  readonly link: string;
  /** Of the newest entry, kept beside the record; null where that is gone. */
  readonly head_entries: number | null;
  readonly head_link: string | null;
}

const RUN_ROWS = `SELECT id, plan, revision, data, run.link AS link, run_head.entries AS head_entries, run_head.link AS head_link
  FROM run LEFT JOIN run_head ON run_head.run = run.id`;

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
    ({ start, entries }) =>
      start.sheet.step === sheet.step && start.sheet.batch === sheet.batch && foldRun(start.sheet, entries).phase !== 'finished',
  );
  if (going) throw new Refusal('conflict', mainWords.runGoesOn(going.id));
  const revision = numberState(database, plan, state, 'started', at);
  const start: RunStart = { plan, revision, route: routeId, routeRevision, started: at, sheet };
  const link = firstLink({ ...start }, sha256);
  // Never the number of a run that was there before, whatever became of it.
  const id = database.run(
    'INSERT INTO run (id, plan, revision, data, link) VALUES ((SELECT max(run) + 1 FROM run_last), ?, ?, ?, ?)',
    [plan, revision, canonicalJson(start), link],
  );
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
  const row = database.get<RunTableRow>(`${RUN_ROWS} WHERE id = ?`, [id]);
  if (!row) throw new Refusal('not found', mainWords.noRun(id));
  const rows = database.all<EntryTableRow>('SELECT run, number, at, data, link FROM run_entry WHERE run = ? ORDER BY number', [
    id,
  ]);
  const stored = storedOf(row, rows);
  if (!stored) throw new Refusal('storage', mainWords.runChanged(id, 0));
  return stored;
}

/**
 * Every run, or those of a plan, oldest first; of a record that was changed only what comes before the change, and none of
 * which not even the start can be trusted. Each chain is worked out once, and again when its record has grown.
 */
export function storedRuns(database: Database, plan?: number): readonly RunRecord[] {
  const known = checked.get(database) ?? new Map<number, Checked>();
  checked.set(database, known);
  return runRows(database, plan).flatMap(({ row, entries }) => {
    const before = known.get(row.id);
    const stored = storedOf(row, entries, before?.entries === entries.length ? before.broken : undefined);
    if (stored) known.set(row.id, { entries: entries.length, broken: stored.record.broken });
    return stored && stored.record.broken !== 0 ? [stored.record] : [];
  });
}

/** How many entries a record had when its chain was worked out, and where it was broken. */
interface Checked {
  readonly entries: number;
  readonly broken: number | null;
}

const checked = new WeakMap<Database, Map<number, Checked>>();

interface RunRows {
  readonly row: RunTableRow;
  readonly entries: readonly EntryTableRow[];
}

function runRows(database: Database, plan?: number): readonly RunRows[] {
  const of = plan === undefined ? '' : 'WHERE plan = ?';
  const values = plan === undefined ? [] : [plan];
  const rows = database.all<RunTableRow>(`${RUN_ROWS} ${of} ORDER BY id`, values);
  const entries = grouped(
    database.all<EntryTableRow>(
      `SELECT run, number, at, run_entry.data AS data, run_entry.link AS link
       FROM run_entry JOIN run ON run.id = run_entry.run ${of} ORDER BY run, number`,
      values,
    ),
    (entry) => String(entry.run),
  );
  return rows.map((row) => ({ row, entries: entries.get(String(row.id)) ?? [] }));
}

/** Null where its start is no longer readable. Of a record that was changed only what comes before the change is given. */
function storedOf(row: RunTableRow, rows: readonly EntryTableRow[], known?: number | null): StoredRun | null {
  const start = parsed(row.data) as RunStart | null;
  if (start === null) return null;
  const read = rows.map(({ number, at, data, link }) => {
    const entry = parsed(data) as RunEntry | null;
    return entry === null ? null : ({ recorded: { number, at, entry }, link } satisfies Linked);
  });
  const unreadable = read.indexOf(null);
  const readable = (unreadable < 0 ? read : read.slice(0, unreadable)).filter((one) => one !== null);
  const broken = known === undefined ? (brokenAt(row, start, readable) ?? (unreadable < 0 ? null : unreadable + 1)) : known;
  const entries = broken === null ? readable : readable.slice(0, Math.max(0, broken - 1));
  return { link: row.link, entries, record: { id: row.id, start, entries: entries.map((one) => one.recorded), broken } };
}

function brokenAt(row: RunTableRow, start: RunStart, entries: readonly Linked[]): number | null {
  if (start.plan !== row.plan || start.revision !== row.revision) return 0;
  const end = row.head_entries === null || row.head_link === null ? null : { entries: row.head_entries, link: row.head_link };
  return brokenLink({ ...start }, row.link, entries, sha256) ?? brokenEnd(entries, end);
}

/** Null for what is no longer JSON: a byte of it was changed. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** Numbers looked through for gaps, and gaps named: a number that was changed may be any. */
const [MOST_RUNS, MOST_NAMED] = [100_000, 20];

/** Runs whose record no longer fits its chain or the ledgers it wrote into, those that can no longer be read, and those that are gone. */
export function brokenRuns(database: Database): readonly BrokenRun[] {
  const changed = runRows(database).flatMap(({ row, entries }) => {
    const stored = storedOf(row, entries);
    if (!stored) return [{ id: row.id, entry: 0, sheet: '' }];
    const { broken, start } = stored.record;
    return broken === null ? [] : [{ id: row.id, entry: broken, sheet: start.sheet?.sheet?.id ?? '' }];
  });
  // A run that was taken out whole left its head behind, a ledger line, a gap, or its number: runs are numbered on and never go.
  const gone = database.all<{ run: number }>(
    `WITH RECURSIVE numbers (run) AS (SELECT 1 UNION ALL SELECT run + 1 FROM numbers
       WHERE run < (SELECT max(last) FROM (SELECT max(id) AS last FROM run UNION ALL SELECT max(run) FROM run_head
         UNION ALL SELECT max(run) FROM run_entry UNION ALL SELECT max(run) FROM run_ledger UNION ALL SELECT run FROM run_last)) LIMIT ${MOST_RUNS})
     SELECT run FROM numbers WHERE run NOT IN (SELECT id FROM run)
       AND EXISTS (SELECT 1 FROM run UNION ALL SELECT 1 FROM run_head UNION ALL SELECT 1 FROM run_entry UNION ALL SELECT 1 FROM run_ledger
         UNION ALL SELECT 1 FROM run_last WHERE run > 0)
     LIMIT ${MOST_NAMED}`,
  );
  const bad = new Set(changed.map((one) => one.id));
  const whole = new Set(
    database
      .all<{ id: number }>('SELECT id FROM run')
      .map((one) => one.id)
      .filter((id) => !bad.has(id)),
  );
  return [...changed, ...gone.map(({ run }) => ({ id: run, entry: 0, sheet: '' })), ...brokenLines(database, whole)];
}
