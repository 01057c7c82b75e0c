import { join } from 'node:path';
import { expect, test } from 'vitest';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { type Database, openForReading } from '../../src/main/store/database.ts';
import { brokenRuns, readStored } from '../../src/main/store/runs.ts';
import { openBook } from '../main/workbook-fixture.ts';
import { killed } from './killed.ts';
import { type RunAct, runActs } from './run-acts.ts';
import { spread } from './writers.ts';

/** The book is sound, its chains fit, and every ledger line of a run belongs to one entry. */
function expectWhole(database: Database): void {
  expect([damageIn(database, 'full'), wrongSums(database), brokenRuns(database)]).toEqual([[], [], []]);
  const loose = `SELECT count(*) AS count FROM ledger WHERE reason LIKE 'run %' AND kind IN ('used', 'made')
    AND id NOT IN (SELECT ledger FROM run_ledger)`;
  expect(database.get<{ count: number }>(loose)?.count).toBe(0);
}

const leftOf = (database: Database): ReadonlyMap<string, number> =>
  new Map(
    database
      .all<{ code: string; left: number }>('SELECT code, amount_left AS left FROM bottle')
      .map((one) => [one.code, one.left]),
  );

const ACTS = 100;

test('whatever is weighed, sent twice, corrected, emptied or thrown away meanwhile: every bottle holds what a second bookkeeping says', async () => {
  const kinds = new Set<string>();
  let refused = 0;
  for (let seed = 1; seed <= 6; seed += 1) {
    const { context, keeper } = openBook();
    let done = 0;
    for await (const { act, ok, amounts, run, entries } of runActs(context, seed)) {
      if (ok) kinds.add(act);
      else refused += 1;
      if (++done < ACTS) continue;
      const left = leftOf(keeper.database());
      expect(amounts.map(([code]) => [code, left.get(code)])).toEqual(amounts);
      expect(readStored(keeper.database(), run).entries.length).toBe(entries);
      break;
    }
    expectWhole(keeper.database());
    keeper.close();
  }
  expect([...kinds].sort()).toEqual(
    ['charged', 'correct', 'discarded', 'emptied', 'product', 'received', 'started', 'take out', 'twice'].sort(),
  );
  expect(refused).toBeGreaterThan(0);
});

const ROUNDS = 6;
/** A slow machine gets as far as a quick one before the blow. */
const LEAST_ACTS = 2;
const LONGEST_MILLISECONDS = 500;

test(`killed ${ROUNDS} times while runs are weighed: no recorded weight is lost, and none is in the ledger without its entry`, async () => {
  const { folder, keeper } = openBook();
  keeper.close();
  let acts = 0;
  for (let round = 0; round < ROUNDS; round += 1) {
    const said = await killed<RunAct>('run-writer.ts', [folder, String(100 + round)], {
      begun: '\n',
      times: LEAST_ACTS,
      milliseconds: LONGEST_MILLISECONDS * spread(round),
    });
    acts += said.length;
    const last = said.at(-1);
    if (!last) throw new Error('it said that it had begun');
    const database = openForReading(join(folder, 'backweigh.db'));
    expectWhole(database);
    const { length } = readStored(database, last.run).entries;
    // One more act may have been written without the word of it getting out.
    expect([last.entries, last.entries + 1]).toContain(length);
    const left = leftOf(database);
    const differing = last.amounts.filter(([code, amount]) => left.get(code) !== amount);
    expect(differing.length).toBeLessThanOrEqual(1);
    if (length === last.entries + 1 && differing.length === 1) {
      // It is there with both: the entry, and the line that it wrote.
      const lines = database.get<{ count: number }>('SELECT count(*) AS count FROM run_ledger WHERE run = ? AND number = ?', [
        last.run,
        length,
      ]);
      expect(lines?.count).toBeGreaterThan(0);
    }
    database.close();
  }
  expect(acts).toBeGreaterThanOrEqual(ROUNDS * LEAST_ACTS);
});
