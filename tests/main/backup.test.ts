import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BackupEntry } from '../../src/core/port/program.ts';
import { openForReading } from '../../src/main/store/database.ts';
import { backupsToDrop } from '../../src/main/store/rotation.ts';
import { newBottle, openBook } from './workbook-fixture.ts';

describe('a backup', () => {
  test('holds what was in the workbook, under a name that tells when and why', async () => {
    const { must, folder } = openBook();
    const { id } = await must('shelf.add', newBottle({ lot: 'kept' }));
    const backup = await must('program.backUp', {});
    expect(backup).toMatchObject({ reason: 'by hand', name: expect.stringMatching(/^backweigh-20270225T\d{9}Z-by-hand\.db$/) });
    const copy = openForReading(join(folder, 'backups', backup.name));
    expect(copy.get('SELECT lot FROM bottle WHERE code = ?', [id])).toEqual({ lot: 'kept' });
    copy.close();
    expect(readdirSync(join(folder, 'backups'))).toEqual([backup.name]);
  });

  test('is put back whole, and what was there before stays beside it', async () => {
    const { must, folder, told, keeper } = openBook();
    const { name } = await must('program.backUp', {});
    const late = await must('shelf.add', newBottle());
    await must('program.restore', { name });
    expect(told).toContain('program');
    expect((await must('shelf.list', { search: late.id, from: 0, count: 9, sort: 'name' })).total).toBe(0);
    expect(keeper.trouble()).toBeNull();
    const aside = readdirSync(folder).find((file) => file.startsWith('backweigh-before-restore-'));
    const before = openForReading(join(folder, aside ?? ''));
    expect(before.get('SELECT 1 AS found FROM bottle WHERE code = ?', [late.id])).toEqual({ found: 1 });
    before.close();
  });

  test('that is not sound is not put back', async () => {
    const { call, must, folder } = openBook();
    const { name } = await must('program.backUp', {});
    const file = join(folder, 'backups', name);
    const bytes = readFileSync(file);
    bytes.fill(0xff, 4096 * 3, 4096 * 9);
    writeFileSync(file, bytes);
    const { id } = await must('shelf.add', newBottle());
    expect(await call('program.restore', { name })).toEqual({
      ok: false,
      code: 'refused',
      detail: `The backup ${name} is not sound and was not used. Your data is as it was.`,
    });
    expect((await must('shelf.bottle', { id })).bottle.left).toBe(10);
    expect(readdirSync(folder).sort()).toEqual(['backups', 'backweigh.db', 'backweigh.db-shm', 'backweigh.db-wal']);
  });

  test.each(['../backweigh.db', 'backweigh-20270225T090000000Z-daily.db', 'backweigh-20270225T090000000Z-daily.db/..', ''])(
    'is only taken by a name from the list: %j',
    async (name) => {
      const { call } = openBook();
      expect(await call('program.restore', { name })).toMatchObject({ ok: false, code: 'not found' });
    },
  );

  test('an empty workbook is not begun where there is a good one', async () => {
    const { call } = openBook();
    expect(await call('program.begin', {})).toMatchObject({ ok: false, code: 'refused' });
  });

  test('where it cannot be written says so and leaves nothing half', async () => {
    const { call, folder } = openBook();
    writeFileSync(join(folder, 'backups'), 'a file where the folder should be');
    expect(await call('program.backUp', {})).toMatchObject({ ok: false, code: 'storage' });
    expect(existsSync(join(folder, 'backweigh.db'))).toBe(true);
  });
});

describe('which backups may go', () => {
  const DAY = 86_400_000;
  const entry = (made: number, reason: BackupEntry['reason'] = 'daily'): BackupEntry => ({
    name: `${made} ${reason}`,
    made: new Date(made).toISOString(),
    reason,
    bytes: 1,
  });
  const START = Date.parse('2025-01-01T08:00:00.000Z');

  test('of two years of days: seven days, five weeks, twelve months', () => {
    let kept: readonly BackupEntry[] = [];
    for (let day = 0; day < 730; day++) {
      const now = [...kept, entry(START + day * DAY)];
      const drop = new Set(backupsToDrop(now));
      kept = now.filter((one) => !drop.has(one));
    }
    const monthEnds = '2026-01-31 2026-02-28 2026-03-31 2026-04-30 2026-05-31 2026-06-30 2026-07-31 2026-08-31 2026-09-30';
    const weekEnds = '2026-10-31 2026-11-30 2026-12-06 2026-12-13 2026-12-20';
    const days = '2026-12-25 2026-12-26 2026-12-27 2026-12-28 2026-12-29 2026-12-30 2026-12-31';
    expect(kept.map((one) => one.made.slice(0, 10)).join(' ')).toBe([monthEnds, weekEnds, days].join(' '));
  });

  test('the newest always stays, each goes at most once, and what stays would stay again', () => {
    const reason = fc.constantFrom('daily', 'before a new version', 'by hand');
    const some = fc.array(fc.record({ made: fc.integer({ min: START, max: START + 900 * DAY }), reason }), { maxLength: 80 });
    fc.assert(
      fc.property(some, (entries) => {
        const backups = entries.map(({ made, reason }) => entry(made, reason as BackupEntry['reason']));
        const drop = backupsToDrop(backups);
        const kept = backups.filter((one) => !drop.includes(one));
        const newest = Math.max(...backups.map((one) => Date.parse(one.made)));
        expect(new Set(drop).size).toBe(drop.length);
        expect(backups.length === 0 || kept.some((one) => Date.parse(one.made) === newest)).toBe(true);
        expect(backupsToDrop(kept)).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  test('what was made by hand outlives the days', () => {
    const byHand = entry(START, 'by hand');
    const days = Array.from({ length: 500 }, (_none, day) => entry(START + day * DAY));
    expect(backupsToDrop([byHand, ...days])).not.toContain(byHand);
  });
});
