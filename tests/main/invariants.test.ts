import { describe, expect, test } from 'vitest';
import type { Database } from '../../src/main/store/database.ts';
import { newBottle, openBook } from './workbook-fixture.ts';

// What the tables themselves refuse, whatever the code above them does.

async function filled(): Promise<Database> {
  const { must, keeper } = openBook();
  const { id } = await must('shelf.add', newBottle());
  await must('shelf.move', { id, kind: 'used', change: -1, reason: '' });
  const plan = await must('plans.read', { id: 1 });
  await must('papers.issue', { planId: 1, state: plan.state, kind: 'weighing', title: 'Sheet', paper: {} });
  return keeper.database();
}

const attempt = (database: Database, sql: string) => (): void => database.write(() => void database.run(sql));
const AT = "'2027-02-25T09:00:00.000Z'";

describe('what happened is never changed and never deleted', () => {
  test.each([
    ['ledger', 'UPDATE ledger SET change = 1'],
    ['ledger', 'DELETE FROM ledger'],
    ['ledger', 'INSERT OR REPLACE INTO ledger SELECT * FROM ledger WHERE id = 1'],
    ['route_revision', "UPDATE route_revision SET name = 'x'"],
    ['route_revision', 'DELETE FROM route_revision'],
    ['plan_state', "UPDATE plan_state SET words = 'x'"],
    ['plan_state', 'DELETE FROM plan_state'],
    ['revision', "UPDATE revision SET cause = 'named'"],
    ['revision', 'DELETE FROM revision'],
    ['paper', "UPDATE paper SET data = '{}'"],
    ['paper', 'DELETE FROM paper'],
  ])('%s: %s', async (table, sql) => {
    const database = await filled();
    const rows = database.all(`SELECT * FROM ${table}`);
    expect(rows.length).toBeGreaterThan(0);
    expect(attempt(database, sql)).toThrow(new RegExp(`${table} rows are never (changed|deleted)`));
    expect(database.all(`SELECT * FROM ${table}`)).toEqual(rows);
  });
});

describe('the tables refuse', () => {
  const ledger = (values: string): string => `INSERT INTO ledger (bottle, kind, change, reason, at, undoes) VALUES (${values})`;

  test.each([
    ['an amount below zero', ledger(`1, 'used', -999000000000000, '', ${AT}, NULL`), 'amount_left BETWEEN'],
    ['more than a bottle can hold', ledger(`1, 'received', 1000000000000000, '', ${AT}, NULL`), 'amount_left BETWEEN'],
    ['a fraction of a microgram', ledger(`1, 'received', 1.5, '', ${AT}, NULL`), 'cannot store REAL value in INTEGER column'],
    ['an amount that is text', ledger(`1, 'received', 'much', '', ${AT}, NULL`), 'cannot store TEXT value in INTEGER column'],
    ['nothing where NaN was meant', ledger(`1, 'received', NULL, '', ${AT}, NULL`), 'NOT NULL constraint'],
    ['an infinite amount', ledger(`1, 'received', 9e999, '', ${AT}, NULL`), 'cannot store REAL value in INTEGER column'],
    ['a movement of nothing', ledger(`1, 'adjusted', 0, '', ${AT}, NULL`), 'change <> 0'],
    ['something received below zero', ledger(`1, 'received', -1, '', ${AT}, NULL`), 'CHECK constraint'],
    ['something used above zero', ledger(`1, 'used', 1, '', ${AT}, NULL`), 'CHECK constraint'],
    ['an unknown kind', ledger(`1, 'lost', -1, '', ${AT}, NULL`), 'CHECK constraint'],
    ['a moment that is none', ledger(`1, 'received', 1, '', '2027-02-30T09:00:00.000Z', NULL`), 'CHECK constraint'],
    ['a bottle that is not there', ledger(`99999, 'received', 1, '', ${AT}, NULL`), 'FOREIGN KEY constraint'],
    ['a counter-entry of something else', ledger(`1, 'undone', -1, '', ${AT}, 1`), 'exactly what it undoes'],
    ['a counter-entry without its line', ledger(`1, 'undone', -1, '', ${AT}, NULL`), 'CHECK constraint'],
    ['a changed unit', "UPDATE bottle SET unit = 'mL' WHERE unit = 'g'", 'the unit of a bottle never changes'],
    ['a kept amount below zero', 'UPDATE bottle SET amount_left = -1', 'amount_left BETWEEN'],
    ['a date that is none', "UPDATE bottle SET opened = '2027-02-30'", 'CHECK constraint'],
    ['two bottles with one label', "UPDATE bottle SET code = 'B1'", 'UNIQUE constraint'],
    ['a form that is not JSON', "UPDATE bottle SET form = '{'", 'CHECK constraint'],
    ['a material in use to go', 'DELETE FROM material', 'FOREIGN KEY constraint'],
    [
      'a price that is not a number',
      "INSERT INTO pack (material, amount, unit, supplier, price) VALUES (1, 1, 'g', '', 'x')",
      'cannot store TEXT',
    ],
    [
      'a price without end',
      "INSERT INTO pack (material, amount, unit, supplier, price) VALUES (1, 1, 'g', '', 9e999)",
      'CHECK constraint',
    ],
    [
      'a plan state out of turn',
      `INSERT INTO plan_state SELECT plan, state + 5, route, route_revision, name, ask, words, saved FROM plan_state`,
      'a state follows the newest one',
    ],
    [
      'a revision of a state that is not there',
      `INSERT INTO revision VALUES (1, 2, 99, 'named', ${AT})`,
      'FOREIGN KEY constraint',
    ],
    [
      'a second number for one state',
      `INSERT INTO revision SELECT plan, 2, state, 'named', at FROM revision`,
      'UNIQUE constraint',
    ],
  ])('%s', async (_what, sql, why) => {
    const database = await filled();
    expect(attempt(database, sql)).toThrow(why);
  });
});

describe('a write', () => {
  test('is everything or nothing', async () => {
    const { keeper } = openBook();
    const database = keeper.database();
    expect(() =>
      database.write(() => {
        database.run("INSERT INTO program (name, value) VALUES ('half', '1')");
        throw new Error('stopped in the middle');
      }),
    ).toThrow('stopped in the middle');
    expect(database.get("SELECT * FROM program WHERE name = 'half'")).toBeUndefined();
  });

  test('cannot await, and what it did before is taken back', async () => {
    const { keeper } = openBook();
    const database = keeper.database();
    const work = async (): Promise<void> => {
      database.run("INSERT INTO program (name, value) VALUES ('half', '1')");
      await Promise.resolve();
    };
    expect(() => database.write(work)).toThrow('a write needs to be synchronous');
    expect(database.get("SELECT * FROM program WHERE name = 'half'")).toBeUndefined();
  });

  test('stands alone, and nothing changes outside of one', () => {
    const { keeper } = openBook();
    const database = keeper.database();
    expect(() => database.write(() => database.write(() => {}))).toThrow('a write needs to stand alone');
    expect(() => database.run("INSERT INTO program (name, value) VALUES ('x', '1')")).toThrow('needs to be inside a write');
  });

  test('rests on the promises of the file', () => {
    const { keeper } = openBook();
    const names = ['journal_mode', 'synchronous', 'foreign_keys', 'recursive_triggers', 'trusted_schema'];
    const kept = Object.fromEntries(names.map((name) => [name, keeper.database().pragma(name)]));
    expect(kept).toEqual({ journal_mode: 'wal', synchronous: 2, foreign_keys: 1, recursive_triggers: 1, trusted_schema: 0 });
  });
});
