import { LARGEST_TABLE_FILE } from '../../core/port/files.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { fileDesk } from '../files/file-desk.ts';
import { fileWords, refuse } from '../files/limits.ts';
import { bringBackIntake, readIntakes, takeBackIntake } from '../store/intakes.ts';
import { Refusal } from '../store/refusal.ts';
import type { Procedures } from './context.ts';

type FileName = Extract<keyof Procedures, `files.${string}`>;

export const fileProcedures: Procedures<FileName> = {
  'files.open': async ({ keeper, report }, { name, base64 }) => ({
    file: await fileDesk(keeper).open(name, bytesOf(base64), report),
  }),

  'files.preview': ({ keeper }, { file, choices }) => fileDesk(keeper).preview(file, choices),

  'files.rows': ({ keeper }, { file, fate, from, count, reason }) =>
    fileDesk(keeper).page(file, fate, { from, count, reason: reason ?? null }),

  'files.refused': async ({ keeper }, { file }) => ({ text: await fileDesk(keeper).refused(file) }),

  'files.progress': ({ keeper }, { file }) => fileDesk(keeper).progress(file),

  'files.cancel': ({ keeper }, { file }) => ({ cancelled: fileDesk(keeper).cancel(file) }),

  'files.write': ({ keeper }, { file, preview }) => fileDesk(keeper).write(file, preview),

  'files.close': ({ keeper }, { file }) => {
    fileDesk(keeper).close(file);
    return { closed: true };
  },

  'files.taken': ({ keeper }) => readIntakes(keeper.database()),

  'files.takeBack': ({ keeper, clock }, { intake }) => {
    const database = keeper.database();
    return database.write(() => takeBackIntake(database, intake, clock.now()));
  },

  'files.bringBack': ({ keeper, clock }, { intake }) => {
    const database = keeper.database();
    return database.write(() => bringBackIntake(database, intake, clock.now()));
  },

  'files.shelf': async ({ keeper, report }, { as }) => ({
    base64: Buffer.from(await fileDesk(keeper).table(as, report)).toString('base64'),
  }),
};

/** The bytes of a file as they came over the port. */
function bytesOf(base64: string): Uint8Array {
  if (!/^[A-Za-z0-9+/]*={0,2}$/.test(base64)) throw new Refusal('invalid input', mainWords.badFile);
  const bytes = Buffer.from(base64, 'base64');
  return bytes.length > LARGEST_TABLE_FILE ? refuse(fileWords.tooLarge(LARGEST_TABLE_FILE)) : bytes;
}
