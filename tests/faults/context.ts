import { join } from 'node:path';
import { machineClock } from '../../src/main/clock.ts';
import type { Context } from '../../src/main/procedures/context.ts';
import { programRoot } from '../../src/main/program-root.ts';
import type { Database } from '../../src/main/store/database.ts';
import { openKeeper } from '../../src/main/store/keeper.ts';
import { readReferenceRows } from '../../src/main/tables.ts';

/** What the program's procedures need, in a process of its own on a data folder. */
export function openContext(dataFolder: string, seed: (database: Database, resources: string) => void): Context {
  const resources = join(programRoot(), 'resources');
  const keeper = openKeeper({ folder: dataFolder, clock: machineClock, seed: (database) => seed(database, resources) });
  const rows = readReferenceRows();
  return {
    keeper,
    clock: machineClock,
    host: { kind: 'browser', pdf: () => Promise.reject(new Error('none')), print: () => Promise.reject(new Error('none')) },
    reference: () => rows,
    version: '0.0.0',
    dataFolder,
    tell: () => {},
    report: (error) => console.error(error),
  };
}
