import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { wrongSums } from '../../src/main/store/check.ts';
import { by, charge, sheetOf, taken } from '../core/run-fixture.ts';
import { BENZIL, newBottle, openBook, temporaryFolder } from './workbook-fixture.ts';

const BENZOIN = { name: 'benzoin', formula: 'C14H12O2', cas: '119-53-9' };
const pack = { amount: 100, unit: 'g' as const, price: 24.5, supplier: 'Chemicals Ltd', leadDays: 5, minimum: 2 };
const line = { material: BENZOIN, pack, count: 3, note: 'step 1' };

async function ordered(folder = temporaryFolder()) {
  const book = openBook({ folder });
  const { ids } = await book.must('orders.place', { planId: 1, lines: [line] });
  const order = async () => (await book.must('orders.list', { all: true })).find((one) => one.id === ids[0]);
  return { ...book, folder, id: ids[0] ?? 0, order };
}

describe('the price list', () => {
  test('a pack keeps its lead time and minimum, goes into the shelf file and comes back out of it', async () => {
    const { must, told } = openBook();
    const { id } = await must('packs.add', { material: BENZOIN, pack });
    expect(await must('packs.list', { materials: [{ name: 'Benzoin' }, BENZOIN] })).toEqual([{ id, material: BENZOIN, pack }]);
    expect(told).toContain('shelf');
    const { text } = await must('shelf.export', {});
    const file = JSON.parse(text) as { bottles: unknown[]; packs: object[] };
    expect(file.packs).toContainEqual({ ...pack, material: 'benzoin' });
    await must('packs.remove', { id });
    expect(await must('packs.list', { materials: [BENZOIN] })).toEqual([]);
    await must('shelf.import', { text: JSON.stringify({ ...file, bottles: [] }) });
    expect((await must('packs.list', { materials: [BENZOIN] })).map((one) => one.pack)).toEqual([pack]);
  });

  test('what is stronger than pure, or gone, is refused', async () => {
    const { call } = openBook();
    const strong = { kind: 'solution', strength: { value: 120, basis: '% w/w' } } as const;
    expect(await call('packs.add', { material: BENZOIN, pack: { ...pack, form: strong } })).toMatchObject({ ok: false });
    expect(await call('packs.remove', { id: 99 })).toMatchObject({ ok: false, code: 'not found' });
  });
});

describe('an order', () => {
  test('is there after a restart, with the day it may come', async () => {
    const folder = temporaryFolder();
    const { keeper, id } = await ordered(folder);
    keeper.close();
    const again = openBook({ folder });
    const [row] = await again.must('orders.list', { all: false });
    expect(row).toMatchObject({ id, pack, count: 3, received: 0, cancelled: 0, note: 'step 1', material: BENZOIN, bottles: [] });
    expect(Date.parse(row?.expected ?? '') - Date.parse(row?.ordered ?? '')).toBe(5 * 86_400_000);
    expect(row?.planName).not.toBe('');
  });

  test('what comes stands on the shelf, a bottle a pack, in one write; no more than was ordered', async () => {
    const { must, call, id, order, keeper, told } = await ordered();
    const { bottles } = await must('orders.receive', {
      id,
      bottles: [{ lot: 'L-1', place: 'solids C1', useBy: '2028-01-31' }, { lot: 'L-1' }],
    });
    expect(told.slice(-2).sort()).toEqual(['orders', 'shelf']);
    const shown = await must('shelf.bottle', { id: bottles[0] ?? '' });
    expect(shown.bottle).toMatchObject({
      left: 100,
      unit: 'g',
      lot: 'L-1',
      place: 'solids C1',
      useBy: '2028-01-31',
      supplier: 'Chemicals Ltd',
      form: { kind: 'neat' },
      material: BENZOIN,
    });
    expect(shown.ledger.map((one) => [one.kind, one.change, one.reason])).toEqual([['received', 100, `received, order ${id}`]]);
    expect(await order()).toMatchObject({ received: 2, bottles });
    const more = await call('orders.receive', { id, bottles: [{}, {}] });
    expect(more).toMatchObject({ ok: false, code: 'refused', detail: 'Only 1 of this order are open, not 2.' });
    await must('orders.cancel', { id, count: 1, reason: 'out of stock' });
    expect(await must('orders.list', { all: false })).toEqual([]);
    expect(await call('orders.receive', { id, bottles: [{}] })).toMatchObject({ ok: false });
    expect(await order()).toMatchObject({ received: 2, cancelled: 1 });
    expect(wrongSums(keeper.database())).toEqual([]);
  });

  test('its rows are never changed, never deleted, never exceeded, whoever writes', async () => {
    const { keeper, id } = await ordered();
    const database = keeper.database();
    const write = (sql: string) => () => database.write(() => database.run(sql, []));
    for (const table of ['purchase', 'purchase_event', 'purchase_bottle']) {
      if (table === 'purchase') expect(write(`UPDATE ${table} SET count = 9`)).toThrow(/never changed/);
    }
    expect(write('DELETE FROM purchase')).toThrow(/never deleted/);
    const at = '2027-03-01T10:00:00.000Z';
    expect(
      write(`INSERT INTO purchase_event (purchase, kind, count, reason, at) VALUES (${id}, 'received', 4, '', '${at}')`),
    ).toThrow(/no more comes/);
  });

  test('all lines or none: one that is wrong leaves nothing ordered', async () => {
    const { call, must } = openBook();
    expect(await call('orders.place', { planId: 77, lines: [line, line] })).toMatchObject({ ok: false, code: 'not found' });
    expect(await call('orders.place', { planId: 1, lines: [line, { ...line, count: 0 }] })).toMatchObject({ ok: false });
    expect(await must('orders.list', { all: true })).toEqual([]);
  });

  test('any sequence of receiving and cancelling: open + received + cancelled = ordered, a bottle for each received', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.boolean(), fc.integer({ min: 1, max: 3 })), { maxLength: 6 }), async (steps) => {
        const { call, id, order, must, keeper } = await ordered();
        for (const [came, count] of steps) {
          if (came) await call('orders.receive', { id, bottles: Array.from({ length: count }, () => ({})) });
          else await call('orders.cancel', { id, count, reason: 'x' });
        }
        const row = await order();
        expect((row?.received ?? 0) + (row?.cancelled ?? 0)).toBeLessThanOrEqual(3);
        expect(row?.bottles).toHaveLength(row?.received ?? -1);
        const found = await must('shelf.list', { search: 'benzoin', from: 0, count: 50, sort: 'name' });
        expect(found.rows.filter((one) => one.supplier === 'Chemicals Ltd')).toHaveLength(row?.received ?? -1);
        expect(wrongSums(keeper.database())).toEqual([]);
        keeper.close();
      }),
      { numRuns: 25 },
    );
  });
});

describe('where a lot went', () => {
  const sheet = sheetOf([charge({ id: 'benzoin', isBasis: true, low: null, high: null, molesPerUnit: 1 / 212.248 })]);

  test('its uses, the run and sheet, what was made, and where that went; what was taken back is no use', async () => {
    const { must } = openBook();
    const { id: bottle } = await must('shelf.add', { ...newBottle({ material: BENZOIN, amount: 50 }), lot: 'Lot-77' });
    await must('shelf.add', { ...newBottle({ material: BENZIL, amount: 5 }), lot: 'other' });
    const { id: run } = await must('runs.start', { planId: 1, state: 1, sheet, by });
    const weighed: RunEntry = taken('benzoin', 10.163, { bottle, taken: 10.163, moles: 10.163 / 212.248 });
    await must('runs.add', { id: run, after: 1, entry: weighed });
    const product: RunEntry = {
      kind: 'product',
      by,
      crop: 1,
      grams: 8.9,
      wet: false,
      assayPercent: null,
      place: '',
      text: '',
      bottle: null,
    };
    const { bottle: made } = await must('runs.add', { id: run, after: 2, entry: product });
    await must('shelf.move', { id: made ?? '', kind: 'used', change: -2, reason: 'to a customer' });
    const { line: wrong } = await must('shelf.move', { id: bottle, kind: 'used', change: -1, reason: 'by mistake' });
    await must('shelf.undo', { id: bottle, line: wrong });

    for (const asked of ['lot-77', ' LOT-77 ', bottle]) {
      const { uses, bottles, cut } = await must('lots.trace', { lot: asked });
      expect(bottles.map((one) => [one.id, one.depth])).toEqual([
        [bottle, 0],
        [made, 1],
      ]);
      expect(uses).toHaveLength(2);
      expect(uses[0]).toMatchObject({ bottle, amount: 10.163, unit: 'g', run, sheet: sheet.sheet.id, made: [made], depth: 0 });
      expect(uses[1]).toMatchObject({ bottle: made, amount: 2, reason: 'to a customer', run: null, depth: 1 });
      expect(cut).toBe(false);
    }
    expect(await must('lots.trace', { lot: 'no such lot' })).toEqual({ bottles: [], uses: [], cut: false });
    expect(await must('lots.trace', { lot: '%' })).toEqual({ bottles: [], uses: [], cut: false });
  });

  test('what is about to expire: not empty, past or within the days, the earliest first', async () => {
    const { must } = openBook();
    const add = async (useBy: string, amount = 5) => (await must('shelf.add', { ...newBottle({ amount }), useBy })).id;
    const [late, soon, past] = [await add('2028-01-01'), await add('2027-03-20'), await add('2027-01-01')];
    const empty = await add('2027-03-01');
    await must('shelf.move', { id: empty, kind: 'used', change: -5, reason: '' });
    const within = async (days: number) =>
      (await must('lots.expiring', { days })).map((one) => one.id).filter((id) => [late, soon, past, empty].includes(id));
    expect(await within(60)).toEqual([past, soon]);
    expect(await within(0)).toEqual([past]);
    expect(await within(400)).toEqual([past, soon, late]);
  });
});
