import { grouped } from '../../core/grouped.ts';
import type { BottleTest } from '../../core/shelf/shelf.ts';
import { canonicalJson } from '../../core/canonical-json.ts';
import type { Database } from './database.ts';

/** Appends a test to the history of a bottle. Only inside a write. */
export function appendTest(database: Database, bottle: number, test: BottleTest, at: string): void {
  database.run('INSERT INTO bottle_test (bottle, data, at) VALUES (?, ?, ?)', [bottle, canonicalJson(test), at]);
}

/** The tests of a bottle, oldest first. */
export function readTests(database: Database, bottle: number): readonly BottleTest[] {
  return database
    .all<{ data: string }>('SELECT data FROM bottle_test WHERE bottle = ? ORDER BY id', [bottle])
    .map(({ data }) => JSON.parse(data) as BottleTest);
}

/** The tests of every bottle that had one, or of those of some materials, by what is written on its label, oldest first. */
export function testsByBottle(database: Database, materials?: ReadonlySet<number>): ReadonlyMap<string, readonly BottleTest[]> {
  const sql = (of: string): string =>
    `SELECT code, data FROM bottle CROSS JOIN bottle_test ON bottle_test.bottle = bottle.id ${of} ORDER BY bottle_test.id`;
  const rows = materials
    ? database.all<{ code: string; data: string }>(sql('WHERE material IN (SELECT value FROM json_each(?))'), [
        JSON.stringify([...materials]),
      ])
    : database.all<{ code: string; data: string }>(sql(''));
  const byCode = grouped(rows, (row) => row.code);
  return new Map([...byCode].map(([code, tests]) => [code, tests.map(({ data }) => JSON.parse(data) as BottleTest)]));
}
