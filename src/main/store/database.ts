// The only file that opens SQLite. Everything else reads and writes through the Database below.
import Sqlite from 'better-sqlite3';
import { migrations, NEWEST_VERSION } from './migrations/index.ts';
import type { Migration } from './migrations/migration.ts';
import { orderKey, searchWords } from '../../core/shelf/find/search-text.ts';

/** "BkWg": tells our files from any other SQLite file. */
export const APPLICATION_ID = 0x426b_5767;
/** How long a write waits for another process before it gives up. */
const BUSY_MILLISECONDS = 5000;

export type SqlValue = string | number | null;

export interface Database {
  readonly file: string;
  all<Row>(sql: string, values?: readonly SqlValue[]): Row[];
  get<Row>(sql: string, values?: readonly SqlValue[]): Row | undefined;
  /** Runs one statement inside a write; gives the row id of an insert. */
  run(sql: string, values?: readonly SqlValue[]): number;
  /** Everything `work` does happens, or nothing does. `work` is synchronous: nothing may await inside. */
  write<T>(work: () => T): T;
  pragma(text: string): unknown;
  /** Writes a compact copy of the whole database to a file that must not exist. */
  copyInto(file: string): void;
  /** Grows whenever another connection has committed. */
  foreignCommits(): number;
  /** Rows of the bottles this connection has written, also where the write was taken back; whoever reads them clears them. */
  readonly writtenBottles: Set<number>;
  close(): void;
}

/** A file that SQLite opens but that holds something we must not touch. */
export class NotOurs extends Error {
  readonly found: 'foreign' | 'newer';
  readonly version: number;
  constructor(found: 'foreign' | 'newer', version: number) {
    super(`database file needs to be ours and of version ${NEWEST_VERSION} or older (got ${found}, version ${version})`);
    this.found = found;
    this.version = version;
  }
}

interface Upgrade {
  /** Runs first where an older version is about to change. */
  readonly before?: (database: Database) => void;
  /** Other migrations than the program's own: a test stops at an earlier version. */
  readonly list?: readonly Migration[];
}

/** Opens or makes a database file, checks every promise it rests on, and brings it to the newest version. */
export function openDatabase(file: string, { before = () => {}, list = migrations }: Upgrade = {}): Database {
  const sqlite = new Sqlite(file, { timeout: BUSY_MILLISECONDS });
  try {
    registerFunctions(sqlite);
    const version = versionOf(sqlite);
    keepPromises(sqlite);
    const database = wrap(sqlite, file);
    if (version > 0 && version < list.length) before(database);
    migrate(database, list);
    watchBottles(sqlite, database.writtenBottles);
    return database;
  } catch (error) {
    sqlite.close();
    throw error;
  }
}

/** Opens a file for reading only, leaving every byte of it as it is. */
export function openForReading(file: string): Database {
  const sqlite = new Sqlite(file, { readonly: true, fileMustExist: true, timeout: BUSY_MILLISECONDS });
  try {
    versionOf(sqlite);
    return wrap(sqlite, file);
  } catch (error) {
    sqlite.close();
    throw error;
  }
}

/** Runs the migrations a database has not seen, each in one transaction with its number. */
function migrate(database: Database, list: readonly Migration[]): void {
  for (const { version, statements } of list) {
    database.write(() => {
      // Asked again inside the transaction: another process may have done it meanwhile.
      if (Number(database.pragma('user_version')) >= version) return;
      for (const statement of statements) database.run(statement);
      database.pragma(`application_id = ${APPLICATION_ID}`);
      database.pragma(`user_version = ${version}`);
    });
  }
}

function registerFunctions(sqlite: Sqlite.Database): void {
  const options = { deterministic: true, directOnly: true };
  sqlite.function('order_key', options, (text: unknown) => orderKey(String(text ?? '')));
  sqlite.function('search_words', { ...options, varargs: true }, (material: unknown, ...rest: unknown[]) => {
    const { name, formula, cas, synonyms } = JSON.parse(String(material)) as Record<string, unknown>;
    const also = Array.isArray(synonyms) ? synonyms : [];
    return searchWords([name, ...also, formula, cas, ...rest].map((part) => (typeof part === 'string' ? part : null)));
  });
}

/** Version of the file; 0 for a new one. Throws where the file is not ours or is newer than this program. */
function versionOf(sqlite: Sqlite.Database): number {
  const id = Number(sqlite.pragma('application_id', { simple: true }));
  const version = Number(sqlite.pragma('user_version', { simple: true }));
  const tables = sqlite.prepare<[], { count: number }>('SELECT count(*) AS count FROM sqlite_schema').get()?.count ?? 0;
  if (id !== APPLICATION_ID && (id !== 0 || version !== 0 || tables !== 0)) throw new NotOurs('foreign', version);
  if (version > NEWEST_VERSION) throw new NotOurs('newer', version);
  return version;
}

function keepPromises(sqlite: Sqlite.Database): void {
  const promise = (pragma: string, name: string, wanted: string | number): void => {
    sqlite.pragma(pragma);
    const got = sqlite.pragma(name, { simple: true });
    if (got !== wanted) throw new Error(`${name} needs to be ${wanted} (got ${String(got)})`);
  };
  promise('journal_mode = WAL', 'journal_mode', 'wal');
  // Set on every open: a WAL file that is opened again starts at NORMAL, which may lose the last commits.
  promise('synchronous = FULL', 'synchronous', 2);
  promise('foreign_keys = ON', 'foreign_keys', 1);
  // Without this, INSERT OR REPLACE would delete append-only rows unseen by their triggers.
  promise('recursive_triggers = ON', 'recursive_triggers', 1);
  promise('trusted_schema = OFF', 'trusted_schema', 0);
}

function wrap(sqlite: Sqlite.Database, file: string): Database {
  const prepared = new Map<string, Sqlite.Statement<unknown[], unknown>>();
  const statement = (sql: string): Sqlite.Statement<unknown[], unknown> => {
    const known = prepared.get(sql);
    if (known) return known;
    const made = sqlite.prepare<unknown[], unknown>(sql);
    prepared.set(sql, made);
    return made;
  };
  return {
    file,
    all: <Row>(sql: string, values: readonly SqlValue[] = []) => statement(sql).all(...values) as Row[],
    get: <Row>(sql: string, values: readonly SqlValue[] = []) => statement(sql).get(...values) as Row | undefined,
    run: (sql, values = []) => {
      if (!sqlite.inTransaction) throw new Error('a change needs to be inside a write');
      return Number(statement(sql).run(...values).lastInsertRowid);
    },
    write: (work) => transaction(sqlite, work),
    pragma: (text) => sqlite.pragma(text, { simple: true }),
    copyInto: (target) => {
      sqlite.prepare<[string]>('VACUUM INTO ?').run(target);
    },
    foreignCommits: () => Number(sqlite.pragma('data_version', { simple: true })),
    writtenBottles: new Set(),
    close: () => {
      sqlite.close();
    },
  };
}

/** Triggers of the connection alone: nothing of them is in the file. Set outside of any write, which could take them back. */
function watchBottles(sqlite: Sqlite.Database, written: Set<number>): void {
  sqlite.function('bottle_written', (row: unknown) => {
    written.add(Number(row));
    return null;
  });
  const watch = (name: string, event: string, row: 'NEW' | 'OLD'): void => {
    sqlite.exec(`CREATE TEMP TRIGGER ${name} AFTER ${event} ON bottle BEGIN SELECT bottle_written(${row}.id); END`);
  };
  watch('bottle_put', 'INSERT', 'NEW');
  watch('bottle_changed', 'UPDATE', 'NEW');
  watch('bottle_gone', 'DELETE', 'OLD');
}

function transaction<T>(sqlite: Sqlite.Database, work: () => T): T {
  if (sqlite.inTransaction) throw new Error('a write needs to stand alone (got a write inside a write)');
  sqlite.exec('BEGIN IMMEDIATE');
  try {
    const result = work();
    if (result instanceof Promise) throw new Error('a write needs to be synchronous (got a promise)');
    sqlite.exec('COMMIT');
    return result;
  } catch (error) {
    try {
      // SQLite has rolled back by itself after some errors, a full disk among them.
      if (sqlite.inTransaction) sqlite.exec('ROLLBACK');
    } catch {
      // The first error says what went wrong; a failed rollback must not hide it.
    }
    throw error;
  }
}

/** SQLite's own code of an error, e.g. "SQLITE_FULL"; null for any other error. */
export function sqliteCode(error: unknown): string | null {
  return error instanceof Sqlite.SqliteError ? error.code : null;
}
