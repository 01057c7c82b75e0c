import { signal } from '@preact/signals';
import type { IntakeChange, IntakeRow } from '../../../../core/port/files.ts';
import { importScreenWords } from '../../../../core/words/shelf-import-screen-words.ts';
import { troubleWords } from '../../../../core/words/shell-words.ts';
import { call } from '../../../state/connection.ts';

const words = importScreenWords.intakes;

/** Files that were taken onto the shelf; null until they were asked for. */
export const intakes = signal<readonly IntakeRow[] | null>(null);
/** What the last act on one of them came to. */
export const intakeSaid = signal('');
/** The file that is being taken back or brought back. */
export const intakeBusy = signal<number | null>(null);

export async function readIntakes(): Promise<void> {
  const answer = await call('files.taken', {});
  if (answer.ok) intakes.value = answer.value;
  else intakeSaid.value = troubleWords(answer);
}

/** Takes a file back, or brings it back where it was taken back. */
export async function turnIntake(intake: number, isIn: boolean): Promise<void> {
  if (intakeBusy.peek() !== null) return;
  intakeBusy.value = intake;
  intakeSaid.value = words.working;
  const answer = await call(isIn ? 'files.takeBack' : 'files.bringBack', { intake });
  intakeBusy.value = null;
  intakeSaid.value = answer.ok ? changeWords(answer.value, isIn) : words.failed(troubleWords(answer));
  await readIntakes();
}

function changeWords({ bottles, changed, left }: IntakeChange, isIn: boolean): string {
  const done = isIn ? words.takenBack(bottles, changed) : words.broughtBack(bottles, changed);
  return left.length === 0 ? done : `${done} ${isIn ? words.stay(left) : words.notBack(left)}`;
}
