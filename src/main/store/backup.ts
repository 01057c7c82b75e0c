import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import type { BackupEntry } from '../../core/port/program.ts';
import { damageIn } from './check.ts';
import { type Database, openForReading } from './database.ts';
import { stampOf, syncFile, syncFolder } from './files.ts';
import { backupsToDrop } from './rotation.ts';

const REASONS = { daily: 'daily', 'before-version': 'before a new version', 'by-hand': 'by hand' } as const;
const NAME = /^backweigh-(\d{4})(\d{2})(\d{2})T(\d{2})(\d{2})(\d{2})(\d{3})Z-(daily|before-version|by-hand)\.db$/;
type Slug = keyof typeof REASONS;

export function backupFolder(dataFolder: string): string {
  return join(dataFolder, 'backups');
}

/** Backups in a data folder, newest first. Files with other names are none of ours. */
export function listBackups(dataFolder: string): readonly BackupEntry[] {
  const folder = backupFolder(dataFolder);
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .flatMap((name) => {
      const entry = entryOf(folder, name);
      return entry ? [entry] : [];
    })
    .sort((a, b) => (a.made < b.made ? 1 : a.made > b.made ? -1 : 0));
}

function entryOf(folder: string, name: string): BackupEntry | null {
  const [, year, month, day, hour, minute, second, milli, slug] = NAME.exec(name) ?? [];
  if (!slug) return null;
  return {
    name,
    made: `${year}-${month}-${day}T${hour}:${minute}:${second}.${milli}Z`,
    reason: REASONS[slug as Slug],
    bytes: statSync(join(folder, name)).size,
  };
}

/**
 * Makes a backup: a compact copy under a passing name, opened again and checked throughout, on the disk before it
 * gets its real name. Throws where any of this fails, and leaves no half backup.
 */
export function makeBackup(database: Database, slug: Slug, moment: string): BackupEntry {
  const folder = backupFolder(dirname(database.file));
  mkdirSync(folder, { recursive: true });
  const name = `backweigh-${stampOf(moment)}-${slug}.db`;
  const part = join(folder, `${name}.${process.pid}.part`);
  rmSync(part, { force: true });
  try {
    const before = rowCounts(database);
    database.copyInto(part);
    verify(part, before, rowCounts(database), Number(database.pragma('user_version')));
    syncFile(part);
    renameSync(part, join(folder, name));
    syncFolder(folder);
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  }
  for (const old of backupsToDrop(listBackups(dirname(database.file)))) rmSync(join(folder, old.name), { force: true });
  return { name, made: moment, reason: REASONS[slug], bytes: statSync(join(folder, name)).size };
}

/** What is wrong with a backup; empty when it is sound. */
export function damageInBackup(file: string): readonly string[] {
  const copy = openForReading(file);
  try {
    return damageIn(copy, 'full');
  } finally {
    copy.close();
  }
}

/** Rows are never deleted, so a copy made while another process writes lies between the counts before and after. */
function verify(file: string, before: Counts, after: Counts, version: number): void {
  const copy = openForReading(file);
  try {
    const [damage] = damageIn(copy, 'full');
    if (damage) throw new Error(`backup needs to be sound (got ${damage})`);
    const copied = rowCounts(copy);
    for (const [table, most] of after) {
      const got = copied.get(table) ?? -1;
      const least = before.get(table) ?? 0;
      if (got < least || got > most) throw new Error(`backup needs ${least} to ${most} rows in ${table} (got ${got})`);
    }
    const got = Number(copy.pragma('user_version'));
    if (got !== version) throw new Error(`backup needs version ${version} (got ${got})`);
  } finally {
    copy.close();
  }
}

type Counts = ReadonlyMap<string, number>;

function rowCounts(database: Database): Counts {
  const tables = database.all<{ name: string }>(
    `SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'bottle_search%'`,
  );
  return new Map(
    tables.map(({ name }) => [name, database.get<{ count: number }>(`SELECT count(*) AS count FROM "${name}"`)?.count ?? 0]),
  );
}
