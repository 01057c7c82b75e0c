import { describe, expect, test } from 'vitest';
import { wrongSums } from '../../src/main/store/check.ts';
import { newBottle, openBook, type Workbook } from './workbook-fixture.ts';
import { by, charge, sheetOf, taken } from '../core/run-fixture.ts';

const read = async ({ must }: Workbook, id: string) => must('shelf.bottle', { id });
const left = async (book: Workbook, ...ids: string[]) => Promise.all(ids.map(async (id) => (await read(book, id)).bottle.left));

describe('a bottle that is split', () => {
  test('is two of the same contents, and what is left in both is what was in one', async () => {
    const book = openBook({ empty: true });
    const { must } = book;
    const { id } = await must('shelf.add', newBottle({ lot: 'L1', useBy: '2028-01-01', tare: 80, price: 12, note: 'chipped' }));
    await must('shelf.test', { id, done: 'tested', on: '2027-02-20', remark: 'mp' });
    const { id: other, left: rest } = await must('shelf.split', { id, amount: 2.5, place: 'freezer' });
    expect([rest, ...(await left(book, id, other))]).toEqual([7.5, 7.5, 2.5]);
    const { bottle, ledger, tests } = await read(book, other);
    // Another vessel: its own tare, price and note.
    expect(bottle).toMatchObject({ lot: 'L1', useBy: '2028-01-01', place: 'freezer', tare: null, price: null, note: '' });
    expect(tests.map((one) => one.remark)).toEqual(['mp']);
    expect(ledger).toMatchObject([{ kind: 'received', change: 2.5, half: { act: 'split', other: id } }]);
    expect((await read(book, id)).ledger.at(-1)).toMatchObject({ kind: 'used', change: -2.5, half: { act: 'split', other } });
  });

  test('is taken back in both bottles or in neither, from either side, and brought back so', async () => {
    const book = openBook({ empty: true });
    const { call, must } = book;
    const { id } = await must('shelf.add', newBottle());
    const { id: other } = await must('shelf.split', { id, amount: 4 });
    const came = (await read(book, other)).ledger[0]?.id ?? 0;
    const undone = await must('shelf.undo', { id: other, line: came });
    expect(await left(book, id, other)).toEqual([10, 0]);
    // Undoing the counter-entry, from the other side, brings both back.
    const counter = (await read(book, id)).ledger.at(-1)?.id ?? 0;
    expect(counter).not.toBe(undone.line);
    await must('shelf.undo', { id, line: counter });
    expect(await left(book, id, other)).toEqual([6, 4]);
    await must('shelf.move', { id: other, kind: 'used', change: -1, reason: '' });
    const taken = (await read(book, id)).ledger.find((line) => line.kind === 'undone' && !line.undone)?.id ?? 0;
    const refused = await call('shelf.undo', { id, line: taken });
    expect(refused).toMatchObject({
      ok: false,
      code: 'refused',
      detail: expect.stringContaining(`Its other half is in ${other}`),
    });
    expect(await left(book, id, other)).toEqual([6, 3]);
  });

  test('holds what is taken from it: more is refused, and no bottle is left behind', async () => {
    const book = openBook({ empty: true });
    const { call, must, keeper } = book;
    const { id } = await must('shelf.add', newBottle());
    expect(await call('shelf.split', { id, amount: 10.000001 })).toMatchObject({ ok: false, code: 'refused' });
    expect(await call('shelf.split', { id, amount: 1e-7 })).toMatchObject({ ok: false, code: 'invalid input' });
    expect(keeper.database().get('SELECT count(*) AS count FROM bottle')).toEqual({ count: 1 });
  });
});

describe('a bottle that is weighed', () => {
  test('holds gross less tare, with both in the reason', async () => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ amount: 25 }));
    expect(await call('shelf.weigh', { id, gross: 120.4, reason: '' })).toMatchObject({
      ok: false,
      detail: expect.stringContaining('enter its tare first'),
    });
    await must('shelf.change', { id, tare: 100.3 });
    const { left: now, line } = await must('shelf.weigh', { id, gross: 120.4, reason: 'before the session' });
    expect(now).toBe(20.1);
    const { ledger } = await must('shelf.bottle', { id });
    expect(ledger.at(-1)).toMatchObject({
      id: line,
      kind: 'adjusted',
      change: -4.9,
      reason: 'weighed: 120.4 g with the bottle, 100.3 g of it the bottle; before the session',
    });
    expect(await call('shelf.weigh', { id, gross: 120.4, reason: '' })).toMatchObject({ ok: false, code: 'refused' });
    expect(await call('shelf.weigh', { id, gross: 100.2, reason: '' })).toMatchObject({ ok: false, code: 'refused' });
    expect((await must('shelf.weigh', { id, gross: 100.3, reason: '' })).left).toBe(0);
    expect((await must('shelf.undo', { id, line: line + 1 })).left).toBe(20.1);
  });

  test('by its density where it is kept by volume; where none is known that is said, and nothing is supposed', async () => {
    const { call, must } = openBook({ empty: true });
    const add = (density?: number) =>
      must('shelf.add', {
        ...newBottle({ amount: 500, unit: 'mL', tare: 200 }),
        material: { name: 'something of our own' },
        form: { kind: 'neat', ...(density ? { density: { gramsPerMillilitre: density, celsius: 20 } } : {}) },
      });
    const known = await add(0.8);
    expect((await must('shelf.weigh', { id: known.id, gross: 400, reason: '' })).left).toBe(250);
    const unknown = await add();
    expect(await call('shelf.weigh', { id: unknown.id, gross: 400, reason: '' })).toMatchObject({
      ok: false,
      detail: expect.stringContaining('no density is known'),
    });
  });
});

describe('a bottle that was entered wrong', () => {
  const right = { ...newBottle({ amount: 7, lot: 'N-9', place: 'drawer' }), material: { name: 'benzoin' } };

  test('is emptied, and the right one comes in its place with its dates, held back as it was', async () => {
    const book = openBook({ empty: true });
    const { must, told } = book;
    const { id } = await must('shelf.add', newBottle({ opened: '2027-01-05' }));
    await must('shelf.change', { id, heldBack: true, received: '2026-12-24' });
    const { id: other } = await must('shelf.correct', { id, bottle: { ...right, opened: '2027-01-05' } });
    expect(await left(book, id, other)).toEqual([0, 7]);
    const { bottle, ledger } = await read(book, other);
    expect(bottle).toMatchObject({ lot: 'N-9', received: '2026-12-24', opened: '2027-01-05', heldBack: true });
    expect(ledger).toMatchObject([
      { kind: 'received', reason: expect.stringContaining(id), half: { act: 'correction', other: id } },
    ]);
    expect((await read(book, id)).ledger.at(-1)).toMatchObject({ kind: 'adjusted', half: { act: 'correction', other } });
    expect(told.filter((topic) => topic === 'shelf')).toHaveLength(3);
  });

  test('undo takes both halves or neither', async () => {
    const book = openBook({ empty: true });
    const { call, must, keeper } = book;
    const { id } = await must('shelf.add', newBottle());
    const { id: other } = await must('shelf.correct', { id, bottle: right });
    const emptied = (await read(book, id)).ledger.at(-1)?.id ?? 0;
    const use = await must('shelf.move', { id: other, kind: 'used', change: -1, reason: '' });
    expect(await call('shelf.undo', { id, line: emptied })).toMatchObject({ ok: false, code: 'refused' });
    expect(await left(book, id, other)).toEqual([0, 6]);
    await must('shelf.undo', { id: other, line: use.line });
    await must('shelf.undo', { id, line: emptied });
    expect(await left(book, id, other)).toEqual([10, 0]);
    expect(wrongSums(keeper.database())).toEqual([]);
  });

  test('an empty one is refused', async () => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle());
    await must('shelf.move', { id, kind: 'discarded', change: -10, reason: 'old' });
    expect(await call('shelf.correct', { id, bottle: right })).toMatchObject({
      ok: false,
      code: 'refused',
      detail: `${id} is empty: there is nothing in it to put right. Add the right bottle as a new one.`,
    });
  });

  test('one that a run has drawn from, or filled, is refused with what to do instead', async () => {
    const { call, must } = openBook();
    const { id } = await must('shelf.add', newBottle());
    const sheet = sheetOf([charge({ id: 'benzoin', isBasis: true })]);
    const { state } = await must('plans.read', { id: 1 });
    const { id: run } = await must('runs.start', { planId: 1, state, sheet, by });
    await must('runs.add', { id: run, after: 1, entry: taken('benzoin', 2, { bottle: id, taken: 2 }) });
    const drawn = await call('shelf.correct', { id, bottle: right });
    expect(drawn).toMatchObject({ ok: false, code: 'refused', detail: expect.stringContaining(`Run ${run} took from ${id}`) });
    expect(JSON.stringify(drawn)).toContain('Adjust');
    const product = {
      kind: 'product',
      by,
      crop: 1,
      grams: 1,
      wet: false,
      assayPercent: null,
      place: '',
      text: '',
      bottle: null,
    } as const;
    const { bottle } = await must('runs.add', { id: run, after: 2, entry: product });
    expect(await call('shelf.correct', { id: bottle ?? '', bottle: right })).toMatchObject({ ok: false, code: 'refused' });
  });

  test('a strength above the pure material is refused, and the wrong bottle stays as it is', async () => {
    const book = openBook({ empty: true });
    const { id } = await book.must('shelf.add', newBottle());
    const form = { kind: 'solution', strength: { value: 130, basis: '% w/w' } } as const;
    expect(await book.call('shelf.correct', { id, bottle: { ...right, form } })).toMatchObject({ ok: false });
    expect(await left(book, id)).toEqual([10]);
  });
});

describe('what is written on bottles', () => {
  test('is changed on many in one entry, undone in one, and kept with what was there before', async () => {
    const book = openBook({ empty: true });
    const { must } = book;
    const ids = await Promise.all(['a', 'b', 'c'].map(async (place) => (await must('shelf.add', newBottle({ place }))).id));
    const { edit, bottles } = await must('shelf.changeMany', { bottles: { ids }, change: { place: 'c', opened: '2027-02-01' } });
    expect(bottles).toBe(3);
    const second = await read(book, ids[1] ?? '');
    expect(second.bottle).toMatchObject({ place: 'c', opened: '2027-02-01' });
    expect(second.edits).toMatchObject([
      { id: edit, bottles: 3, before: { place: 'b', opened: null }, after: { place: 'c', opened: '2027-02-01' }, undone: false },
    ]);
    // Only what differed is kept.
    expect((await read(book, ids[2] ?? '')).edits[0]?.after).toEqual({ opened: '2027-02-01' });
    await must('shelf.change', { id: ids[0] ?? '', place: 'elsewhere' });
    const back = await must('shelf.undoChange', { edit: edit ?? 0 });
    expect(back).toMatchObject({ bottles: 2, left: [ids[0]] });
    const places = await Promise.all(ids.map(async (id) => (await read(book, id)).bottle.place));
    expect(places).toEqual(['elsewhere', 'b', 'c']);
    await must('shelf.undoChange', { edit: back.edit });
    expect((await read(book, ids[1] ?? '')).bottle.place).toBe('c');
    expect(await book.call('shelf.undoChange', { edit: back.edit })).toMatchObject({ ok: false, code: 'conflict' });
  });

  test('is changed on all that a search finds, unless they are others by now', async () => {
    const { call, must } = openBook({ empty: true });
    for (const lot of ['L1', 'L2', 'M1']) await must('shelf.add', newBottle({ lot }));
    const by = { search: 'benzil', filter: { state: 'good' as const } };
    expect(await call('shelf.changeMany', { bottles: { ...by, total: 2 }, change: { place: 'x' } })).toMatchObject({
      ok: false,
      code: 'conflict',
    });
    expect(await must('shelf.changeMany', { bottles: { ...by, total: 3 }, change: { place: 'x' } })).toMatchObject({
      bottles: 3,
    });
    expect(await must('shelf.places', {})).toEqual([{ place: 'x', bottles: 3 }]);
  });

  test('never makes a bottle usable that is out of date: that takes a test or a purification', async () => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ useBy: '2027-01-01' }));
    for (const useBy of [null, '2028-01-01', '2027-02-25']) {
      const refused = await call('shelf.change', { id, useBy });
      expect(refused).toMatchObject({ ok: false, code: 'refused', detail: expect.stringContaining('record a test') });
      expect(await call('shelf.changeMany', { bottles: { ids: [id] }, change: { useBy } })).toMatchObject({ ok: false });
    }
    await must('shelf.change', { id, useBy: '2026-12-01' });
    await must('shelf.test', { id, done: 'purified', on: '2027-02-20', useBy: '2028-01-01', remark: '' });
    await must('shelf.change', { id, useBy: '2027-12-01' });
    expect((await must('shelf.bottle', { id })).bottle.useBy).toBe('2027-12-01');
  });

  test('nor does putting its entry right, but on the day it was entered, when a mistyped date shows', async () => {
    let day = '2027-01-04';
    const clock = { now: () => `${day}T09:00:00.000Z`, today: () => day };
    const { call, must } = openBook({ empty: true, clock });
    const typed = await must('shelf.add', newBottle({ useBy: '2026-06-01' }));
    const { id } = await must('shelf.correct', { id: typed.id, bottle: newBottle({ useBy: '2027-06-01' }) });
    day = '2027-06-02';
    for (const useBy of ['2028-06-01', undefined])
      expect(await call('shelf.correct', { id, bottle: newBottle(useBy ? { useBy } : {}) })).toMatchObject({
        ok: false,
        code: 'refused',
        detail: expect.stringContaining('record a test'),
      });
    const { id: right } = await must('shelf.correct', { id, bottle: newBottle({ useBy: '2027-06-01', lot: 'L-2' }) });
    expect((await must('shelf.bottle', { id: right })).bottle).toMatchObject({ lot: 'L-2', useBy: '2027-06-01' });
  });

  test('a bottle that is not there changes nothing on the others', async () => {
    const { call, must } = openBook({ empty: true });
    const { id } = await must('shelf.add', newBottle({ place: 'a' }));
    expect(await call('shelf.changeMany', { bottles: { ids: [id, 'B-99'] }, change: { place: 'x' } })).toMatchObject({
      ok: false,
      code: 'not found',
    });
    expect((await must('shelf.bottle', { id })).bottle.place).toBe('a');
  });

  test.each(['bottle_edit', 'bottle_edit_line', 'correction', 'split'])(
    '%s is never changed and never deleted',
    async (table) => {
      const { must, keeper } = openBook({ empty: true });
      const { id } = await must('shelf.add', newBottle());
      await must('shelf.change', { id, place: 'x' });
      const { id: other } = await must('shelf.split', { id, amount: 1 });
      await must('shelf.correct', { id: other, bottle: newBottle() });
      const database = keeper.database();
      expect(database.all(`SELECT * FROM ${table}`).length).toBe(1);
      expect(() => database.write(() => database.run(`DELETE FROM ${table}`))).toThrow(/rows are never deleted/);
      const column = table === 'bottle_edit' ? 'at' : table === 'bottle_edit_line' ? 'before' : 'came';
      expect(() => database.write(() => database.run(`UPDATE ${table} SET ${column} = ${column}`))).toThrow(/never changed/);
    },
  );
});
