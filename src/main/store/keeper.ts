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

export function openKeeper(opening: KeeperOpening): Keeper {
  const { folder, clock, replaced = () => {} } = opening;
  const file = join(folder, WORKBOOK);
  let opened: Opened;
  let identity: string | null;
  const reopen = (): void => {
    opened = openWorkbook(opening);
    identity = identityOf(file);
    if (opened.ok) rebuildSums(opened.database);
  };
  reopen();

  const close = (): void => {
    if (opened.ok) opened.database.close();
  };
  /** Another process may have put a backup in place, or someone may have moved the file: writing on would be lost. */
  const follow = (): void => {
    if (!opened.ok || process.platform === 'win32' || identityOf(file) === identity) return;
    if (identityOf(file) === null) rescue(opened.database, clock);
    close();
    reopen();
    replaced();
  };
  const database = (): Database => {
    follow();
    if (!opened.ok) throw new Refusal('storage', mainWords.storage.closed);
    return opened.database;
  };

  return {
    database,
    close,
    trouble: () => (opened.ok ? null : opened.trouble),
    retry: () => {
      if (!opened.ok) reopen();
    },
    backups: () => (opened.ok || opened.trouble.kind !== 'network share' ? listBackups(folder) : []),
    backUp: (reason) => makeBackup(database(), reason, clock.now()),
    restore: (name) => {
      const ready = bringBackup(folder, name);
      close();
      try {
        setAside(file, 'before-restore', clock.now());
        renameSync(ready, file);
        syncFolder(folder);
      } finally {
        // Whatever went wrong, what lies there now is opened: the old workbook, the new one, or the question for one.
        reopen();
      }
    },
    begin: () => {
      if (opened.ok || !mayBegin(opened.trouble)) throw new Refusal('refused', mainWords.mayNotBegin);
      // A log without its file would otherwise be taken for the new file's own.
      if (opened.trouble.kind === 'missing') setAside(file, 'damaged', clock.now());
      createWorkbook(opening);
      reopen();
    },
    check: (depth) => {
      const found = damageFound(database().file, depth);
      if (found.length > 0) {
        close();
        opened = { ok: false, trouble: { kind: 'damaged', movedTo: setAside(file, 'damaged', clock.now()) } };
      }
      return found;
    },
  };
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
