import { copyFileSync, existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { type Database, openDatabase, openForReading } from '../../src/main/store/database.ts';
import { migrations, NEWEST_VERSION } from '../../src/main/store/migrations/index.ts';
import { openBook, temporaryFolder } from './workbook-fixture.ts';

// A file of each released version, made by that version and never made anew.
const GOLDEN = join(import.meta.dirname, 'golden');
const versions = Array.from({ length: NEWEST_VERSION }, (_none, index) => index + 1);
const golden = (version: number): string => join(GOLDEN, `version-${version}.db`);

/** A data folder with the golden file of a version as its workbook. */
function folderOf(version: number): string {
  const folder = temporaryFolder();
  copyFileSync(golden(version), join(folder, 'backweigh.db'));
  return folder;
}

/** Everything a database holds but its search index, as text. */
function dump(database: Database): string {
  const tables = database.all<{ name: string; sql: string }>(
    `SELECT name, sql FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'bottle_search%' ORDER BY name`,
  );
  return JSON.stringify(tables.map(({ name, sql }) => [sql, database.all(`SELECT * FROM "${name}" ORDER BY 1, 2`)]));
}

test('migrations are numbered from 1 without a gap, each with a golden file', () => {
  expect(migrations.map((one) => one.version)).toEqual(versions);
  expect(versions.filter((version) => !existsSync(golden(version)))).toEqual([]);
});

describe.each(versions)('a workbook of version %d', (version) => {
  test('opens with everything in it', async () => {
    const folder = folderOf(version);
    const { keeper, must } = openBook({ folder });
    expect(keeper.trouble()).toBeNull();
    const database = keeper.database();
    expect(database.pragma('user_version')).toBe(NEWEST_VERSION);
    expect([damageIn(database, 'full'), wrongSums(database)]).toEqual([[], []]);
    expect(keeper.backups().map((backup) => backup.reason)).toEqual(version === NEWEST_VERSION ? [] : ['before a new version']);

    const { bottle, ledger } = await must('shelf.bottle', { id: 'B21' });
    expect(bottle).toMatchObject({ left: 5.999999, unit: 'g', lot: '21-B', form: { kind: 'neat', assayPercent: 98 } });
    expect(ledger.map((line) => line.kind)).toEqual(['received', 'used', 'undone', 'used']);
    expect((await must('plans.read', { id: 1 })).state).toBe(2);
    expect(await must('papers.read', { id: 1 })).toMatchObject({
      revision: 1,
      paper: { kept: 'for ever', rows: [1, 2.5, null] },
    });
    const runs = await must('runs.list', {});
    expect(runs.map((run) => [run.weighed, run.phase])).toEqual(version < 5 ? [] : [[1, 'running']]);
    expect(await must('runs.check', {})).toEqual([]);
    const kept = await must('sessions.list', { planId: 1 });
    expect(kept.map((one) => [one.session.name, one.state])).toEqual(version < 7 ? [] : [['Thursday', 1]]);
    const read = await must('cautions.acknowledged', { planId: 1 });
    expect(read.map((one) => [one.by, one.words])).toEqual(version < 8 ? [] : [['AB', 'nitric acid: Toxic if inhaled.']]);
    const taken = await must('files.taken', {});
    expect(taken.map((one) => [one.file, one.isIn])).toEqual(
      version < 11
        ? []
        : [
            ['wrong.csv', false],
            ['stock.csv', true],
          ],
    );
    expect((await must('suppliers.list', {})).map((one) => one.leastOrder)).toEqual(version < 15 ? [] : [50]);
    const ordered = (await must('orders.list', { all: true })).map((one) => one.planName);
    expect(ordered.includes('another plan')).toBe(version >= 15);
    expect((await must('settings.read', {})).paper).toBe('A4');
    const search = async (text: string) => (await must('shelf.list', { search: text, from: 0, count: 9, sort: 'place' })).total;
    expect([await search('diphenylethane'), await search('n-117'), await search('acids')]).toEqual([1, 1, 1]);
  });

  test('is opened for reading without a change of a single byte', () => {
    const folder = folderOf(version);
    openForReading(join(folder, 'backweigh.db')).close();
    expect(readFileSync(join(folder, 'backweigh.db')).equals(readFileSync(golden(version)))).toBe(true);
  });
});

test('from version 13 on what a line says it was made into is a tie, and what it only sounds like is none', async () => {
  const folder = folderOf(12);
  const old = openDatabase(join(folder, 'backweigh.db'), { list: migrations.slice(0, 12) });
  const [source, made] = old.all<{ id: number; code: string }>('SELECT id, code FROM bottle WHERE amount_left > 0 LIMIT 2');
  const line = (reason: string) =>
    old.run("INSERT INTO ledger (bottle, kind, change, reason, at) VALUES (?, 'used', -1, ?, '2027-02-25T09:00:00.000Z')", [
      source?.id ?? 0,
      reason,
    ]);
  const said = ['made into B-none', `Made into ${made?.code}?`, `made into ${made?.code}`, `made into ${source?.code}`];
  const lines = old.write(() => said.map(line));
  old.close();
  const { keeper } = openBook({ folder });
  expect(keeper.database().all('SELECT taken, bottle FROM made_into JOIN ledger ON ledger.id = came')).toEqual([
    { taken: lines[2], bottle: made?.id },
  ]);
});

const steps = migrations
  .slice(1)
  .flatMap((migration) => migration.statements.map((_statement, index) => ({ migration, index, version: migration.version })));

test.each(steps)('version $version stopped before statement $index leaves the older version whole', ({ migration, index }) => {
  const file = join(folderOf(migration.version - 1), 'backweigh.db');
  const before = openForReading(file);
  const whole = dump(before);
  before.close();
  const failing = { ...migration, statements: [...migration.statements.slice(0, index), 'SELECT no_such_function()'] };
  const list = [...migrations.slice(0, migration.version - 1), failing];
  expect(() => openDatabase(file, { list })).toThrow('no_such_function');
  const after = openForReading(file);
  expect([after.pragma('user_version'), dump(after)]).toEqual([migration.version - 1, whole]);
  after.close();
  openDatabase(file).close();
});
