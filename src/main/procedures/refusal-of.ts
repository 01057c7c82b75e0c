import { mainWords } from '../../core/words/main-words.ts';
import { sqliteCode } from '../store/database.ts';
import { codeOf } from '../store/files.ts';
import { Refusal } from '../store/refusal.ts';

const STORAGE: readonly (readonly [start: string, words: string])[] = [
  ['SQLITE_FULL', mainWords.storage.full],
  ['ENOSPC', mainWords.storage.full],
  ['EDQUOT', mainWords.storage.full],
  ['SQLITE_READONLY', mainWords.storage.readOnly],
  ['SQLITE_PERM', mainWords.storage.readOnly],
  ['EROFS', mainWords.storage.readOnly],
  ['EACCES', mainWords.storage.readOnly],
  ['SQLITE_BUSY', mainWords.storage.busy],
  ['SQLITE_LOCKED', mainWords.storage.busy],
  ['SQLITE_CORRUPT', mainWords.storage.damaged],
  ['SQLITE_NOTADB', mainWords.storage.damaged],
  ['SQLITE_IOERR', mainWords.storage.inputOutput],
  ['EIO', mainWords.storage.inputOutput],
];

/** The sentence for whatever was thrown. What nobody foresaw is named by its code only, never by its stack. */
export function refusalOf(error: unknown): Refusal {
  if (error instanceof Refusal) return error;
  const code = sqliteCode(error) ?? codeOf(error);
  const known = STORAGE.find(([start]) => code?.startsWith(start));
  if (known) return new Refusal('storage', known[1]);
  if (sqliteCode(error)?.startsWith('SQLITE_CONSTRAINT')) return new Refusal('refused', mainWords.constraint);
  if (sqliteCode(error)) return new Refusal('storage', mainWords.storage.other);
  return new Refusal('internal', mainWords.internal);
}
