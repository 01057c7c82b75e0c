import { cautionWords } from '../../core/words/caution-words.ts';
import { headCautions, readOf } from '../../core/run/state.ts';
import { act, run, runState } from './run-store.ts';
import { write } from './weigh-store.ts';
import { who } from './who.ts';

/** Writes into the record that a caution was read, with the initials of who is weighing. */
export function acknowledgeHere(operation: string | null, words: string): Promise<boolean> {
  return write({ kind: 'acknowledged', by: who.value, operation, words }, false, cautionWords.written);
}

/** The first caution before what is to be done now that who is weighing has not read; null where there is none. */
export function unread(): { readonly operation: string | null; readonly words: string } | null {
  const [now, record, state] = [act.value, run.value, runState.value];
  if (!now || !record || !state) return null;
  const head = now.kind === 'read';
  if (!head && !('entry' in now)) return null;
  const operation = 'entry' in now ? now.entry.id : null;
  const warnings = 'entry' in now ? now.entry.before : headCautions(record.start.sheet.sheet);
  const mine = (words: string): boolean => readOf(state, operation, words).some(({ entry }) => entry.by === who.value);
  const first = warnings.find((one) => one.kind !== 'note' && !mine(one.words));
  return first ? { operation, words: first.words } : null;
}
