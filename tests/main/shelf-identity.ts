import * as fc from 'fast-check';
import { expect } from 'vitest';
import { canonicalJson } from '../../src/core/canonical-json.ts';
import { indexReference } from '../../src/core/reference.ts';
import type { Shelf } from '../../src/core/shelf/shelf.ts';
import { FileSession } from '../../src/main/files/file-session.ts';
import { UNWATCHED } from '../../src/main/files/limits.ts';
import { shelfCsv, shelfXlsx } from '../../src/main/files/shelf-tables.ts';
import type { Database } from '../../src/main/store/database.ts';
import { heldBottles } from '../../src/main/store/bottle-from-file.ts';
import { shelfAsFile, takeInShelf } from '../../src/main/store/shelf-file.ts';
import { readReferenceRows } from '../../src/main/tables.ts';
import { shelfActs } from '../faults/shelf-acts.ts';
import { openBook, steadyClock } from './workbook-fixture.ts';
import { shelves } from './shelf-arbitrary.ts';

const reference = indexReference(readReferenceRows());
const AT = '2027-02-25T09:00:00.000Z';
const watch = { reading: UNWATCHED, judging: UNWATCHED };

/** A shelf of its own with what is given on it. */
function shelfOf(shelf: Shelf): Database {
  const database = openBook({ empty: true }).keeper.database();
  database.write(() => takeInShelf(database, shelf, 'test', AT));
  return database;
}

async function takeIn(bytes: Uint8Array, into: Database): Promise<void> {
  const session = new FileSession('shelf', bytes, reference, steadyClock());
  const preview = await session.preview({}, into, watch);
  if (preview.at !== 'table') throw new Error('no table');
  if (preview.counts.refused > 0) throw new Error(JSON.stringify(session.page('refused', 0, 5).rows, null, 1));
  expect(preview).toMatchObject({ own: true, counts: { update: 0, duplicate: 0, refused: 0 } });
  session.write(preview.preview, into);
}

const everything = (database: Database): readonly string[] => heldBottles(database).map(canonicalJson);

const WAYS = {
  csv: (database: Database) => new TextEncoder().encode(shelfCsv(database)),
  xlsx: shelfXlsx,
};

/** Takes any shelf out as a table and onto an empty one: every bottle, material and test is the same. */
export async function expectTableIdentity(as: keyof typeof WAYS, numRuns: number): Promise<void> {
  await fc.assert(
    fc.asyncProperty(shelves, async (shelf) => {
      const one = shelfOf(shelf);
      const other = openBook({ empty: true }).keeper.database();
      await takeIn(WAYS[as](one), other);
      expect(everything(other)).toEqual(everything(one));
    }),
    { numRuns },
  );
}

/** The same by way of a shelf file. */
export function expectFileIdentity(numRuns: number): void {
  fc.assert(
    fc.property(shelves, (shelf) => {
      const one = shelfOf(shelf);
      const file = JSON.stringify(shelfAsFile(one));
      const other = shelfOf(JSON.parse(file) as Shelf);
      expect(everything(other)).toEqual(everything(one));
      const { packs, suppliers, orders } = shelfAsFile(one);
      expect([packs?.length, suppliers?.length, orders?.map(({ events }) => events)]).toEqual([
        shelf.packs?.length,
        shelf.suppliers?.length,
        shelf.orders?.map(({ events }) => events),
      ]);
      // The ledger as well: the second file is the first, letter by letter.
      expect(JSON.stringify(shelfAsFile(other))).toBe(file);
    }),
    { numRuns },
  );
}

/** The same of shelves on which everything was done that is done with bottles: used up, discarded, split, put right, tested. */
export async function expectIdentityAfterActs(numRuns: number): Promise<void> {
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 1, max: 1e9 }), async (seed) => {
      const { context, keeper } = openBook({ empty: true });
      let acts = 0;
      for await (const { ok } of shelfActs(context, seed)) if (ok && ++acts === 40) break;
      const one = keeper.database();
      for (const as of ['csv', 'xlsx'] as const) {
        const other = openBook({ empty: true }).keeper.database();
        await takeIn(WAYS[as](one), other);
        expect(sorted(other)).toEqual(sorted(one));
      }
      const file = JSON.stringify(shelfAsFile(one));
      expect(JSON.stringify(shelfAsFile(shelfOf(JSON.parse(file) as Shelf)))).toBe(file);
    }),
    { numRuns },
  );
}

/** By label: a bottle that was brought back is where it was, and comes later where it is written anew. */
const sorted = (database: Database): readonly string[] => everything(database).toSorted();
