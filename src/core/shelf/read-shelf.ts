import type { FileProblem } from '../port/result.ts';
import { type FileReading, readFile } from '../route/read-file.ts';
import { duplicates, materialProblems } from '../route/read-route.ts';
import { pointer } from '../words/file-problems.ts';
import { ledgerProblems } from './ledger-entry.ts';
import { Shelf } from './shelf.ts';

/** Reads a shelf file: the shelf, or every problem with its JSON pointer and words. */
export function readShelf(text: string): FileReading<Shelf> {
  return readFile(text, Shelf, checkShelf);
}

function checkShelf(shelf: Shelf): readonly FileProblem[] {
  const unknownIn = (list: 'bottles' | 'packs'): readonly FileProblem[] =>
    (shelf[list] ?? []).flatMap((entry, index) =>
      Object.hasOwn(shelf.materials, entry.material)
        ? []
        : [{ at: pointer([list, index, 'material']), words: `"${entry.material}" is not among the materials of this file` }],
    );
  return [
    ...materialProblems(shelf.materials),
    ...unknownIn('bottles'),
    ...unknownIn('packs'),
    ...ledgerProblems(shelf.bottles),
    ...duplicates(shelf.bottles.map((bottle) => bottle.id)).map((index) => ({
      at: pointer(['bottles', index, 'id']),
      words: `another bottle is called "${shelf.bottles[index]?.id}" already`,
    })),
  ];
}
