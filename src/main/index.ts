import { unwatchFile, watchFile } from 'node:fs';
import { join } from 'node:path';
import type { ReferenceRows } from '../core/reference-rows.ts';
import { machineClock } from './clock.ts';
import type { Context, HostAbilities } from './procedures/context.ts';
import { programRoot, programVersion } from './program-root.ts';
import { seedWorkbook } from './seed.ts';
import { openKeeper } from './store/keeper.ts';
import { readReferenceRows } from './tables.ts';
import { makeTopics, type Topics } from './topics.ts';
import { makeUpkeep } from './upkeep.ts';

export interface Program {
  readonly context: Context;
  readonly topics: Topics;
  /** Begins what can wait until the window is drawn: the check of the file, the daily backup, watching for others. */
  readonly afterFirstPaint: () => void;
  readonly close: () => void;
}

const LOOK_MILLISECONDS = 300;

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
  const upkeep = makeUpkeep(context, topics);
  return {
    context,
    topics,
    afterFirstPaint: upkeep.begin,
    close: () => {
      if (rebuilt !== undefined) unwatchFile(rebuilt);
      upkeep.end();
      keeper.close();
    },
  };
}
