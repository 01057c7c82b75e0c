import { runHistory } from '../../core/run/history.ts';
import { addEntry, brokenRuns, readStored, startRun, storedRuns } from '../store/runs.ts';
import type { Procedures } from './context.ts';

type RunName = Extract<keyof Procedures, `runs.${string}`>;

export const runProcedures: Procedures<RunName> = {
  'runs.start': ({ keeper, clock }, { planId, state, sheet, by }) => {
    const database = keeper.database();
    return { id: database.write(() => startRun(database, { plan: planId, state, sheet, by, at: clock.now() })) };
  },

  'runs.add': ({ keeper, clock }, { id, after, entry, adjust = false }) => {
    const database = keeper.database();
    return database.write(() => addEntry(database, { id, after, entry, adjust, at: clock.now() }));
  },

  'runs.read': ({ keeper }, { id }) => readStored(keeper.database(), id).record,

  'runs.list': ({ keeper }, { routeId, planId }) => {
    const all = runHistory(storedRuns(keeper.database()));
    const asked = all.filter(
      (row) => (routeId === undefined || row.route === routeId) && (planId === undefined || row.plan === planId),
    );
    return asked.toReversed();
  },

  'runs.check': ({ keeper }) => brokenRuns(keeper.database()),

  'runs.export': ({ keeper }, { id }) => {
    const { record, link, entries } = readStored(keeper.database(), id);
    const file = {
      backweigh: 'run record',
      version: 1,
      run: id,
      broken: record.broken,
      start: record.start,
      link,
      entries: entries.map((one) => ({ ...one.recorded, link: one.link })),
    };
    return { text: `${JSON.stringify(file, null, 2)}\n` };
  },
};
