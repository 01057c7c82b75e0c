import { spawnSync } from 'node:child_process';
import { chmodSync, chownSync, copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { damageIn, wrongSums } from '../../src/main/store/check.ts';
import { describeOnPosix, newBottle, openBook, temporaryFolder } from '../main/workbook-fixture.ts';

const isRoot = process.getuid?.() === 0;
const FULL = { ok: false, code: 'storage', detail: 'The disk is full. Nothing was saved; what you typed is still here.' };

describe('a full disk', () => {
  test('is told in words, loses nothing, and work goes on when there is room again', async () => {
    const { keeper, call, must, told } = openBook();
    const database = keeper.database();
    database.pragma(`max_page_count = ${Number(database.pragma('page_count')) + 6}`);
    const kept: string[] = [];
    let refused: unknown = null;
    for (let number = 0; number < 500 && refused === null; number++) {
      const result = await call('shelf.add', newBottle({ note: 'x'.repeat(2000) }));
      if (result.ok) kept.push(result.value.id);
      else refused = result;
    }
    expect(refused).toEqual(FULL);
    expect(kept.length).toBeGreaterThan(0);
    expect(told).toHaveLength(kept.length);
    expect([damageIn(database, 'full'), wrongSums(database)]).toEqual([[], []]);
    expect((await must('shelf.list', { search: '', from: 0, count: 1, sort: 'name' })).total).toBeGreaterThanOrEqual(kept.length);
    for (const id of kept) expect((await must('shelf.bottle', { id })).bottle.left).toBe(10);

    database.pragma('max_page_count = 1000000');
    await must('shelf.add', newBottle());
  });

  test('really full: a small disk of its own', async (context) => {
    const folder = temporaryFolder();
    const mounted =
      isRoot &&
      process.platform === 'linux' &&
      spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=2m', 'tmpfs', folder]).status === 0;
    if (!mounted) {
      const why = 'a small disk of its own cannot be mounted here: only root on Linux can';
      console.log(`Skipped: ${why}.`);
      return context.skip(why);
    }
    onTestFinished(() => void spawnSync('umount', ['-l', folder]));
    const { keeper, call, must } = openBook({ folder });
    const kept: string[] = [];
    let refused: unknown = null;
    for (let number = 0; number < 2000 && refused === null; number++) {
      const result = await call('shelf.add', newBottle({ note: 'x'.repeat(3000) }));
      if (result.ok) kept.push(result.value.id);
      else refused = result;
    }
    expect(refused).toEqual(FULL);
    expect(kept.length).toBeGreaterThan(3);
    expect(await call('program.backUp', {})).toMatchObject({ ok: false, code: 'storage' });
    expect(existsSync(join(folder, 'backups')) ? readdirSync(join(folder, 'backups')) : []).toEqual([]);
    expect(damageIn(keeper.database(), 'full')).toEqual([]);
    keeper.close();
    const again = openBook({ folder });
    expect(again.keeper.trouble()).toBeNull();
    for (const id of kept) expect((await again.must('shelf.bottle', { id })).bottle.left).toBe(10);
    expect((await must('program.trouble', {}))?.kind ?? null).toBeNull();
  });
});

/** What a process that is not root finds when it opens this folder. */
function openedByNobody(folder: string): { readonly code: number | null; readonly first: string; readonly can: boolean } {
  const NOBODY = 65_534;
  const user = isRoot ? { uid: NOBODY, gid: NOBODY } : {};
  const probe = spawnSync(process.execPath, ['--version'], user);
  const writer = join(import.meta.dirname, 'writer.ts');
  const { status, stdout } = spawnSync(process.execPath, [writer, folder, 'nobody', '1'], { ...user, encoding: 'utf8' });
  return { code: status, first: (stdout ?? '').split('\n')[0] ?? '', can: probe.status === 0 && (stdout ?? '') !== '' };
}

/** A closed workbook that belongs to whoever is going to open it. */
async function closedBook(): Promise<string> {
  const { folder, keeper } = openBook();
  keeper.close();
  if (isRoot) for (const name of ['', 'backweigh.db']) chownSync(join(folder, name), 65_534, 65_534);
  return folder;
}

describeOnPosix('what may only be read', () => {
  test.each([
    ['a folder', 'backweigh.db', 0o600, 0o500],
    ['a file', 'backweigh.db', 0o400, 0o700],
  ])('%s: says so, and changes nothing', async (_what, name, fileMode, folderMode) => {
    const folder = await closedBook();
    const before = readFileSync(join(folder, name));
    chmodSync(join(folder, name), fileMode);
    chmodSync(folder, folderMode);
    const { code, first, can } = openedByNobody(folder);
    chmodSync(folder, 0o700);
    expect(can).toBe(true);
    expect([code, JSON.parse(first)]).toEqual([
      3,
      { opened: false, trouble: { kind: 'not writable', folder, detail: expect.any(String) } },
    ]);
    expect(readFileSync(join(folder, name)).equals(before)).toBe(true);
    expect(readdirSync(folder)).toEqual([name]);
  });

  test('while the program runs: a refused save says so, and the rest can still be read', async () => {
    const { keeper, call, must } = openBook();
    keeper.database().pragma('query_only = ON');
    expect(await call('shelf.add', newBottle())).toEqual({
      ok: false,
      code: 'storage',
      detail: 'The data file cannot be written: it or its folder is read-only. Nothing was saved.',
    });
    expect((await must('plans.list', {})).length).toBe(1);
  });
});

describe('pages', () => {
  test('each page in turn overwritten: never opened as if nothing were wrong, and never lost', async () => {
    const { folder, keeper } = openBook();
    const pageSize = Number(keeper.database().pragma('page_size'));
    keeper.close();
    const good = readFileSync(join(folder, 'backweigh.db'));
    const pages = good.length / pageSize;
    expect(pages).toBeGreaterThan(20);
    for (let page = 0; page < pages; page++) {
      const spoilt = Buffer.from(good).fill(0xa5, page * pageSize, (page + 1) * pageSize);
      const place = join(temporaryFolder(), 'data');
      mkdirSync(place);
      writeFileSync(join(place, 'backweigh.db'), spoilt);
      const book = openBook({ folder: place });
      const trouble = book.keeper.trouble();
      expect([page, trouble?.kind]).toEqual([page, 'damaged']);
      const aside = trouble?.kind === 'damaged' ? trouble.movedTo : '';
      expect(readFileSync(aside).equals(spoilt)).toBe(true);
      book.keeper.close();
    }
  });

  test('the log of another workbook is not believed', async () => {
    const one = openBook();
    const other = openBook();
    await other.must('shelf.add', newBottle({ lot: 'of the other' }));
    one.keeper.close();
    copyFileSync(join(other.folder, 'backweigh.db-wal'), join(one.folder, 'backweigh.db-wal'));
    const book = openBook({ folder: one.folder });
    if (book.keeper.trouble() === null) {
      expect(damageIn(book.keeper.database(), 'full')).toEqual([]);
      expect(wrongSums(book.keeper.database())).toEqual([]);
    } else expect(book.keeper.trouble()?.kind).toBe('damaged');
  });
});
