import { accessSync, constants, existsSync, mkdirSync, openSync, readSync, closeSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { Clock } from '../clock.ts';
import { listBackups, makeBackup } from './backup.ts';
import { damageIn } from './check.ts';
import { APPLICATION_ID, type Database, NotOurs, openDatabase, openForReading, sqliteCode } from './database.ts';
import { asideFiles, codeOf, hasLog, nameFinished, setAside, WORKBOOK } from './files.ts';
import { NEWEST_VERSION } from './migrations/index.ts';
import { networkShare } from './network-share.ts';
import type { Trouble } from './trouble.ts';

export type Opened = { readonly ok: true; readonly database: Database } | { readonly ok: false; readonly trouble: Trouble };

export interface Opening {
  readonly folder: string;
  readonly clock: Clock;
  /** Fills a new workbook, inside the write that makes it. */
  readonly seed: (database: Database) => void;
}

/** A workbook up to this size is checked before the window opens; a larger one right after. */
export const CHECKED_AT_ONCE_BYTES = 32_000_000;

/** Opens the person's workbook, or says why not. Never replaces a file that is there. */
export function openWorkbook(opening: Opening): Opened {
  const { folder } = opening;
  const share = networkShare(folder);
  if (share !== null) return { ok: false, trouble: { kind: 'network share', folder, share } };
  const file = join(folder, WORKBOOK);
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    accessSync(folder, constants.W_OK);
    if (!existsSync(file)) {
      const trouble = traces(folder, file);
      if (trouble !== null) return { ok: false, trouble };
      createWorkbook(opening);
    }
    return openExisting(file, opening);
  } catch (error) {
    return { ok: false, trouble: troubleOf(error, file, opening.clock) };
  }
}

/** Where a workbook has been before, a new one is made only when the person asks for it. */
function traces(folder: string, file: string): Trouble | null {
  const [damaged] = asideFiles(file, 'damaged');
  if (damaged !== undefined) return { kind: 'damaged', movedTo: damaged };
  const known = hasLog(file) || asideFiles(file, 'before-restore').length > 0 || listBackups(folder).length > 0;
  return known ? { kind: 'missing', folder } : null;
}

/** Makes a whole new workbook under a passing name, so that a file named as ours is never half made. */
export function createWorkbook({ folder, clock, seed }: Opening): void {
  const made = join(folder, `${WORKBOOK}.${process.pid}.new`);
  for (const end of ['', '-wal', '-shm']) rmSync(made + end, { force: true });
  const database = openDatabase(made);
  try {
    database.write(() => {
      seed(database);
      database.run('INSERT INTO program (name, value) VALUES (?, ?)', ['made', clock.now()]);
    });
  } finally {
    database.close();
  }
  // Where another process was quicker, its workbook stands and this one goes.
  nameFinished(made, join(folder, WORKBOOK));
}

function openExisting(file: string, { clock }: Opening): Opened {
  accessSync(file, constants.R_OK | constants.W_OK);
  lookAtHeader(file);
  // Looked at for reading first, so that not even the log of a newer file is folded into it.
  if (hasLog(file)) openForReading(file).close();
  const database = openDatabase(file, { before: (older) => makeBackup(older, 'before-version', clock.now()) });
  try {
    if (statSync(file).size <= CHECKED_AT_ONCE_BYTES && damageIn(database, 'quick').length > 0) throw new Damaged();
    return { ok: true, database };
  } catch (error) {
    database.close();
    throw error;
  }
}

class Damaged extends Error {}

const HEADER_BYTES = 100;
const MAGIC = 'SQLite format 3\u0000';
const VERSION_AT = 60;
const APPLICATION_AT = 68;

/** Reads the first bytes without SQLite, which would start to repair what it opens. */
function lookAtHeader(file: string): void {
  const header = Buffer.alloc(HEADER_BYTES);
  const handle = openSync(file, 'r');
  try {
    if (readSync(handle, header, 0, HEADER_BYTES, 0) < HEADER_BYTES) throw new Damaged();
  } finally {
    closeSync(handle);
  }
  if (header.toString('latin1', 0, MAGIC.length) !== MAGIC) throw new Damaged();
  const version = header.readInt32BE(VERSION_AT);
  if (header.readInt32BE(APPLICATION_AT) !== APPLICATION_ID) throw new NotOurs('foreign', version);
  if (version > NEWEST_VERSION) throw new NotOurs('newer', version);
}

/** What the machine can refuse; any other error is the program's own and must not be hidden behind a screen. */
const MACHINE_SAYS_NO =
  /^(SQLITE_(READONLY|CANTOPEN|IOERR|BUSY|FULL|PERM)|EACCES|EPERM|EROFS|ENOSPC|EDQUOT|ENOTDIR|EISDIR|EEXIST|EIO)/;

function troubleOf(error: unknown, file: string, clock: Clock): Trouble {
  if (error instanceof NotOurs) {
    return error.found === 'newer' ? { kind: 'newer', file, version: error.version } : { kind: 'not ours', file };
  }
  const code = sqliteCode(error);
  if (error instanceof Damaged || code?.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB') {
    return { kind: 'damaged', movedTo: setAside(file, 'damaged', clock.now()) };
  }
  const known = code ?? codeOf(error);
  if (known === null || !MACHINE_SAYS_NO.test(known)) throw error;
  return { kind: 'not writable', folder: dirname(file), detail: known };
}
