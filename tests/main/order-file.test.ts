import { expect, test } from 'vitest';
import type { Shelf } from '../../src/core/shelf/shelf.ts';
import { openWorkbook } from '../../src/main/files/read-xlsx.ts';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { newBottle, openBook } from './workbook-fixture.ts';

const BENZOIN = { name: 'benzoin', formula: 'C14H12O2', cas: '119-53-9' };
const pack = { amount: 100, unit: 'g' as const, price: 24.5, supplier: 'Chemicals Ltd', leadDays: 5, minimum: 2 };

/** A workbook in which one order came in part, was taken back in part and will not come in part, and another is open. */
async function withOrders() {
  const book = openBook();
  const { must } = book;
  const lines = [
    { material: BENZOIN, pack, count: 4, note: 'step 1' },
    { material: { name: 'nowhere else' }, pack: { amount: 1, unit: 'mL' as const }, count: 1, note: '' },
  ];
  const { ids } = await must('orders.place', { planId: 1, lines });
  const id = ids[0] ?? 0;
  await must('orders.receive', { id, bottles: [{ lot: 'L-1' }, { lot: 'L-1' }] });
  await must('orders.receive', { id, bottles: [{ lot: 'L-2' }] });
  const wrong = (await must('orders.list', { all: true })).find((one) => one.id === id)?.events.at(-1)?.id ?? 0;
  await must('orders.undo', { event: wrong });
  await must('orders.cancel', { id, count: 1, reason: 'out of stock' });
  await must('suppliers.set', { name: 'Chemicals Ltd', leastOrder: 50 });
  return book;
}

const fileOf = async ({ must }: Pick<Awaited<ReturnType<typeof withOrders>>, 'must'>): Promise<string> =>
  Buffer.from((await must('files.shelf', { as: 'json' })).base64, 'base64').toString('utf8');

test('orders go into the shelf file with what came of them, and come out of it as they were: nobody is locked in', async () => {
  const one = await withOrders();
  const text = await fileOf(one);
  const next = openBook({ empty: true });
  await next.must('shelf.import', { text });
  expect(next.told).toContain('orders');
  expect(await fileOf(next)).toBe(text);
  const plain = async ({ must }: typeof one) =>
    (await must('orders.list', { all: true })).map(({ plan: _own, events, ...rest }) => ({
      ...rest,
      events: events.map(({ id: _id, ...event }) => event),
    }));
  expect(await plain(next)).toEqual(await plain(one));
  expect(await next.must('suppliers.list', {})).toEqual([{ name: 'Chemicals Ltd', leastOrder: 50 }]);
  // It goes on there: the pack that is still open comes, and no more than that.
  const open = (await next.must('orders.list', { all: false })).find((order) => order.material.name === 'benzoin');
  expect(open).toMatchObject({ count: 4, received: 2, cancelled: 1, planName: 'Spring practicals' });
  await next.must('orders.receive', { id: open?.id ?? 0, bottles: [{}] });
  expect(await next.call('orders.receive', { id: open?.id ?? 0, bottles: [{}] })).toMatchObject({ ok: false });
});

test('the same orders twice are there once; what is known of a supplier here stays', async () => {
  const { must } = await withOrders();
  const file = JSON.parse(await fileOf({ must } as never)) as Shelf;
  const bare = (file.orders ?? []).map(({ events: _none, ...order }) => order);
  await must('suppliers.set', { name: 'chemicals  LTD', leastOrder: 75 });
  await must('shelf.import', { text: JSON.stringify({ ...file, bottles: [], orders: bare }) });
  expect((await must('orders.list', { all: true })).length).toBe(2);
  expect(await must('suppliers.list', {})).toEqual([{ name: 'chemicals  LTD', leastOrder: 75 }]);
  await must('suppliers.set', { name: 'Chemicals Ltd', leastOrder: null });
  expect(await must('suppliers.list', {})).toEqual([]);
});

test.each<[string, (file: Shelf) => unknown, string]>([
  [
    'more comes than was ordered',
    (file) => ({ ...file, orders: file.orders?.map((one) => ({ ...one, count: 1 })) }),
    '/orders/0/events/0/count',
  ],
  ['its bottles are not in the file', (file) => ({ ...file, bottles: [] }), '/orders/0/events/0/bottles'],
  [
    'a bottle came of two',
    (file) => ({ ...file, orders: [...(file.orders ?? []), ...(file.orders ?? []).slice(0, 1)] }),
    '/orders/2/events/0/bottles',
  ],
  [
    'its material is missing',
    (file) => ({ ...file, orders: file.orders?.map((one) => ({ ...one, material: 'x' })) }),
    '/orders/0/material',
  ],
  [
    'a supplier twice',
    (file) => ({ ...file, suppliers: ['A', 'a '].map((name) => ({ name, leastOrder: 1 })) }),
    '/suppliers/1/name',
  ],
])('orders of a file that cannot be are refused at their place, and nothing is written: %s', async (_what, change, at) => {
  const one = await withOrders();
  const file = JSON.parse(await fileOf(one)) as Shelf;
  const { call, must } = openBook({ empty: true });
  const refused = await call('shelf.import', { text: JSON.stringify(change(file)) });
  expect(refused.ok ? [] : refused.problems?.map((one) => one.at)).toContain(at);
  expect(await must('orders.list', { all: true })).toEqual([]);
  expect((await must('shelf.list', { search: '', from: 0, count: 1, sort: 'name' })).total).toBe(0);
});

test('a shelf file that is taken back, and what came of its orders, get along in either order; no label shows how it is kept', async () => {
  const text = await fileOf(await withOrders());
  const taken = async () => {
    const book = openBook({ empty: true });
    const { intake } = await book.must('shelf.import', { text });
    const order = async () => (await book.must('orders.list', { all: true })).find((one) => one.material.name === 'benzoin');
    const undo = async () => book.call('orders.undo', { event: (await order())?.events[0]?.id ?? 0 });
    const whole = () => [damageIn(book.keeper.database(), 'full'), wrongSums(book.keeper.database())];
    return { ...book, order, undo, whole, takeBack: () => book.call('files.takeBack', { intake }), intake };
  };
  const one = await taken();
  expect(await one.takeBack()).toMatchObject({ ok: true });
  expect(await one.order()).toMatchObject({ received: 2, bottles: [] });
  await one.must('files.bringBack', { intake: one.intake });
  expect((await one.order())?.bottles).toHaveLength(2);
  expect(await one.takeBack()).toMatchObject({ ok: true });
  expect(await one.undo()).toMatchObject({ ok: true, value: { bottles: [] } });
  expect(await one.order()).toMatchObject({ received: 0 });

  const other = await taken();
  expect(await other.undo()).toMatchObject({ ok: true });
  await other.takeBack();
  expect(await other.order()).toMatchObject({ received: 0, bottles: [] });
  expect((await other.must('shelf.list', { search: 'benzoin', from: 0, count: 1, sort: 'name' })).total).toBe(0);
  for (const { whole } of [one, other]) expect(whole()).toEqual([[], []]);
});

test('the workbook that is given out has the orders on a sheet of their own', async () => {
  const { must } = await withOrders();
  await must('shelf.add', newBottle());
  const { base64 } = await must('files.shelf', { as: 'xlsx' });
  const { sheets, rows } = await openWorkbook(Buffer.from(base64, 'base64'));
  const [, first] = rows(sheets.indexOf('orders'));
  expect(first?.cells.slice(1, 12)).toEqual([
    'benzoin',
    '119-53-9',
    '',
    4,
    100,
    'g',
    'Chemicals Ltd',
    24.5,
    expect.any(String),
    2,
    1,
  ]);
});
