import { expect, test } from 'vitest';
import { wrongSums } from '../../src/main/store/check.ts';
import { bottleCount, openedFile } from './file-fixture.ts';
import { newBottle, openBook, type Workbook } from './workbook-fixture.ts';

async function taken(book: Workbook, text: string): Promise<number> {
  const { file, preview } = await openedFile(book, text);
  return (await book.must('files.write', { file, preview: preview.preview })).intake;
}

const labels = async ({ must }: Workbook): Promise<readonly string[]> =>
  (await must('shelf.list', { search: '', from: 0, count: 50, sort: 'name' })).rows.map(({ id }) => id).sort();

test('a file is taken back as one: its bottles are gone, what it changed is put back, its labels are free again', async () => {
  const book = openBook({ empty: true });
  const { id } = await book.must('shelf.add', newBottle({ place: 'A' }));
  const wrong = `bottle,material,left,place\n${id},benzil,8 g,B\nK1,benzil,5 g,C\n,benzil,0 g,C\n`;
  const intake = await taken(book, wrong);
  expect(await book.must('files.taken', {})).toMatchObject([{ file: 'inventory.csv', added: 2, updated: 1, isIn: true }]);
  expect((await labels(book)).length).toBe(3);
  expect(await book.must('files.takeBack', { intake })).toEqual({ bottles: 2, changed: 2, left: [] });
  expect(await labels(book)).toEqual([id]);
  const { bottle, ledger, edits } = await book.must('shelf.bottle', { id });
  expect([bottle.left, bottle.place]).toEqual([10, 'A']);
  expect(ledger.map(({ kind, change }) => [kind, change])).toEqual([
    ['received', 10],
    ['adjusted', -2],
    ['undone', 2],
  ]);
  expect(edits.length).toBe(2);
  expect(await book.call('shelf.bottle', { id: 'K1' })).toMatchObject({ ok: false, code: 'not found' });
  expect(await book.call('files.takeBack', { intake })).toMatchObject({ ok: false, code: 'conflict' });
  expect(await book.must('files.taken', {})).toMatchObject([{ isIn: false }]);
  const { base64 } = await book.must('files.shelf', { as: 'csv' });
  expect(Buffer.from(base64, 'base64').toString().split('\r\n').length).toBe(3);
  // The right file, with the same labels, comes to the shelf as if the wrong one had never been there.
  const { preview } = await openedFile(book, 'bottle,material,left\nK1,benzoin,7 g\n');
  expect(preview.counts).toMatchObject({ new: 1, update: 0, refused: 0 });
});

test('taking back is undone by bringing back, and the other way round again; labels given out meanwhile are named', async () => {
  const book = openBook({ empty: true });
  const intake = await taken(book, 'bottle,material,left\nK1,benzil,5 g\nK2,benzil,6 g\n');
  expect(await book.call('files.bringBack', { intake })).toMatchObject({ ok: false, code: 'conflict' });
  await book.must('files.takeBack', { intake });
  expect(await book.must('files.bringBack', { intake })).toEqual({ bottles: 2, changed: 0, left: [] });
  expect((await book.must('shelf.bottle', { id: 'K1' })).bottle.left).toBe(5);
  expect(await book.must('files.takeBack', { intake })).toEqual({ bottles: 2, changed: 0, left: [] });
  await taken(book, 'bottle,material,left\nK1,benzoin,7 g\n');
  expect(await book.must('files.bringBack', { intake })).toEqual({ bottles: 1, changed: 0, left: ['K1'] });
  expect((await book.must('shelf.bottle', { id: 'K1' })).bottle).toMatchObject({ left: 7, material: { name: 'benzoin' } });
  expect((await book.must('shelf.bottle', { id: 'K2' })).bottle.left).toBe(6);
  expect(wrongSums(book.keeper.database())).toEqual([]);
});

test('what was used, moved, tested or measured since stays as it is and is named', async () => {
  const book = openBook({ empty: true });
  const { id } = await book.must('shelf.add', newBottle());
  const rows = ['used', 'moved', 'tested', 'still', 'undone'].map((label) => `${label},benzil,5 g`);
  const intake = await taken(book, ['bottle,material,left', `${id},benzil,9 g`, ...rows].join('\n'));
  await book.must('shelf.move', { id: 'used', kind: 'used', change: -1, reason: '' });
  await book.must('shelf.change', { id: 'moved', place: 'elsewhere' });
  await book.must('shelf.test', { id: 'tested', done: 'tested', on: '2027-02-01', remark: '' });
  const { line } = await book.must('shelf.move', { id: 'undone', kind: 'used', change: -1, reason: '' });
  await book.must('shelf.undo', { id: 'undone', line });
  await book.must('shelf.move', { id, kind: 'adjusted', change: -4, reason: 'weighed' });
  const back = await book.must('files.takeBack', { intake });
  expect(back).toMatchObject({ bottles: 1, changed: 0 });
  expect([...back.left].sort()).toEqual([id, 'moved', 'tested', 'undone', 'used'].sort());
  expect((await labels(book)).includes('still')).toBe(false);
  expect((await book.must('shelf.bottle', { id })).bottle.left).toBe(5);
  const before = bottleCount(book);
  const other = await taken(book, 'bottle,material,left\nonly,benzil,1 g\n');
  await book.must('shelf.move', { id: 'only', kind: 'used', change: -1, reason: '' });
  expect(await book.call('files.takeBack', { intake: other })).toMatchObject({ ok: false, code: 'conflict' });
  expect(bottleCount(book)).toBe((before ?? 0) + 1);
});

test('a shelf file with its ledgers is taken back and brought back as well, line by line', async () => {
  const one = openBook({ empty: true });
  const { id } = await one.must('shelf.add', newBottle());
  const { line } = await one.must('shelf.move', { id, kind: 'used', change: -9, reason: '' });
  await one.must('shelf.move', { id, kind: 'received', change: 4, reason: '' });
  await one.must('shelf.undo', { id, line });
  await one.must('shelf.move', { id, kind: 'adjusted', change: -2, reason: 'weighed' });
  await one.must('shelf.move', { id, kind: 'used', change: -11, reason: '' });
  const { text } = await one.must('shelf.export', {});
  const other = openBook({ empty: true });
  const { intake } = await other.must('shelf.import', { file: 'all.json', text });
  expect(await other.must('files.taken', {})).toMatchObject([{ file: 'all.json', added: 1 }]);
  await other.must('files.takeBack', { intake });
  expect(await labels(other)).toEqual([]);
  expect(wrongSums(other.keeper.database())).toEqual([]);
  await other.must('files.bringBack', { intake });
  expect((await other.must('shelf.bottle', { id })).bottle.left).toBe(1);
});

test('what was used once stays, however often the rest is taken back and brought back; a label that was given out comes later', async () => {
  const book = openBook({ empty: true });
  const intake = await taken(book, 'bottle,material,left\nK1,benzil,5 g\nK2,benzil,6 g\nK3,benzil,7 g\n');
  await book.must('shelf.move', { id: 'K1', kind: 'used', change: -1, reason: '' });
  for (const _round of [1, 2]) {
    expect(await book.must('files.takeBack', { intake })).toEqual({ bottles: 2, changed: 0, left: ['K1'] });
    expect((await book.must('shelf.bottle', { id: 'K1' })).bottle.left).toBe(4);
    expect(await book.must('files.bringBack', { intake })).toEqual({ bottles: 2, changed: 0, left: [] });
  }
  await book.must('files.takeBack', { intake });
  const other = await taken(book, 'bottle,material,left\nK2,benzoin,1 g\n');
  expect(await book.must('files.bringBack', { intake })).toEqual({ bottles: 1, changed: 0, left: ['K2'] });
  await book.must('files.takeBack', { intake });
  await book.must('files.takeBack', { intake: other });
  expect(await book.must('files.bringBack', { intake })).toEqual({ bottles: 2, changed: 0, left: [] });
  expect((await book.must('shelf.bottle', { id: 'K2' })).bottle).toMatchObject({ left: 6, material: { name: 'benzil' } });
});
