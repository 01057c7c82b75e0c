import type { FileProblem } from '../port/result.ts';
import { type FileReading, readFile } from '../route/read-file.ts';
import { duplicates, materialProblems } from '../route/read-route.ts';
import { pointer } from '../words/file-problems.ts';
import { ledgerProblems } from './ledger-entry.ts';
import { orderProblems } from './order.ts';
import { editProblems } from './shelf-edit.ts';
import { withWater } from './wet-form.ts';
import { Shelf } from './shelf.ts';
import type { Supplier } from './pack.ts';
import { foldName } from '../matter/facts.ts';
import { shelfFileWords as said } from '../words/shelf-file-words.ts';

/** Reads a shelf file: the shelf, or every problem with its JSON pointer and words. */
export function readShelf(text: string): FileReading<Shelf> {
  const reading = readFile(text, Shelf, checkShelf);
  if (!reading.ok) return reading;
  const bottles = reading.value.bottles.map((bottle) => ({ ...bottle, form: withWater(bottle.form, bottle.waterPercent) }));
  return { ...reading, value: { ...reading.value, bottles } };
}

function checkShelf(shelf: Shelf): readonly FileProblem[] {
  const unknownIn = (list: 'bottles' | 'packs' | 'orders'): readonly FileProblem[] =>
    (shelf[list] ?? []).flatMap((entry, index) =>
      Object.hasOwn(shelf.materials, entry.material)
        ? []
        : [{ at: pointer([list, index, 'material']), words: `"${entry.material}" is not among the materials of this file` }],
    );
  const labels = new Set(shelf.bottles.map(({ id }) => id));
  return [
    ...materialProblems(shelf.materials),
    ...unknownIn('bottles'),
    ...unknownIn('packs'),
    ...unknownIn('orders'),
    ...ledgerProblems(shelf.bottles),
    ...supplierProblems(shelf.suppliers ?? []),
    ...orderProblems(shelf.orders ?? [], labels),
    ...editProblems(shelf.edits ?? [], labels),
    ...duplicates(shelf.bottles.map((bottle) => bottle.id)).map((index) => ({
      at: pointer(['bottles', index, 'id']),
      words: `another bottle is called "${shelf.bottles[index]?.id}" already`,
    })),
  ];
}

function supplierProblems(suppliers: readonly Supplier[]): readonly FileProblem[] {
  const names = suppliers.map(({ name }) => foldName(name));
  const twice = new Set(duplicates(names));
  return names.flatMap((name, index) =>
    name === '' || twice.has(index) ? [{ at: pointer(['suppliers', index, 'name']), words: said.supplier }] : [],
  );
}
