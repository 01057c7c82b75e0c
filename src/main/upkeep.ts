// What the program looks after by itself while it runs: the file's health, a backup a day, changes made by others.
import { WORKBOOK_TOPICS } from '../core/port/port.ts';
import type { Context } from './procedures/context.ts';
import { Refusal } from './store/refusal.ts';
import { shelfColumns } from './store/shelf-index.ts';
import type { Topics } from './topics.ts';

const WATCH_MILLISECONDS = 1000;
const HOUR = 3_600_000;

export interface Upkeep {
  /** Begins once; asked again it does nothing. */
  begin(): void;
  end(): void;
}

export function makeUpkeep(context: Context, topics: Topics): Upkeep {
  const timers: NodeJS.Timeout[] = [];
  return {
    begin: () => {
      if (timers.length > 0) return;
      timers.push(setInterval(watchForOthers(context, topics), WATCH_MILLISECONDS));
      timers.push(setInterval(() => dailyBackup(context), HOUR));
      for (const timer of timers) timer.unref();
      readShelf(context);
      if (lookForDamage(context)) topics.tell('program');
      else dailyBackup(context);
    },
    end: () => {
      for (const timer of timers) clearInterval(timer);
    },
  };
}

/** So that the first search need not wait for it: half a second for a hundred thousand bottles. */
function readShelf({ keeper, report }: Context): void {
  if (keeper.trouble() !== null) return;
  try {
    shelfColumns(keeper.database());
  } catch (error) {
    report(error);
  }
}

/** True where damage was found; the keeper has then set the file aside. */
function lookForDamage({ keeper, report }: Context): boolean {
  if (keeper.trouble() !== null) return false;
  try {
    return keeper.check('quick').length > 0;
  } catch (error) {
    report(error);
    return false;
  }
}

/** A backup for every day the program runs. A failure is reported and tried again an hour later. */
function dailyBackup({ keeper, clock, report }: Context): void {
  if (keeper.trouble() !== null) return;
  const today = clock.now().slice(0, 10);
  try {
    if (keeper.backups().some((one) => one.reason === 'daily' && one.made.startsWith(today))) return;
    keeper.backUp('daily');
  } catch (error) {
    report(error);
  }
}

/** Another process on the same workbook tells nobody here; a change of SQLite's own counter does. */
function watchForOthers({ keeper, report }: Context, topics: Topics): () => void {
  let seen: number | null = null;
  return () => {
    try {
      const now = keeper.trouble() === null ? keeper.database().foreignCommits() : null;
      if (seen !== null && now !== null && now !== seen) for (const topic of WORKBOOK_TOPICS) topics.tell(topic);
      seen = now;
    } catch (error) {
      seen = null;
      // A refusal means that the workbook has just gone; the windows are told so by the keeper.
      if (!(error instanceof Refusal)) report(error);
    }
  };
}
