import { join } from 'node:path';
import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { type Database, openForReading } from '../../src/main/store/database.ts';
import { openBook, temporaryFolder } from '../main/workbook-fixture.ts';
import { MOST_ROWS } from './file-acts.ts';
import { killed } from './killed.ts';
import { ACTS, amountsNow, type Amounts, shelfActs } from './shelf-acts.ts';
import { spread } from './writers.ts';

/** What is left is the sum of the ledger, and an act on two bottles is there with both its halves or not at all. */
function expectWhole(database: Database): void {
  expect([damageIn(database, 'full'), wrongSums(database)]).toEqual([[], []]);
  const count = (sql: string): number => database.get<{ count: number }>(`SELECT count(*) AS count FROM ${sql}`)?.count ?? -1;
  expect(count("ledger WHERE reason LIKE 'split into%' AND kind = 'used' AND id NOT IN (SELECT taken FROM split)")).toBe(0);
  expect(count("ledger WHERE reason LIKE 'split from%' AND kind = 'received' AND id NOT IN (SELECT came FROM split)")).toBe(0);
  expect(
    count("ledger WHERE reason LIKE 'entered wrong%' AND kind = 'adjusted' AND id NOT IN (SELECT emptied FROM correction)"),
  ).toBe(0);
  const undone = (line: string): string =>
    `(WITH RECURSIVE chain (id) AS (SELECT ${line} UNION ALL SELECT ledger.id FROM chain JOIN ledger ON ledger.undoes = chain.id)
      SELECT count(*) FROM chain)`;
  expect(count(`split WHERE ${undone('taken')} <> ${undone('came')}`)).toBe(0);
  expect(count(`correction WHERE ${undone('emptied')} <> ${undone('came')}`)).toBe(0);
  // A bottle of a file that was taken back has nothing in it, and came with a file.
  expect(count('bottle WHERE taken_back = 1 AND (amount_left <> 0 OR id NOT IN (SELECT bottle FROM intake_bottle))')).toBe(0);
  expect(count('intake WHERE id NOT IN (SELECT intake FROM intake_event)')).toBe(0);
  expect(count('bottle_edit WHERE id NOT IN (SELECT edit FROM bottle_edit_line)')).toBe(0);
}

function ledgerSums(database: Database): Amounts {
  const rows = database.all<{ code: string; sum: number }>(
    'SELECT code, coalesce((SELECT sum(change) FROM ledger WHERE ledger.bottle = bottle.id), 0) AS sum FROM bottle WHERE taken_back = 0',
  );
  return new Map(rows.map(({ code, sum }) => [code, sum]));
}

const sorted = (amounts: Amounts): readonly (readonly [string, number])[] => [...amounts].sort(([a], [b]) => (a < b ? -1 : 1));

const EVERY_ACT = [...new Set(ACTS)].sort();

test('any sequence of acts leaves in every bottle the sum of its ledger, to the microgram, as a second bookkeeping has it', async () => {
  let refused = 0;
  const kinds = new Set<string>();
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 1, max: 1e9 }), fc.integer({ min: 1, max: 60 }), async (seed, acts) => {
      const { context, keeper } = openBook({ empty: true });
      let done = 0;
      for await (const { act, ok, amounts } of shelfActs(context, seed)) {
        if (!ok) refused++;
        else kinds.add(act);
        if (++done < acts) continue;
        expect(sorted(await amountsNow(context))).toEqual(sorted(amounts));
        expect(sorted(ledgerSums(keeper.database()))).toEqual(sorted(amounts));
        break;
      }
      expectWhole(keeper.database());
      keeper.close();
    }),
    { numRuns: 40 },
  );
  expect(refused).toBeGreaterThan(0);
  expect([...kinds].sort()).toEqual(EVERY_ACT);
});

const ROUNDS = 16;
/** A slow machine gets as far as a quick one before the blow. */
const LEAST_ACTS = 11;
const LONGEST_MILLISECONDS = 400;

interface Said {
  readonly act: string;
  readonly amounts: readonly (readonly [string, number])[];
}

test(`killed ${ROUNDS} times between acts and in the middle of them: the same, and everything acknowledged is there`, async () => {
  const folder = temporaryFolder();
  let acts = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const said = await killed<Said>('shelf-writer.ts', [folder, String(1000 + round)], {
      begun: '\n',
      times: LEAST_ACTS,
      milliseconds: LONGEST_MILLISECONDS * spread(round),
    });
    acts += said.length;
    const database = openForReading(join(folder, 'backweigh.db'));
    expectWhole(database);
    const now = ledgerSums(database);
    const last = new Map(said.at(-1)?.amounts);
    // One more act may have been saved without the word of it getting out: it touches the bottles of one file at most.
    const differing = [...now].filter(([code, amount]) => last.get(code) !== amount);
    const gone = [...last.keys()].filter((code) => !now.has(code));
    expect(differing.length + gone.length).toBeLessThanOrEqual(MOST_ROWS);
    database.close();
  }
  expect(acts).toBeGreaterThanOrEqual(ROUNDS * LEAST_ACTS);
});
