import { expect, test } from 'vitest';
import { answer } from '../../src/main/procedures/index.ts';
import type { Database, SqlValue } from '../../src/main/store/database.ts';
import { READ_ALL } from '../../src/main/store/shelf-index.ts';
import { newBottle, openBook } from './workbook-fixture.ts';

/** What grows with the shelf. Every question about one bottle or one page has to find its rows by an index. */
const LARGE =
  /\bSCAN (bottle|ledger|later|bottle_edit|bottle_edit_line|bottle_test|run_ledger|run_entry|correction|split|all_of)\b/;

/** Every statement that reads, as it was asked, with its plan. */
function watched(database: Database): { readonly database: Database; readonly plans: ReadonlyMap<string, string> } {
  const plans = new Map<string, string>();
  const note = (sql: string, values: readonly SqlValue[] = []): void => {
    const steps = database.all<{ detail: string }>(`EXPLAIN QUERY PLAN ${sql}`, values);
    plans.set(sql, steps.map((step) => step.detail).join('; '));
  };
  const spied: Database = {
    ...database,
    all: (sql, values) => {
      note(sql, values);
      return database.all(sql, values);
    },
    get: (sql, values) => {
      note(sql, values);
      return database.get(sql, values);
    },
  };
  return { database: spied, plans };
}

test('no question about a page or a bottle reads the whole shelf or the whole ledger', async () => {
  const book = openBook();
  const { database, plans } = watched(book.keeper.database());
  const context = { ...book.context, keeper: { ...book.keeper, database: () => database } };
  const must = async (name: string, input: unknown): Promise<Record<string, never>> => {
    const result = await answer(context, name, input);
    if (!result.ok) throw new Error(`${name}: ${result.detail}`);
    return result.value as Record<string, never>;
  };
  const list = { from: 0, count: 100, search: 'acid shelf', sort: 'name' };
  await must('shelf.list', list);
  const { id } = await must('shelf.add', newBottle({ tare: 100 }));
  await must('shelf.list', { ...list, search: '', sort: 'left', down: true, filter: { state: 'good', hazard: 'flammable' } });
  const { line } = await must('shelf.move', { id, kind: 'used', change: -1, reason: '' });
  await must('shelf.undo', { id, line });
  await must('shelf.weigh', { id, gross: 105, reason: '' });
  const split = await must('shelf.split', { id, amount: 1 });
  const corrected = await must('shelf.correct', { id: split['id'], bottle: newBottle({ amount: 2 }) });
  const { edit } = await must('shelf.changeMany', { bottles: { ids: [id, corrected['id']] }, change: { place: 'drawer' } });
  await must('shelf.undoChange', { edit });
  const found = { search: 'benzil', filter: {} };
  const { total } = await must('shelf.list', { ...list, ...found, filter: {} });
  await must('shelf.changeMany', { bottles: { ...found, total }, change: { place: 'drawer' } });
  await must('shelf.test', { id, done: 'tested', on: '2027-02-20', remark: '' });
  await must('shelf.bottle', { id });
  await must('shelf.places', {});
  await must('shelf.snapshot', { materials: [{ name: 'benzil', cas: '134-81-6' }] });

  expect(plans.size).toBeGreaterThan(15);
  // The one that may: read once, when the workbook is first searched.
  expect(plans.get(READ_ALL)).toMatch(LARGE);
  const slow = [...plans].filter(([sql, plan]) => sql !== READ_ALL && LARGE.test(plan));
  expect(slow).toEqual([]);
});
