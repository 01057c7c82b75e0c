import { strengthDoubt } from '../matter/strength-doubt.ts';
import type { FileProblem } from '../port/result.ts';
import type { Reference } from '../reference.ts';
import { pointer } from '../words/file-problems.ts';
import { materialWords } from '../words/material-words.ts';
import type { Shelf } from './shelf.ts';

/** Bottles and packs of a shelf file that are stated stronger than their pure material, each at its place. */
export function shelfDoubts(shelf: Shelf, reference: Reference): readonly FileProblem[] {
  return (['bottles', 'packs'] as const).flatMap((list) =>
    (shelf[list] ?? []).flatMap(({ material, form }, index): readonly FileProblem[] => {
      const holds = shelf.materials[material];
      const doubt = holds && form ? strengthDoubt(holds, form, reference) : null;
      const at = pointer([list, index, 'form', 'strength', 'value']);
      return doubt ? [{ at, words: materialWords.strengthDoubt(doubt) }] : [];
    }),
  );
}
