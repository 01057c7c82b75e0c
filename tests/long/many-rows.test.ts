import Papa from 'papaparse';
import { beforeAll, describe, expect, test } from 'vitest';
import { xlsxBytes } from '../../src/main/files/write-xlsx.ts';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { readReferenceRows } from '../../src/main/tables.ts';
import { bottleCount, openedFile } from '../main/file-fixture.ts';
import { MANY_HEADINGS, manyRows } from '../main/many-bottles.ts';
import { newBottle, openBook, type Workbook } from '../main/workbook-fixture.ts';

const COUNT = 20_000;
const many = (): string => Papa.unparse([MANY_HEADINGS, ...manyRows(COUNT, readReferenceRows())]);

test(`${COUNT} rows: every one shown with its fate, written at once, while the program goes on answering`, async () => {
  const book = openBook({ empty: true });
  const { file, preview } = await openedFile(book, many());
  expect(preview.counts).toEqual({ new: COUNT, update: 0, duplicate: 0, refused: 0 });
  const before = await book.must('files.rows', { file, fate: 'new', from: COUNT - 5, count: 10 });
  expect([before.total, before.rows.map((row) => row.label)]).toEqual([
    COUNT,
    [5, 4, 3, 2, 1].map((back) => `I-${COUNT + 1 - back}`),
  ]);
  const writing = book.must('files.write', { file, preview: preview.preview });
  let seen = 0;
  let answers = 0;
  const end = writing.then(() => true);
  const running = Promise.resolve(false);
  while (!(await Promise.race([end, running]))) {
    const progress = await book.call('files.progress', { file });
    if (progress.ok && progress.value.stage === 'writing') seen = Math.max(seen, progress.value.done);
    const list = await book.must('shelf.list', { search: '', from: 0, count: 5, sort: 'name' });
    // Nothing of it is on the shelf before all of it is.
    expect([0, COUNT]).toContain(list.total);
    answers += 1;
    await new Promise((next) => setTimeout(next, 5));
  }
  expect(await writing).toEqual({ added: COUNT, updated: 0, leftOut: 0, intake: expect.any(Number) });
  expect(seen).toBeGreaterThan(0);
  expect(answers).toBeGreaterThan(10);
  expect(bottleCount(book)).toBe(COUNT);
  expect([damageIn(book.keeper.database(), 'full'), wrongSums(book.keeper.database())]).toEqual([[], []]);
  expect((await book.must('shelf.list', { search: 'I-19999', from: 0, count: 5, sort: 'name' })).total).toBe(1);
  expect(book.told).toContain('shelf');
  const again = await openedFile(book, many());
  expect(again.preview.counts).toEqual({ new: 0, update: 0, duplicate: COUNT, refused: 0 });
});

test('stopped in the middle of writing: nothing of it is there, and the file can be looked at again', async () => {
  const book = openBook({ empty: true });
  const { file, preview } = await openedFile(book, many());
  const writing = book.call('files.write', { file, preview: preview.preview });
  for (;;) {
    const progress = await book.must('files.progress', { file });
    if (progress.stage === 'writing' && progress.done > 0) break;
    await new Promise((next) => setTimeout(next, 2));
  }
  expect(await book.must('files.cancel', { file })).toEqual({ cancelled: true });
  expect(await writing).toMatchObject({ ok: false, code: 'refused', detail: 'Stopped. Nothing was written.' });
  expect(bottleCount(book)).toBe(0);
  const next = await book.must('files.preview', { file, choices: {} });
  expect(next).toMatchObject({ at: 'table', counts: { new: COUNT } });
});

test('what else is to be written meanwhile waits its turn and is not refused', async () => {
  const book = openBook({ empty: true });
  const { file, preview } = await openedFile(book, many());
  const writing = book.must('files.write', { file, preview: preview.preview });
  await new Promise((next) => setTimeout(next, 50));
  const began = performance.now();
  const adding = book.must('shelf.add', newBottle());
  const returned = performance.now();
  await Promise.all([writing, adding]);
  // The call itself returns at once: nobody waits for a lock, till all is written, with the program stopped.
  expect(returned - began).toBeLessThan((performance.now() - began) / 4);
  expect(bottleCount(book)).toBe(COUNT + 1);
});

test(`a shelf file of ${COUNT} bottles comes in beside everything else; a broken one is refused with its places`, async () => {
  const book = openBook({ empty: true });
  const { file, preview } = await openedFile(book, many());
  await book.must('files.write', { file, preview: preview.preview });
  const text = Buffer.from((await book.must('files.shelf', { as: 'json' })).base64, 'base64').toString('utf8');
  const other = openBook({ empty: true });
  const broken = await other.call('shelf.import', { text: text.replace('"left":', '"right":') });
  expect(broken).toMatchObject({ ok: false, code: 'refused' });
  expect(!broken.ok && broken.problems?.length).toBeGreaterThan(0);
  const end = other.must('shelf.import', { text }).then(() => true);
  let answers = 0;
  const running = Promise.resolve(false);
  while (!(await Promise.race([end, running]))) {
    expect([0, COUNT]).toContain((await other.must('shelf.list', { search: '', from: 0, count: 5, sort: 'name' })).total);
    answers += 1;
    await new Promise((next) => setTimeout(next, 5));
  }
  expect(answers).toBeGreaterThan(10);
  expect(Buffer.from((await other.must('files.shelf', { as: 'json' })).base64, 'base64').toString('utf8')).toBe(text);
});

describe(`a workbook of ${COUNT} rows`, () => {
  let base64 = '';
  beforeAll(() => {
    const rows = manyRows(COUNT, readReferenceRows());
    base64 = Buffer.from(xlsxBytes([{ name: 'stock', headings: MANY_HEADINGS, rows }])).toString('base64');
  });
  const open = (book: Workbook) => book.must('files.open', { name: 'inventory.xlsx', base64 });

  /** Waits for a stage of what is done with a file, and that some of it is done. */
  async function until({ must }: Workbook, file: number, stage: string): Promise<void> {
    for (;;) {
      const progress = await must('files.progress', { file });
      if (progress.stage === stage) return;
      await new Promise((next) => setTimeout(next, 2));
    }
  }

  test('is read, shown with every fate and written, while the program goes on answering', async () => {
    const book = openBook({ empty: true });
    const { file } = await open(book);
    const began = performance.now();
    const reading = book.must('files.preview', { file, choices: {} });
    const end = reading.then(() => true);
    const running = Promise.resolve(false);
    const seen = new Set<string>();
    let longest = 0;
    for (let answered = performance.now(); !(await Promise.race([end, running])); ) {
      const { stage, of } = await book.must('files.progress', { file });
      seen.add(of > 0 ? `${stage}, so much of all` : stage);
      await book.must('shelf.list', { search: '', from: 0, count: 5, sort: 'name' });
      await new Promise((next) => setTimeout(next, 5));
      longest = Math.max(longest, performance.now() - answered);
      answered = performance.now();
    }
    const preview = await reading;
    console.log(
      `${COUNT} rows of a workbook: read and judged in ${Math.round(performance.now() - began)} ms, an answer at most ${Math.round(longest)} ms late`,
    );
    if (preview.at !== 'table') throw new Error('no table');
    expect(preview.counts).toEqual({ new: COUNT, update: 0, duplicate: 0, refused: 0 });
    expect([...seen]).toEqual(expect.arrayContaining(['reading', 'judging, so much of all']));
    expect(await book.must('files.write', { file, preview: preview.preview })).toMatchObject({ added: COUNT });
    expect(bottleCount(book)).toBe(COUNT);
  });

  test('stopped while it is read or judged: at once, and nothing of it is left', async () => {
    for (const stage of ['reading', 'judging']) {
      const book = openBook({ empty: true });
      const { file } = await open(book);
      const reading = book.call('files.preview', { file, choices: {} });
      await until(book, file, stage);
      const asked = performance.now();
      expect(await book.must('files.cancel', { file })).toEqual({ cancelled: true });
      expect(await reading).toMatchObject({ ok: false, code: 'refused', detail: 'Stopped. Nothing was written.' });
      console.log(`stopped while ${stage}, ${Math.round(performance.now() - asked)} ms later`);
      expect(bottleCount(book)).toBe(0);
      expect(book.reported).toEqual([]);
    }
  });
});
