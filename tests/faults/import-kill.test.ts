import { join } from 'node:path';
import { expect, test } from 'vitest';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { openForReading } from '../../src/main/store/database.ts';
import { openBook, temporaryFolder } from '../main/workbook-fixture.ts';
import { killed } from './killed.ts';
import { spread } from './writers.ts';

const ROUNDS = 12;
const ROWS = 3000;
/** ms. A write of so many rows takes a good part of it. */
const LONGEST = 400;

interface Said {
  readonly begins?: string;
  readonly written?: string;
}

test(`killed ${ROUNDS} times while a file is written: of each file every row is there or none, and what was acknowledged is`, async () => {
  const folder = temporaryFolder();
  openBook({ folder, empty: true }).keeper.close();
  const begun: string[] = [];
  const acknowledged: string[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    const said = await killed<Said>('importer.ts', [folder, `round${round}`], {
      begun: 'begins',
      milliseconds: LONGEST * spread(round),
    });
    begun.push(...said.flatMap((line) => line.begins ?? []));
    acknowledged.push(...said.flatMap((line) => line.written ?? []));
    const database = openForReading(join(folder, 'backweigh.db'));
    expect([damageIn(database, 'full'), wrongSums(database)]).toEqual([[], []]);
    const lots = database.all<{ lot: string; count: number; lines: number }>(
      'SELECT lot, count(*) AS count, (SELECT count(*) FROM ledger WHERE bottle IN (SELECT id FROM bottle AS b WHERE b.lot = bottle.lot)) AS lines FROM bottle GROUP BY lot',
    );
    expect(lots.every(({ count, lines }) => count === ROWS && lines === ROWS)).toBe(true);
    // Every one that was acknowledged is there; one more at most may have been written without the word of it getting out.
    const there = new Set(lots.map(({ lot }) => lot));
    expect(acknowledged.filter((lot) => !there.has(lot))).toEqual([]);
    expect(there.size - acknowledged.length).toBeLessThanOrEqual(round + 1);
    database.close();
  }
  expect(begun.length).toBeGreaterThan(acknowledged.length);
});
