import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from '../store/refusal.ts';
import { putSettings, readSettings } from '../store/settings.ts';
import type { Procedures } from './context.ts';

type SettingsName = Extract<keyof Procedures, `settings.${string}`>;

export const settingsProcedures: Procedures<SettingsName> = {
  'settings.read': ({ keeper }) => {
    const settings = readSettings(keeper.database());
    if (!settings) throw new Refusal('not found', mainWords.noSettings);
    return settings;
  },

  'settings.save': ({ keeper, clock }, { settings }) => {
    const database = keeper.database();
    const saved = clock.now();
    database.write(() => putSettings(database, settings, saved));
    return { saved };
  },
};
