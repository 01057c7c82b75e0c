import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  linkSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';

export const WORKBOOK = 'backweigh.db';
/** What SQLite keeps beside a database file. */
const COMPANIONS = ['-wal', '-shm'] as const;

/** Makes sure that a file's bytes are on the disk before anything relies on them. */
export function syncFile(file: string): void {
  const handle = openSync(file, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Makes sure that a rename inside a folder is on the disk. Windows neither needs nor allows it. */
export function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** A moment as part of a file name: "2027-02-25T09:42:07.120Z" → "20270225T094207120Z". */
export function stampOf(moment: string): string {
  return moment.replace(/[-:.]/g, '');
}

export type AsideReason = 'damaged' | 'before-restore';

/**
 * Renames a database with its companions, so that nothing of it is lost and nothing new is mixed with it.
 * Gives the new path.
 */
export function setAside(file: string, why: AsideReason, moment: string): string {
  const base = join(dirname(file), `${basename(file, '.db')}-${why}-${stampOf(moment)}`);
  let target = `${base}.db`;
  for (let number = 2; existsSync(target); number++) target = `${base}-${number}.db`;
  // Companions first: a log without its file is refused at the next start, a file without its log would be believed.
  for (const end of COMPANIONS) if (existsSync(file + end)) renameSync(file + end, target + end);
  if (existsSync(file)) renameSync(file, target);
  syncFolder(dirname(file));
  return target;
}

/** Whether a database's log lies at this path. */
export function hasLog(file: string): boolean {
  return existsSync(`${file}-wal`);
}

/** Databases that were set aside for a reason, the newest first. */
export function asideFiles(file: string, why: AsideReason): readonly string[] {
  const start = `${basename(file, '.db')}-${why}-`;
  return readdirSync(dirname(file))
    .filter((name) => name.startsWith(start) && name.endsWith('.db'))
    .sort()
    .reverse()
    .map((name) => join(dirname(file), name));
}

/** Gives a finished file its name without ever replacing one that is there; false where one was. */
export function nameFinished(made: string, file: string): boolean {
  try {
    linkSync(made, file);
    rmSync(made);
  } catch (error) {
    if (existsSync(file)) {
      rmSync(made);
      return false;
    }
    // Some file systems have no links.
    if (codeOf(error) === 'ENOENT') throw error;
    renameSync(made, file);
  }
  syncFolder(dirname(file));
  return true;
}

/** Copies a file to the disk whole: under a passing name first. */
export function copyWhole(from: string, to: string): void {
  const part = `${to}.part`;
  copyFileSync(from, part);
  syncFile(part);
  renameSync(part, to);
  syncFolder(dirname(to));
}

/** Which file lies at a path, whatever its name was before; null where none does. */
export function identityOf(file: string): string | null {
  const status = statSync(file, { throwIfNoEntry: false });
  return status ? `${status.dev}:${status.ino}` : null;
}

/** The system's code of a file error, e.g. "EACCES". */
export function codeOf(error: unknown): string | null {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : null;
}
