import { renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { BackupEntry } from '../../core/port/program.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Clock } from '../clock.ts';
import { backupFolder, damageInBackup, listBackups, makeBackup } from './backup.ts';
import { damageIn, rebuildSums } from './check.ts';
import { type Database, openForReading, sqliteCode } from './database.ts';
import { copyWhole, identityOf, setAside, syncFolder, WORKBOOK } from './files.ts';
import { createWorkbook, type Opened, type Opening, openWorkbook } from './open.ts';
import { Refusal } from './refusal.ts';
import type { Trouble } from './trouble.ts';

export interface KeeperOpening extends Opening {
  /** Told when the workbook was replaced from outside. */
  readonly replaced?: () => void;
}

/** Holds the open workbook, or the reason why none is open, for as long as the program runs. */
export interface Keeper {
  /** Throws a refusal while no workbook is open. */
  database(): Database;
  trouble(): Trouble | null;
  /** Tries again to open what could not be opened. */
  retry(): void;
  backups(): readonly BackupEntry[];
  backUp(reason: 'daily' | 'by-hand'): BackupEntry;
  /** Puts a checked backup in place; what was there is set aside. */
  restore(name: string): void;
  /** Starts an empty workbook where the present one is damaged or missing. */
  begin(): void;
  /** Looks for damage; what is found ends in trouble, with the file set aside. */
  check(depth: 'quick' | 'full'): readonly string[];
  close(): void;
}

/** What a keeper holds now. */
interface Held {
  readonly opening: KeeperOpening;
  readonly file: string;
  opened: Opened;
  /** Which file was opened, whatever lies under its name later. */
  identity: string | null;
}

export function openKeeper(opening: KeeperOpening): Keeper {
  const { folder, clock } = opening;
  const held: Held = { opening, file: join(folder, WORKBOOK), ...openNow(opening) };
  const database = (): Database => {
    follow(held);
    if (!held.opened.ok) throw new Refusal('storage', mainWords.storage.closed);
    return held.opened.database;
  };
  return {
    database,
    close: () => close(held),
    trouble: () => (held.opened.ok ? null : held.opened.trouble),
    retry: () => {
      if (!held.opened.ok) reopen(held);
    },
    backups: () => (held.opened.ok || held.opened.trouble.kind !== 'network share' ? listBackups(folder) : []),
    backUp: (reason) => makeBackup(database(), reason, clock.now()),
    restore: (name) => restore(held, name),
    begin: () => begin(held),
    check: (depth) => {
      const found = damageFound(database().file, depth);
      if (found.length > 0) {
        close(held);
        held.opened = { ok: false, trouble: { kind: 'damaged', movedTo: setAside(held.file, 'damaged', clock.now()) } };
      }
      return found;
    },
  };
}

function openNow(opening: KeeperOpening): Pick<Held, 'opened' | 'identity'> {
  const opened = openWorkbook(opening);
  if (opened.ok) rebuildSums(opened.database);
  return { opened, identity: identityOf(join(opening.folder, WORKBOOK)) };
}

function reopen(held: Held): void {
  Object.assign(held, openNow(held.opening));
}

function close({ opened }: Held): void {
  if (opened.ok) opened.database.close();
}

/** Another process may have put a backup in place, or someone may have moved the file: writing on would be lost. */
function follow(held: Held): void {
  const { opened, file, identity, opening } = held;
  if (!opened.ok || process.platform === 'win32' || identityOf(file) === identity) return;
  if (identityOf(file) === null) rescue(opened.database, opening.clock);
  close(held);
  reopen(held);
  opening.replaced?.();
}

function restore(held: Held, name: string): void {
  const { folder, clock } = held.opening;
  const ready = bringBackup(folder, name);
  close(held);
  try {
    setAside(held.file, 'before-restore', clock.now());
    renameSync(ready, held.file);
    syncFolder(folder);
  } finally {
    // Whatever went wrong, what lies there now is opened: the old workbook, the new one, or the question for one.
    reopen(held);
  }
}

function begin(held: Held): void {
  const { opened, opening, file } = held;
  if (opened.ok || !mayBegin(opened.trouble)) throw new Refusal('refused', mainWords.mayNotBegin);
  // A log without its file would otherwise be taken for the new file's own.
  if (opened.trouble.kind === 'missing') setAside(file, 'damaged', opening.clock.now());
  createWorkbook(opening);
  reopen(held);
}

/** What is still held open of a file that is gone becomes a backup, so that nothing of it is lost. */
function rescue(database: Database, clock: Clock): void {
  try {
    makeBackup(database, 'by-hand', clock.now());
  } catch {
    // The folder may be gone as well; the screen then says that the workbook is missing.
  }
}

export function mayBegin(trouble: Trouble): boolean {
  return trouble.kind === 'damaged' || trouble.kind === 'missing';
}

/**
 * Looks through a connection of its own: the search index remembers parts of itself in each connection, and in one
 * that has not read it since another process wrote, SQLite's check was seen to call a sound index damaged.
 */
function damageFound(file: string, depth: 'quick' | 'full'): readonly string[] {
  try {
    const fresh = openForReading(file);
    try {
      return damageIn(fresh, depth);
    } finally {
      fresh.close();
    }
  } catch (error) {
    const code = sqliteCode(error);
    if (code?.startsWith('SQLITE_CORRUPT') || code === 'SQLITE_NOTADB') return [code];
    throw error;
  }
}

/** Copies a backup beside the workbook and checks the copy throughout; gives its path. */
function bringBackup(folder: string, name: string): string {
  // The name must be one of the list: it is never used as a path before that.
  if (!listBackups(folder).some((one) => one.name === name)) throw new Refusal('not found', mainWords.noBackup(name));
  const ready = join(folder, `${WORKBOOK}.restoring`);
  for (const end of ['', '-wal', '-shm']) rmSync(ready + end, { force: true });
  copyWhole(join(backupFolder(folder), name), ready);
  if (soundBackup(ready)) return ready;
  rmSync(ready, { force: true });
  throw new Refusal('refused', mainWords.backupNotSound(name));
}

function soundBackup(file: string): boolean {
  try {
    openForReading(file).close();
    return damageInBackup(file).length === 0;
  } catch {
    return false;
  }
}
