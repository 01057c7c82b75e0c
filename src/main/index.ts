import { unwatchFile, watchFile } from 'node:fs';
import { join } from 'node:path';
import { WORKBOOK_TOPICS } from '../core/port/port.ts';
import type { ReferenceRows } from '../core/reference.ts';
import { machineClock } from './clock.ts';
import type { Context, HostAbilities } from './procedures/context.ts';
import { programRoot, programVersion } from './program-root.ts';
import { seedWorkbook } from './seed.ts';
import { openKeeper } from './store/keeper.ts';
import { Refusal } from './store/refusal.ts';
import { readReferenceRows } from './tables.ts';
import { makeTopics, type Topics } from './topics.ts';

export interface Program {
  readonly context: Context;
  readonly topics: Topics;
  /** Begins what can wait until the window is drawn: the check of the file, the daily backup, watching for others. */
  readonly afterFirstPaint: () => void;
  readonly close: () => void;
}

const WATCH_MILLISECONDS = 1000;
const LOOK_MILLISECONDS = 300;
const HOUR = 3_600_000;

interface Start {
  readonly dataFolder: string;
  readonly host: HostAbilities;
  /** A file whose change means that the program was rebuilt; only while it is being worked on. */
  readonly rebuilt?: string | undefined;
}

/** Everything behind the window, the same for every host. */
export function startProgram({ dataFolder, host, rebuilt }: Start): Program {
  const clock = machineClock;
  const resources = join(programRoot(), 'resources');
  const topics = makeTopics();
  const keeper = openKeeper({
    folder: dataFolder,
    clock,
    seed: (database) => seedWorkbook(database, resources, clock),
    replaced: () => topics.tell('program'),
  });
  let rows: ReferenceRows | null = null;
  const context: Context = {
    keeper,
    clock,
    host,
    reference: () => (rows ??= readReferenceRows()),
    version: programVersion(),
    dataFolder,
    tell: topics.tell,
    report: (error) => console.error(error),
  };
  if (rebuilt !== undefined) watchFile(rebuilt, { interval: LOOK_MILLISECONDS }, () => topics.tell('program'));
  const timers: NodeJS.Timeout[] = [];
  return {
    context,
    topics,
    afterFirstPaint: () => {
      if (timers.length > 0) return;
      timers.push(setInterval(watchForOthers(context, topics), WATCH_MILLISECONDS));
      timers.push(setInterval(() => dailyBackup(context), HOUR));
      for (const timer of timers) timer.unref();
      if (lookForDamage(context)) topics.tell('program');
      else dailyBackup(context);
    },
    close: () => {
      if (rebuilt !== undefined) unwatchFile(rebuilt);
      for (const timer of timers) clearInterval(timer);
      keeper.close();
    },
  };
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
