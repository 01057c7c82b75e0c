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

/** The tests of every bottle that had one, by what is written on its label, oldest first. */
export function testsByBottle(database: Database): ReadonlyMap<string, readonly BottleTest[]> {
  const rows = database.all<{ code: string; data: string }>(
    'SELECT code, data FROM bottle_test JOIN bottle ON bottle.id = bottle_test.bottle ORDER BY bottle_test.id',
  );
  const byCode = grouped(rows, (row) => row.code);
  return new Map([...byCode].map(([code, tests]) => [code, tests.map(({ data }) => JSON.parse(data) as BottleTest)]));
}
