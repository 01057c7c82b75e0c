import type { FileReading } from '../../core/route/read-file.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from '../store/refusal.ts';
import { plainProblem } from './plain-data.ts';

/** What a file holds, or the refusal that lists everything that is wrong with it. */
export function fileContent<T>(reading: FileReading<T>): T {
  if (!reading.ok) throw new Refusal('refused', mainWords.fileProblems(reading.problems.length), reading.problems);
  const problem = plainProblem(reading.value);
  if (problem !== null) throw new Refusal('refused', problem);
  return reading.value;
}
