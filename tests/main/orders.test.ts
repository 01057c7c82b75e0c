import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import type { Shelf } from '../../src/core/shelf/shelf.ts';
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
    // Twice the same file: nothing is on the list twice.
    for (let time = 0; time < 2; time += 1) await must('shelf.import', { text: JSON.stringify({ ...file, bottles: [] }) });
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
      price: 24.5,
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

  test('what came, and what would not come, is taken back: the bottles are gone, their packs open again', async () => {
    const { must, id, order, keeper, told } = await ordered();
    const { bottles } = await must('orders.receive', { id, bottles: [{ lot: 'L-1' }, {}] });
    await must('orders.cancel', { id, count: 1, reason: 'out of stock' });
    const [came, gone] = (await order())?.events ?? [];
    expect(came).toMatchObject({ kind: 'received', count: 2, bottles, used: [] });
    expect(await must('orders.undo', { event: gone?.id ?? 0 })).toEqual({ bottles: [] });
    expect(await order()).toMatchObject({ received: 2, cancelled: 0 });
    expect(await must('orders.undo', { event: came?.id ?? 0 })).toEqual({ bottles });
    expect(told.slice(-2).sort()).toEqual(['orders', 'shelf']);
    expect(await order()).toMatchObject({ received: 0, cancelled: 0, bottles: [], events: [] });
    const found = await must('shelf.list', { search: 'L-1', from: 0, count: 50, sort: 'name' });
    expect(found.rows.filter((one) => one.supplier === 'Chemicals Ltd')).toEqual([]);
    expect(wrongSums(keeper.database())).toEqual([]);
    // The same packs may come after all.
    expect((await must('orders.receive', { id, bottles: [{}, {}, {}] })).bottles).toHaveLength(3);
  });

  test('bottles are taken back only while nothing was done with them, and it is said which', async () => {
    const { must, call, id, order, keeper } = await ordered();
    const { bottles } = await must('orders.receive', { id, bottles: [{}, {}, {}] });
    await must('shelf.test', { id: bottles[2] ?? '', done: 'tested', on: '2027-02-25', remark: 'melts sharply' });
    await must('shelf.move', { id: bottles[1] ?? '', kind: 'used', change: -1, reason: 'a try' });
    const event = (await order())?.events[0];
    expect(event?.used).toEqual([bottles[1], bottles[2]]);
    expect(await call('orders.undo', { event: event?.id ?? 0 })).toMatchObject({
      ok: false,
      code: 'refused',
      detail: `${bottles[1]}, ${bottles[2]} were used, tested or written on since: put right there what is wrong.`,
    });
    expect(await order()).toMatchObject({ received: 3, bottles });
    expect((await must('shelf.bottle', { id: bottles[0] ?? '' })).bottle.left).toBe(100);
    expect(await call('orders.undo', { event: 999 })).toMatchObject({ ok: false, code: 'not found' });
    expect(wrongSums(keeper.database())).toEqual([]);
  });

  test('all lines or none: one that is wrong leaves nothing ordered', async () => {
    const { call, must } = openBook();
    expect(await call('orders.place', { planId: 77, lines: [line, line] })).toMatchObject({ ok: false, code: 'not found' });
    expect(await call('orders.place', { planId: 1, lines: [line, { ...line, count: 0 }] })).toMatchObject({ ok: false });
    expect(await must('orders.list', { all: true })).toEqual([]);
  });

  test('any sequence of receiving, cancelling and taking back: open + received + cancelled = ordered, a bottle for each received', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(fc.constantFrom('came', 'not', 'undo'), fc.integer({ min: 1, max: 3 })), { maxLength: 7 }),
        async (steps) => {
          const { call, id, order, must, keeper } = await ordered();
          for (const [came, count] of steps) {
            if (came === 'undo') await call('orders.undo', { event: (await order())?.events.at(-count)?.id ?? 999 });
            else if (came === 'came') await call('orders.receive', { id, bottles: Array.from({ length: count }, () => ({})) });
            else await call('orders.cancel', { id, count, reason: 'x' });
          }
          const row = await order();
          expect((row?.received ?? 0) + (row?.cancelled ?? 0)).toBeLessThanOrEqual(3);
          expect(row?.bottles).toHaveLength(row?.received ?? -1);
          const found = await must('shelf.list', { search: 'benzoin', from: 0, count: 50, sort: 'name' });
          expect(found.rows.filter((one) => one.supplier === 'Chemicals Ltd')).toHaveLength(row?.received ?? -1);
          expect(wrongSums(keeper.database())).toEqual([]);
          keeper.close();
        },
      ),
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

  test('what was split off, and what came in the place of a bottle entered wrong, is found with its uses; so is what was brought back', async () => {
    const { must } = openBook({ empty: true });
    const { id: bottle } = await must('shelf.add', { ...newBottle({ amount: 50 }), lot: 'Lot-78' });
    const { line } = await must('shelf.move', { id: bottle, kind: 'used', change: -1, reason: 'a try' });
    const { line: counter } = await must('shelf.undo', { id: bottle, line });
    await must('shelf.undo', { id: bottle, line: counter });
    const { id: part } = await must('shelf.split', { id: bottle, amount: 10 });
    await must('shelf.move', { id: part, kind: 'used', change: -2, reason: 'for the neighbours' });
    const { id: right } = await must('shelf.correct', { id: bottle, bottle: { ...newBottle({ amount: 39 }), lot: 'Lot-79' } });
    for (const asked of [bottle, 'lot-79', 'lot-78']) {
      const { bottles, uses } = await must('lots.trace', { lot: asked });
      expect(bottles.map((one) => [one.id, one.depth]).sort()).toEqual(
        [
          [bottle, 0],
          [part, 0],
          [right, 0],
        ].sort(),
      );
      expect(uses.map((one) => [one.bottle, one.amount, one.made]).sort()).toEqual(
        [
          [bottle, 1, []],
          [bottle, 10, [part]],
          [part, 2, []],
        ].sort(),
      );
    }
    const { ledger } = await must('shelf.bottle', { id: bottle });
    const split = ledger.find((one) => one.reason.startsWith('split'));
    await must('shelf.undo', { id: bottle, line: ledger.at(-1)?.id ?? 0 });
    await must('shelf.undo', { id: part, line: (await must('shelf.bottle', { id: part })).ledger.at(-1)?.id ?? 0 });
    await must('shelf.undo', { id: bottle, line: split?.id ?? 0 });
    expect((await must('lots.trace', { lot: bottle })).uses.map((one) => one.amount)).toEqual([1]);
  });

  test('what was made from it, and made from that, and what was carried on in no bottle, is found', async () => {
    const { must } = openBook();
    const { id: bottle } = await must('shelf.add', { ...newBottle({ material: BENZOIN, amount: 500 }), lot: 'Löt–80 A' });
    const { id: other } = await must('shelf.add', newBottle({ material: BENZIL, amount: 9 }));
    const make = async (from: string, amount: number) =>
      (
        await must('shelf.add', {
          ...newBottle({ material: BENZOIN, amount: 40 }),
          took: [
            { id: from, amount },
            { id: other, amount: 1 },
          ],
        })
      ).id;
    const solution = await make(bottle, 17);
    const thinner = await make(solution, 5);
    const { id: part } = await must('shelf.split', { id: thinner, amount: 3 });
    expect((await must('shelf.bottle', { id: solution })).ledger.map((one) => one.half)).toEqual([
      undefined,
      { act: 'made', other: thinner },
    ]);

    // Run 1 takes the lot, and its product goes into run 2 without a bottle; that fills one.
    const { id: first } = await must('runs.start', { planId: 1, state: 1, sheet, by });
    await must('runs.add', { id: first, after: 1, entry: taken('benzoin', 10, { bottle: thinner, taken: 10, moles: 0.05 }) });
    const next = { ...sheet, step: 'next', charges: sheet.charges.map((one) => ({ ...one, material: sheet.product.material })) };
    const { id: second } = await must('runs.start', { planId: 1, state: 1, sheet: next, by });
    await must('runs.add', { id: second, after: 1, entry: taken('benzoin', 8, { bottle: null, taken: null, moles: null }) });
    const product: RunEntry = {
      kind: 'product',
      by,
      crop: 1,
      grams: 6,
      wet: false,
      assayPercent: null,
      place: '',
      text: '',
      bottle: null,
    };
    const { bottle: made } = await must('runs.add', { id: second, after: 2, entry: product });

    for (const asked of ['Löt–80 A', 'LÖT-80  a', 'lo\u0308t-80 A', bottle.toLowerCase()]) {
      const { bottles, uses } = await must('lots.trace', { lot: asked });
      expect(bottles.map((one) => [one.id, one.depth])).toEqual([
        [bottle, 0],
        [solution, 1],
        [thinner, 2],
        [part, 2],
        [made, 3],
      ]);
      expect(uses.map((one) => [one.bottle, one.amount, one.made, one.carriedFrom])).toEqual([
        [bottle, 17, [solution], null],
        [solution, 5, [thinner], null],
        [thinner, 3, [part], null],
        [thinner, 10, [], null],
        ['', 8, [made], first],
      ]);
    }
    expect((await must('lots.trace', { lot: 'Löt' })).bottles).toEqual([]);
    // Written otherwise since: what was recalled is still found, and what stands there now.
    await must('shelf.change', { id: bottle, lot: 'LOT-80' });
    for (const asked of ['löt-80 a', 'lot-80']) expect((await must('lots.trace', { lot: asked })).bottles).toHaveLength(5);
  });

  test('a shelf file carries the ties along: the lot is found in what was made from it, and halves are undone together', async () => {
    const { must } = openBook({ empty: true });
    const { id: bottle } = await must('shelf.add', { ...newBottle({ amount: 50 }), lot: 'Lot-81' });
    const { id: solution } = await must('shelf.add', { ...newBottle({ amount: 40 }), took: [{ id: bottle, amount: 17 }] });
    const { id: part } = await must('shelf.split', { id: bottle, amount: 3 });
    const { id: right } = await must('shelf.correct', { id: solution, bottle: newBottle({ amount: 41 }) });
    const { text } = await must('shelf.export', {});
    const next = openBook({ empty: true });
    await next.must('shelf.import', { text });
    expect((await next.must('shelf.export', {})).text).toBe(text);
    const { bottles } = await next.must('lots.trace', { lot: 'lot-81' });
    expect(bottles.map((one) => one.id).sort()).toEqual([bottle, solution, part, right].sort());
    const { ledger } = await next.must('shelf.bottle', { id: bottle });
    await next.must('shelf.undo', { id: bottle, line: ledger.find((one) => one.reason.startsWith('split'))?.id ?? 0 });
    expect((await next.must('shelf.bottle', { id: part })).bottle.left).toBe(0);

    // Taken back with its file, the other half is no half any more: what was split off comes back alone.
    const third = openBook({ empty: true });
    const { intake } = await third.must('shelf.import', { text });
    await third.must('shelf.move', { id: bottle, kind: 'used', change: -1, reason: 'a try' });
    await third.must('files.takeBack', { intake });
    const kept = await third.must('shelf.bottle', { id: bottle });
    const line = kept.ledger.find((one) => one.reason.startsWith('split'))?.id ?? 0;
    await third.must('shelf.undo', { id: bottle, line });
    expect((await third.must('shelf.bottle', { id: bottle })).bottle.left).toBe(50 - 17 - 1);
    expect(third.keeper.database().all('SELECT code FROM bottle WHERE taken_back = 1 AND amount_left > 0')).toEqual([]);

    const file = JSON.parse(text) as Shelf;
    const tied = file.bottles[0]?.ledger?.find((one) => one.into?.act === 'split');
    if (tied) tied.into = { act: 'split', bottle: 'B-99' };
    const refused = await openBook({ empty: true }).call('shelf.import', { text: JSON.stringify(file) });
    expect(refused).toMatchObject({ ok: false, problems: [{ at: '/bottles/0/ledger/2/into' }] });
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
