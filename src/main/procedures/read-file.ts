import { indexReference, type Reference } from '../../core/reference.ts';
import { type ReferenceRows } from '../../core/reference-rows.ts';
import type { FileProblem } from '../../core/port/result.ts';
import type { Material } from '../../core/matter/material.ts';
import type { FileReading } from '../../core/route/read-file.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from '../store/refusal.ts';
import { materialDoubts } from '../material-doubts.ts';
import { plainProblem } from './plain-data.ts';

/** What a file holds, or the refusal that lists everything that is wrong with it; `further` is what its kind has to check. */
export async function fileContent<T extends { readonly materials: Readonly<Record<string, Material>> }>(
  reading: FileReading<T>,
  tables: () => ReferenceRows,
  further: (value: T, reference: Reference) => readonly FileProblem[] = () => [],
): Promise<T> {
  const checked = reading.ok ? await withDoubts(reading.value, indexed(tables()), further) : reading;
  if (!checked.ok) throw new Refusal('refused', mainWords.fileProblems(checked.problems.length), checked.problems);
  const problem = plainProblem(checked.value);
  if (problem !== null) throw new Refusal('refused', problem);
  return checked.value;
}

/** Holds the materials against their structures and the table. */
async function withDoubts<T extends { readonly materials: Readonly<Record<string, Material>> }>(
  value: T,
  reference: Reference,
  further: (value: T, reference: Reference) => readonly FileProblem[],
): Promise<FileReading<T>> {
  const problems = [...(await materialDoubts(value.materials, reference)), ...further(value, reference)];
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value };
}

let last: { readonly rows: ReferenceRows; readonly reference: Reference } | null = null;

/** The look-ups of the tables, built once for as long as the tables stay the same. */
export function indexed(rows: ReferenceRows): Reference {
  if (last?.rows !== rows) last = { rows, reference: indexReference(rows) };
  return last.reference;
}
