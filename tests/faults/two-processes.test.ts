import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { expect, test } from 'vitest';
import { wrongSums } from '../../src/main/store/check.ts';
import { newBottle, openBook, temporaryFolder } from '../main/workbook-fixture.ts';
import { startWriter } from './writers.ts';

test('two processes writing at once: every word of both is kept, conflicts are said, and neither fails', async () => {
  const { folder, keeper, must } = openBook();
  const writers = ['one', 'two'].map((name) => startWriter(folder, name, 60));
  const said = (await Promise.all(writers.map((writer) => writer.said))).flat();
  expect(await Promise.all(writers.map((writer) => writer.code))).toEqual([0, 0]);
  expect(said.filter((line) => line.failed !== undefined)).toEqual([]);
  // What each writer was told last of its bottle: a round that met a conflict ends before its run.
  const left = new Map(said.flatMap((line) => (line.bottle === undefined ? [] : [[line.bottle, line.left] as const])));
  expect(left.size).toBe(120);
  for (const [id, amount] of left) expect((await must('shelf.bottle', { id })).bottle.left).toBe(amount);
  const runs = new Set(said.flatMap((line) => line.run ?? []));
  expect([(await must('runs.list', {})).length, await must('runs.check', {})]).toEqual([runs.size, []]);
  const states = said.filter((line) => line.state !== undefined);
  const conflicts = said.filter((line) => line.conflict !== undefined);
  expect(states.length + conflicts.length).toBe(120);
  const kept = await must('plans.states', { id: 1 });
  expect(kept).toHaveLength(states.length + 1);
  for (const { state, words } of states) expect(kept.find((one) => one.state === state)?.words).toBe(words);
  expect([keeper.check('full'), keeper.trouble(), wrongSums(keeper.database())]).toEqual([[], null, []]);
});

test('two first starts at once: one workbook, and both open it', async () => {
  for (let round = 0; round < 4; round++) {
    const folder = temporaryFolder();
    const writers = ['one', 'two'].map((name) => startWriter(folder, name, 3));
    const said = await Promise.all(writers.map((writer) => writer.said));
    expect(said.map(([first]) => first)).toEqual([
      { opened: true, trouble: null },
      { opened: true, trouble: null },
    ]);
    const { must } = openBook({ folder });
    expect(await must('routes.list', {})).toHaveLength(1);
    for (const { bottle } of said.flat()) if (bottle !== undefined) await must('shelf.bottle', { id: bottle });
  }
});

test('a process that holds the file is waited for, and told of in words when it does not let go', async () => {
  const { folder, call, must } = openBook();
  const other = openBook({ folder });
  other.keeper.database().pragma('busy_timeout = 100');
  // As another process would: it begins a write and does not end it.
  const holding = new Sqlite(join(folder, 'backweigh.db'));
  holding.exec('BEGIN IMMEDIATE');
  const waited = await other.call('shelf.add', newBottle());
  holding.exec('ROLLBACK');
  holding.close();
  expect(waited).toEqual({
    ok: false,
    code: 'storage',
    detail: 'Another program holds the data file. Nothing was saved; try again.',
  });
  expect(await call('shelf.add', newBottle())).toMatchObject({ ok: true });
  expect((await must('shelf.list', { search: 'benzil', from: 0, count: 9, sort: 'name' })).total).toBeGreaterThan(0);
});
