import type { BackupEntry } from '../../core/port/program.ts';

/** How many are kept. A backup before a new version or by hand is the person's way back, so several stay. */
const KEEP = { days: 7, weeks: 5, months: 12, beforeVersion: 3, byHand: 20 } as const;

/**
 * The backups that may go: of the daily ones the newest of each of the last 7 days, 5 weeks and 12 months that have
 * any stay; of the others the newest few. Pure, and the newest of all always stays.
 */
export function backupsToDrop(backups: readonly BackupEntry[]): readonly BackupEntry[] {
  const newestFirst = [...backups].sort((a, b) => (a.made < b.made ? 1 : a.made > b.made ? -1 : 0));
  const daily = newestFirst.filter((one) => one.reason === 'daily');
  const keep = new Set<BackupEntry>([
    ...newestOfEach(daily, (one) => one.made.slice(0, 10)).slice(0, KEEP.days),
    ...newestOfEach(daily, (one) => weekOf(one.made)).slice(0, KEEP.weeks),
    ...newestOfEach(daily, (one) => one.made.slice(0, 7)).slice(0, KEEP.months),
    ...newestFirst.filter((one) => one.reason === 'before a new version').slice(0, KEEP.beforeVersion),
    ...newestFirst.filter((one) => one.reason === 'by hand').slice(0, KEEP.byHand),
    ...newestFirst.slice(0, 1),
  ]);
  return newestFirst.filter((one) => !keep.has(one));
}

function newestOfEach(newestFirst: readonly BackupEntry[], period: (one: BackupEntry) => string): readonly BackupEntry[] {
  const seen = new Set<string>();
  return newestFirst.filter((one) => !seen.has(period(one)) && seen.add(period(one)));
}

const DAY = 86_400_000;

/** The Monday of the moment's week, UTC. */
function weekOf(moment: string): string {
  const time = Date.parse(moment);
  const sinceMonday = (new Date(time).getUTCDay() + 6) % 7;
  return new Date(time - sinceMonday * DAY).toISOString().slice(0, 10);
}
