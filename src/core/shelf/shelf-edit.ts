import * as z from 'zod/mini';
import type { FileProblem } from '../port/result.ts';
import { pointer } from '../words/file-problems.ts';
import { shelfFileWords as words } from '../words/shelf-file-words.ts';
import { Written } from './written.ts';

/** A change of what is written on bottles as a shelf file holds it, the same for one bottle or many. */
export const ShelfEdit = z.strictObject({
  /** Moment in UTC. */
  at: z.iso.datetime({ precision: 3 }),
  /** Which entry of this list it takes back, counted from 0. */
  undoes: z.optional(z.int().check(z.gte(0))),
  bottles: z
    .array(
      z.strictObject({
        /** Label of a bottle of this file. */
        bottle: z.string().check(z.minLength(1), z.maxLength(80)),
        /** The changed fields alone, as they were and as they were written. */
        before: Written,
        after: Written,
      }),
    )
    .check(z.minLength(1), z.maxLength(200_000)),
});
export type ShelfEdit = z.infer<typeof ShelfEdit>;

/** What is wrong with the changes of a file: each is of bottles of it, says the same fields before and after, and is taken back once at most. */
export function editProblems(edits: readonly ShelfEdit[], labels: ReadonlySet<string>): readonly FileProblem[] {
  const undone = new Set<number>();
  return edits.flatMap(({ undoes, bottles }, edit): readonly FileProblem[] => {
    const undo = undoes === undefined || (undoes < edit && !undone.has(undoes));
    if (undoes !== undefined) undone.add(undoes);
    const seen = new Set<string>();
    const lines = bottles.flatMap(({ bottle, before, after }, at): readonly FileProblem[] => {
      const known = labels.has(bottle) && !seen.has(bottle);
      seen.add(bottle);
      const place = ['edits', edit, 'bottles', at] as const;
      if (!known) return [{ at: pointer([...place, 'bottle']), words: words.editBottle }];
      return fieldsOf(before) === fieldsOf(after) && fieldsOf(after) !== ''
        ? []
        : [{ at: pointer(place), words: words.editFields }];
    });
    return undo ? lines : [{ at: pointer(['edits', edit, 'undoes']), words: words.editUndoes }, ...lines];
  });
}

const fieldsOf = (written: Written): string => Object.keys(written).toSorted().join();
