import { readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openDatabase } from '../../src/main/store/database.ts';
import { migrations, NEWEST_VERSION } from '../../src/main/store/migrations/index.ts';
import { describeOnPosix, newBottle, openBook, temporaryFolder } from './workbook-fixture.ts';

/** A folder with a workbook that was closed properly, and perhaps a backup. */
async function closedBook({ backup = false } = {}): Promise<string> {
  const { folder, keeper, must } = openBook();
  if (backup) await must('program.backUp', {});
  keeper.close();
  return folder;
}

const workbook = (folder: string): string => join(folder, 'backweigh.db');

async function troubleOf(folder: string) {
  const book = openBook({ folder });
  const trouble = await book.must('program.trouble', {});
  const refused = await book.call('plans.list', {});
  return { ...book, trouble, refused };
}

describe('a damaged workbook', () => {
  const damages: readonly (readonly [string, (bytes: Buffer) => Buffer])[] = [
    ['its beginning overwritten', (bytes) => bytes.fill(0x5a, 0, 100)],
    ['pages overwritten', (bytes) => bytes.fill(0xff, 4096 * 4, 4096 * 12)],
    ['cut in the middle of a page', (bytes) => bytes.subarray(0, 4096 * 10 + 777)],
    ['emptied', () => Buffer.alloc(0)],
    ['replaced by text', () => Buffer.from('The workbook was here.\n'.repeat(100))],
  ];

  test.each(damages)('%s: is set aside as it is, and the backups are offered', async (_how, damage) => {
    const folder = await closedBook({ backup: true });
    const damaged = damage(readFileSync(workbook(folder)));
    writeFileSync(workbook(folder), damaged);
    const { trouble, refused, must, keeper } = await troubleOf(folder);
    expect(trouble).toMatchObject({ kind: 'damaged', title: 'The workbook is damaged', mayBegin: true });
    expect(trouble?.paragraphs.join(' ')).toContain('There is one backup below');
    expect(trouble?.backups).toHaveLength(1);
    expect(readFileSync(trouble?.lies ?? '').equals(damaged)).toBe(true);
    expect(refused).toMatchObject({ ok: false, code: 'storage' });

    await must('program.restore', { name: trouble?.backups[0]?.name ?? '' });
    expect(keeper.trouble()).toBeNull();
    expect((await must('plans.list', {})).length).toBe(1);
    expect(readFileSync(trouble?.lies ?? '').equals(damaged)).toBe(true);
  });

  test('is still reported at the next start, and never replaced without being asked', async () => {
    const folder = await closedBook();
    writeFileSync(workbook(folder), 'nothing of a workbook'.repeat(50));
    const first = await troubleOf(folder);
    expect(first.trouble?.paragraphs.join(' ')).toContain('There is no backup');
    first.keeper.close();
    const second = await troubleOf(folder);
    expect(second.trouble).toEqual(first.trouble);
    expect(readdirSync(folder)).not.toContain('backweigh.db');
    await second.must('program.begin', {});
    expect(await second.must('program.trouble', {})).toBeNull();
    expect((await second.must('plans.list', {})).length).toBe(1);
  });

  test('that is found while the program runs is set aside too', async () => {
    const { folder, keeper, must, call } = openBook();
    await must('program.backUp', {});
    const bytes = readFileSync(workbook(folder));
    keeper.database().pragma('wal_checkpoint(TRUNCATE)');
    writeFileSync(workbook(folder), bytes.fill(0xff, 4096 * 4, 4096 * 12));
    keeper.database().pragma('shrink_memory');
    const checked = await must('program.check', {});
    expect(checked.sound).toBe(false);
    expect(await call('plans.list', {})).toMatchObject({ ok: false, code: 'storage' });
    expect(await must('program.trouble', {})).toMatchObject({ kind: 'damaged' });
  });

  test('that a call stumbles over is set aside at once, and every window is told', async () => {
    const folder = await closedBook();
    const { keeper, call, must, told } = openBook({ folder });
    const root = keeper.database().get<{ rootpage: number }>("SELECT rootpage FROM sqlite_schema WHERE name = 'plan_state'");
    const at = ((root?.rootpage ?? 0) - 1) * 4096;
    writeFileSync(workbook(folder), readFileSync(workbook(folder)).fill(0xff, at, at + 4096));
    // Else the pages read at the start would answer from memory.
    keeper.database().pragma('shrink_memory');
    expect(await call('plans.list', {})).toMatchObject({ ok: false, code: 'storage' });
    expect(told).toEqual(['program']);
    expect(await must('program.trouble', {})).toMatchObject({ kind: 'damaged' });
  });
});

test('a workbook of a newer version is not touched', async () => {
  const folder = await closedBook({ backup: true });
  const next = { version: NEWEST_VERSION + 1, name: 'next', statements: ['CREATE TABLE of_the_future (x INTEGER) STRICT'] };
  openDatabase(workbook(folder), { list: [...migrations, next] }).close();
  const before = readFileSync(workbook(folder));
  const { trouble, refused, call } = await troubleOf(folder);
  expect(trouble).toMatchObject({
    kind: 'newer',
    title: 'The workbook was made by a newer version',
    lies: workbook(folder),
    mayBegin: false,
    backups: [],
  });
  expect(refused).toMatchObject({ ok: false, code: 'storage' });
  expect(await call('program.begin', {})).toMatchObject({ ok: false, code: 'refused' });
  expect(readFileSync(workbook(folder)).equals(before)).toBe(true);
  expect(readdirSync(folder).sort()).toEqual(['backups', 'backweigh.db']);
});

test('a newer workbook whose log was not folded in is not touched either', async () => {
  const folder = await closedBook();
  const next = { version: NEWEST_VERSION + 1, name: 'next', statements: ['CREATE TABLE of_the_future (x INTEGER) STRICT'] };
  const open = openDatabase(workbook(folder), { list: [...migrations, next] });
  const [file, log] = ['', '-wal'].map((end) => readFileSync(workbook(folder) + end));
  open.close();
  writeFileSync(workbook(folder), file ?? '');
  writeFileSync(`${workbook(folder)}-wal`, log ?? '');
  const { trouble } = await troubleOf(folder);
  expect(trouble?.kind).toBe('newer');
  expect([readFileSync(workbook(folder)), readFileSync(`${workbook(folder)}-wal`)]).toEqual([file, log]);
});

test('a file of another program under our name is not touched', async () => {
  const folder = temporaryFolder();
  const foreign = readFileSync(workbook(await closedBook()));
  foreign.writeInt32BE(12345, 68);
  writeFileSync(workbook(folder), foreign);
  const { trouble } = await troubleOf(folder);
  expect(trouble).toMatchObject({ kind: 'not ours', mayBegin: false });
  expect(readFileSync(workbook(folder)).equals(foreign)).toBe(true);
});

test('a workbook that has gone while backups are there is asked after, not begun anew', async () => {
  const folder = await closedBook({ backup: true });
  rmSync(workbook(folder));
  const { trouble, must } = await troubleOf(folder);
  expect(trouble).toMatchObject({ kind: 'missing', title: 'The workbook is not where it was', mayBegin: true });
  await must('program.restore', { name: trouble?.backups[0]?.name ?? '' });
  expect(await must('program.trouble', {})).toBeNull();
});

test('a folder that is a file says so, and opens as soon as that is put right', async () => {
  const parent = temporaryFolder();
  const folder = join(parent, 'data');
  writeFileSync(folder, '');
  const { trouble, must } = await troubleOf(folder);
  expect(trouble).toMatchObject({ kind: 'not writable', title: 'The workbook cannot be opened for writing', mayBegin: false });
  expect(trouble?.paragraphs[0]).toContain('EEXIST');
  rmSync(folder);
  expect(await must('program.trouble', {})).toBeNull();
  expect((await must('plans.list', {})).length).toBe(1);
});

test('the first start makes the folder for the person alone', async () => {
  const folder = join(temporaryFolder(), 'deep', 'data');
  const { must } = openBook({ folder });
  await must('shelf.add', newBottle());
  if (process.platform !== 'win32') expect(statSync(folder).mode & 0o077).toBe(0);
  expect(readdirSync(folder).filter((name) => !name.startsWith('backweigh.db'))).toEqual([]);
});

describeOnPosix('a workbook that is replaced or moved while it is open', () => {
  test('by a restore in another process: the new one is used, and nothing is written into the old', async () => {
    const { folder, must, told, keeper } = openBook();
    const { name } = await must('program.backUp', {});
    const late = await must('shelf.add', newBottle());
    const other = openBook({ folder });
    await other.must('program.restore', { name });
    const { id } = await must('shelf.add', newBottle({ lot: 'into the new one' }));
    expect(told.at(-2)).toBe('program');
    expect((await other.must('shelf.bottle', { id })).bottle.lot).toBe('into the new one');
    expect(id).toBe(late.id);
    expect([keeper.check('full'), other.keeper.check('full')]).toEqual([[], []]);
  });

  test('by being deleted: what was in it is saved as a backup, and asked after', async () => {
    const { folder, must, call, told } = openBook();
    const { id } = await must('shelf.add', newBottle({ lot: 'almost lost' }));
    rmSync(workbook(folder));
    expect(await call('plans.list', {})).toMatchObject({ ok: false, code: 'storage' });
    expect(told.at(-1)).toBe('program');
    const trouble = await must('program.trouble', {});
    expect(trouble).toMatchObject({ kind: 'missing', backups: [{ reason: 'by hand' }] });
    await must('program.restore', { name: trouble?.backups[0]?.name ?? '' });
    expect((await must('shelf.bottle', { id })).bottle.lot).toBe('almost lost');
  });
});
