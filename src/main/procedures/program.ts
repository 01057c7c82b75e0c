import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from '../store/refusal.ts';
import { hasLooked, putLooked } from '../store/settings.ts';
import { startTrouble } from '../trouble-words.ts';
import type { Procedures } from './context.ts';

type ProgramName = Extract<keyof Procedures, `program.${string}`>;

export const programProcedures: Procedures<ProgramName> = {
  'program.about': ({ version, host, clock, dataFolder, keeper }) => ({
    version,
    host: host.kind,
    today: clock.today(),
    dataFolder,
    looked: hasLooked(keeper.database()),
  }),

  'program.looked': ({ keeper, clock }) => {
    const database = keeper.database();
    database.write(() => putLooked(database, clock.now()));
    return { looked: true };
  },

  'program.trouble': ({ keeper }) => {
    // Asked by the start-up screen alone: what stood in the way may be gone.
    keeper.retry();
    const trouble = keeper.trouble();
    return trouble === null ? null : startTrouble(trouble, keeper.backups());
  },

  'program.backups': ({ keeper }) => keeper.backups(),

  'program.backUp': ({ keeper }) => {
    try {
      return keeper.backUp('by-hand');
    } catch (error) {
      if (error instanceof Refusal) throw error;
      throw new Refusal('storage', mainWords.backupFailed(error instanceof Error ? error.message : String(error)));
    }
  },

  'program.restore': ({ keeper }, { name }) => {
    keeper.restore(name);
    return { restored: name };
  },

  'program.begin': ({ keeper }) => {
    keeper.begin();
    return { begun: true };
  },

  'program.check': ({ keeper, tell }) => {
    const found = keeper.check('full');
    if (found.length > 0) tell('program');
    return { sound: found.length === 0, found };
  },
};
