import { copyFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { listBackups, makeBackup } from '../../src/main/store/backup.ts';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { type Database, openForReading } from '../../src/main/store/database.ts';
import { brokenRuns } from '../../src/main/store/runs.ts';
import { NEWEST_VERSION } from '../../src/main/store/migrations/index.ts';
import { openBook, temporaryFolder } from '../main/workbook-fixture.ts';
import { after, type Said, spread, startWriter } from './writers.ts';

const ROUNDS = 32;
/** After so many more words in each round the blow falls, so that a slow machine gets as far as a quick one. */
const MORE_WORDS = 0.7;
/** The blow falls somewhere inside the write after it. */
const LONGEST_MILLISECONDS = 12;

/** Whatever the moment of the blow, these hold. */
function expectWhole(database: Database): void {
  expect([damageIn(database, 'full'), wrongSums(database)]).toEqual([[], []]);
  const count = (sql: string): number => database.get<{ count: number }>(`SELECT count(*) AS count FROM ${sql}`)?.count ?? -1;
  // A bottle and its first line are one write, and so are a paper and its revision.
  expect(count("bottle WHERE lot <> '' AND code LIKE 'B-%' AND id NOT IN (SELECT bottle FROM ledger)")).toBe(0);
  expect(count('revision WHERE (plan, number) NOT IN (SELECT plan, revision FROM paper)')).toBe(0);
  // A weighing and what left its bottle are one write, and so are a product and its bottle; each record is a whole chain.
  expect(count(`run_entry WHERE data ->> 'kind' = 'charged' AND (run, number) NOT IN (SELECT run, number FROM run_ledger)`)).toBe(
    0,
  );
  expect(count(`run_entry WHERE data ->> 'kind' = 'product' AND data ->> 'bottle' NOT IN (SELECT code FROM bottle)`)).toBe(0);
  expect(count("ledger WHERE kind = 'made' AND id NOT IN (SELECT ledger FROM run_ledger)")).toBe(0);
  expect(count('run WHERE id NOT IN (SELECT run FROM run_entry)')).toBe(0);
  expect(brokenRuns(database)).toEqual([]);
  expect(count('plan_state')).toBe(database.get<{ most: number }>('SELECT max(state) AS most FROM plan_state')?.most);
}

/** What is left in a writer's bottle, one write after the other, in micrograms; a product or a paper may come between. */
const steps = [100, 99.9, 89.9, 79.9, 80.4, 70.4].map((grams) => Math.round(grams * 1e6));

function expectKept(database: Database, said: readonly Said[]): void {
  const left = new Map<string, number>();
  for (const line of said) {
    expect(line.failed).toBeUndefined();
    if (line.bottle !== undefined && line.left !== undefined) left.set(line.bottle, line.left);
    if (line.state !== undefined) {
      expect(database.get('SELECT words FROM plan_state WHERE plan = 1 AND state = ?', [line.state])).toEqual({
        words: line.words,
      });
    }
    if (line.run !== undefined && line.entry !== undefined) {
      expect(
        database.get("SELECT data ->> 'kind' AS kind FROM run_entry WHERE run = ? AND number = ?", [line.run, line.entry]),
      ).toEqual({ kind: line.kind });
    }
    if (line.paper !== undefined) {
      expect(database.get('SELECT revision, title FROM paper WHERE id = ?', [line.paper])).toEqual({
        revision: line.revision,
        title: line.title,
      });
    }
  }
  for (const [code, amount] of left) {
    const row = database.get<{ amount_left: number }>('SELECT amount_left FROM bottle WHERE code = ?', [code]);
    // The last movement may have been saved without the word of it getting out.
    expect(steps.slice(steps.indexOf(Math.round(amount * 1e6))).slice(0, 2)).toContain(row?.amount_left);
  }
}

test(`killed ${ROUNDS} times in the middle of writing: everything acknowledged is there, and nothing by halves`, async () => {
  const folder = temporaryFolder();
  const said: Said[] = [];
  let killed = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const writer = startWriter(folder, `round${round}`, 0);
    const words = 1 + Math.floor(round * MORE_WORDS);
    await writer.heard(words);
    await after(spread(round) * LONGEST_MILLISECONDS);
    writer.process.kill('SIGKILL');
    const lines = await writer.said;
    expect(lines.length).toBeGreaterThanOrEqual(words);
    expect(lines[0]).toEqual({ opened: true, trouble: null });
    said.push(...lines);
    if ((await writer.code) === null) killed++;
    const database = openForReading(join(folder, 'backweigh.db'));
    expectWhole(database);
    expectKept(database, lines);
    database.close();
  }
  expect(killed).toBe(ROUNDS);
  expect(said.filter((line) => line.paper !== undefined).length).toBeGreaterThan(ROUNDS);
  expect(said.filter((line) => line.run !== undefined).length).toBeGreaterThan(ROUNDS);
  const { keeper } = openBook({ folder });
  expect(keeper.trouble()).toBeNull();
  expectKept(keeper.database(), said);
});

test('killed while the first workbook is made: there is none, or a whole one', async () => {
  for (let round = 0; round < 10; round++) {
    const folder = temporaryFolder();
    const writer = startWriter(folder, 'first', 0);
    await after(80 + spread(round) * 150);
    writer.process.kill('SIGKILL');
    await writer.code;
    const { keeper, must } = openBook({ folder });
    expect(keeper.trouble()).toBeNull();
    expect((await must('plans.list', {})).length).toBe(1);
    expectWhole(keeper.database());
    keeper.close();
  }
});

test('killed while an older workbook is brought up: it is of the old version or of the new, and whole', async () => {
  for (let round = 0; round < 10; round++) {
    const folder = temporaryFolder();
    copyFileSync(join(import.meta.dirname, '..', 'main', 'golden', 'version-1.db'), join(folder, 'backweigh.db'));
    const writer = startWriter(folder, 'older', 0);
    await after(80 + spread(round) * 150);
    writer.process.kill('SIGKILL');
    await writer.code;
    const database = openForReading(join(folder, 'backweigh.db'));
    const version = Number(database.pragma('user_version'));
    // Each version is a transaction of its own: any of them may be where it stopped.
    expect(version >= 1 && version <= NEWEST_VERSION, `version ${version}`).toBe(true);
    expect(damageIn(database, 'full')).toEqual([]);
    expect(database.get("SELECT amount_left FROM bottle WHERE code = 'B21'")).toEqual({ amount_left: 5_999_999 });
    database.close();
    for (const backup of listBackups(folder)) openForReading(join(folder, 'backups', backup.name)).close();
    const { keeper } = openBook({ folder });
    expect(keeper.trouble()).toBeNull();
    keeper.close();
  }
});

test('a backup made while another process writes is whole', async () => {
  const folder = temporaryFolder();
  const writer = startWriter(folder, 'busy', 0);
  await writer.begun;
  const { keeper } = openBook({ folder });
  for (let number = 0; number < 5; number++) {
    makeBackup(keeper.database(), 'by-hand', `2027-02-25T09:00:0${number}.000Z`);
    await after(30);
  }
  writer.process.kill('SIGKILL');
  await writer.code;
  expect(readdirSync(join(folder, 'backups')).filter((name) => !name.endsWith('.db'))).toEqual([]);
  for (const { name } of listBackups(folder)) {
    const database = openForReading(join(folder, 'backups', name));
    expectWhole(database);
    database.close();
  }
});
