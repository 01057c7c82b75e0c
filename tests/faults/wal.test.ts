import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { newBottle, openBook, temporaryFolder } from '../main/workbook-fixture.ts';

// A log that was cut or spoilt anywhere gives the state after some of the commits, in order, and never a half of one.

const WAL_HEADER = 32;
const FRAME_HEADER = 24;
const COMMITS = 9;

interface Recorded {
  readonly file: string;
  readonly log: Buffer;
  readonly pageSize: number;
  /** Length of the log after each commit. */
  readonly ends: readonly number[];
}

async function record(): Promise<Recorded> {
  const { folder, keeper, must } = openBook();
  const database = keeper.database();
  database.pragma('wal_checkpoint(TRUNCATE)');
  database.pragma('wal_autocheckpoint = 0');
  const file = join(temporaryFolder(), 'before.db');
  copyFileSync(join(folder, 'backweigh.db'), file);
  const ends: number[] = [];
  for (let number = 1; number <= COMMITS; number++) {
    await must('shelf.add', newBottle({ lot: `commit-${number}`, amount: number }));
    ends.push(readFileSync(join(folder, 'backweigh.db-wal')).length);
  }
  const log = readFileSync(join(folder, 'backweigh.db-wal'));
  return { file, log, ends, pageSize: Number(database.pragma('page_size')) };
}

/** Opens the recorded file with this log; gives the numbers of the commits that are there. */
function commitsWith({ file }: Recorded, log: Buffer): readonly number[] {
  const folder = temporaryFolder();
  copyFileSync(file, join(folder, 'backweigh.db'));
  writeFileSync(join(folder, 'backweigh.db-wal'), log);
  const { keeper } = openBook({ folder });
  expect(keeper.trouble()).toBeNull();
  const database = keeper.database();
  const rows = database.all<{ lot: string; amount_left: number }>(
    "SELECT lot, amount_left FROM bottle WHERE lot LIKE 'commit-%' ORDER BY id",
  );
  expect([damageIn(database, 'full'), wrongSums(database)]).toEqual([[], []]);
  for (const row of rows) expect(row.amount_left).toBe(Number(row.lot.slice(7)) * 1e6);
  keeper.close();
  return rows.map((row) => Number(row.lot.slice(7)));
}

const upTo = (count: number): readonly number[] => Array.from({ length: count }, (_none, index) => index + 1);

describe('a log', () => {
  test('cut at every frame, and at odd places in and around it, gives exactly the commits it still holds whole', async () => {
    const recorded = await record();
    const { log, pageSize, ends } = recorded;
    const frame = FRAME_HEADER + pageSize;
    const frames = (log.length - WAL_HEADER) / frame;
    expect([Number.isInteger(frames), frames > COMMITS]).toEqual([true, true]);
    for (let index = 0; index <= frames; index++) {
      const boundary = WAL_HEADER + index * frame;
      const odd = index % 4 === 0 ? [-1, 1, 7, FRAME_HEADER + 1] : [[13], [-3], [FRAME_HEADER]][index % 3];
      for (const cut of [boundary, ...(odd ?? []).map((by) => boundary + by)]) {
        if (cut < 0 || cut > log.length) continue;
        const whole = ends.filter((end) => end <= cut).length;
        expect([cut, commitsWith(recorded, log.subarray(0, cut))]).toEqual([cut, upTo(whole)]);
      }
    }
  });

  test('with a byte changed anywhere gives the commits before it', async () => {
    const recorded = await record();
    const { log, ends } = recorded;
    for (let number = 0; number < 40; number++) {
      const at = WAL_HEADER + Math.floor(((log.length - WAL_HEADER) * (number + 0.37)) / 40);
      const spoilt = Buffer.from(log);
      spoilt.writeUInt8(spoilt.readUInt8(at) ^ 0x41, at);
      const whole = ends.filter((end) => end <= at).length;
      expect([at, commitsWith(recorded, spoilt)]).toEqual([at, upTo(whole)]);
    }
  });

  test('that is whole gives every commit, and one that is gone gives none', async () => {
    const recorded = await record();
    expect(commitsWith(recorded, recorded.log)).toEqual(upTo(COMMITS));
    expect(commitsWith(recorded, Buffer.alloc(0))).toEqual([]);
  });
});
