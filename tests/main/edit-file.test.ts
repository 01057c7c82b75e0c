import { expect, test } from 'vitest';
import { readShelf } from '../../src/core/shelf/read-shelf.ts';
import type { Shelf } from '../../src/core/shelf/shelf.ts';
import type { ShelfEdit } from '../../src/core/shelf/shelf-edit.ts';
import { shelfAsFile, takeInShelf } from '../../src/main/store/shelf-file.ts';
import { newBottle, openBook } from './workbook-fixture.ts';

const AT = '2027-02-25T09:00:00.000Z';

test('what was changed on bottles goes out with the shelf file and comes back, to be taken back there too', async () => {
  const one = openBook({ empty: true });
  const [a, b] = [
    await one.must('shelf.add', newBottle({ place: 'C2' })),
    await one.must('shelf.add', newBottle({ place: 'C2' })),
  ];
  await one.must('shelf.changeMany', { bottles: { ids: [a.id, b.id] }, change: { place: 'C3' } });
  await one.must('shelf.change', { id: a.id, lot: 'L-2', tare: 50.5 });
  const { edits } = await one.must('shelf.bottle', { id: a.id });
  await one.must('shelf.undoChange', { edit: edits[0]?.id ?? 0 });
  const file = JSON.stringify(shelfAsFile(one.keeper.database()));
  const read = readShelf(file);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  expect(read.value.edits?.map(({ undoes, bottles }) => [undoes, bottles.length])).toEqual([
    [undefined, 2],
    [undefined, 1],
    [0, 2],
  ]);

  const other = openBook({ empty: true });
  const database = other.keeper.database();
  database.write(() => takeInShelf(database, read.value, 'test', AT));
  const history = async (book: typeof one, id: string) =>
    (await book.must('shelf.bottle', { id })).edits.map(({ at, before, after, undone }) => ({ at, before, after, undone }));
  expect(await history(other, a.id)).toEqual(await history(one, a.id));
  expect(await history(other, b.id)).toEqual(await history(one, b.id));
  const there = (await other.must('shelf.bottle', { id: a.id })).edits;
  await other.must('shelf.undoChange', { edit: there[1]?.id ?? 0 });
  expect((await other.must('shelf.bottle', { id: a.id })).bottle.tare).toBeNull();
  expect(await other.call('shelf.undoChange', { edit: there[0]?.id ?? 0 })).toMatchObject({ ok: false, code: 'conflict' });
});

test('changes of no bottle of the file, of other fields before than after, or taken back twice are refused, each at its place', () => {
  const line = { bottle: 'b', before: { place: 'C2' }, after: { place: 'C3' } };
  const problems = (edits: readonly ShelfEdit[]): readonly string[] => {
    const shelf: Shelf = {
      backweigh: 'shelf',
      version: 1,
      materials: { m: { name: 'benzil' } },
      bottles: [{ id: 'b', material: 'm', form: { kind: 'neat' }, left: 1, unit: 'g' }],
      edits: [...edits],
    };
    const read = readShelf(JSON.stringify(shelf));
    return read.ok ? [] : read.problems.map(({ at }) => at);
  };
  expect(
    problems([
      { at: AT, bottles: [line] },
      { at: AT, undoes: 0, bottles: [line] },
    ]),
  ).toEqual([]);
  expect(problems([{ at: AT, bottles: [{ ...line, bottle: 'c' }] }])).toEqual(['/edits/0/bottles/0/bottle']);
  expect(problems([{ at: AT, bottles: [line, line] }])).toEqual(['/edits/0/bottles/1/bottle']);
  expect(problems([{ at: AT, bottles: [{ ...line, before: { lot: '' } }] }])).toEqual(['/edits/0/bottles/0']);
  expect(problems([{ at: AT, undoes: 0, bottles: [line] }])).toEqual(['/edits/0/undoes']);
  const undo = { at: AT, undoes: 0, bottles: [line] };
  expect(problems([{ at: AT, bottles: [line] }, undo, undo])).toEqual(['/edits/2/undoes']);
});
