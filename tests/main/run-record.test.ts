import { createHash } from 'node:crypto';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { brokenLink, type Linked } from '../../src/core/run/chain.ts';
import { RunEntry } from '../../src/core/run/entry.ts';
import { readRunFile } from '../../src/core/run/read-run-file.ts';
import { RunSheet } from '../../src/core/run/run-sheet.ts';
import { by, sheetOf, taken } from '../core/run-fixture.ts';
import { openBook, type Workbook } from './workbook-fixture.ts';

/** Three runs, each with its basis, a remark and its end. */
async function threeRuns(): Promise<Workbook> {
  const book = openBook();
  for (const step of ['one', 'two', 'three']) {
    const { id } = await book.must('runs.start', { planId: 1, state: 1, sheet: { ...sheetOf(), step }, by });
    const entries: RunEntry[] = [
      taken('benzoin', 10, { moles: 10 / 212.248 }),
      { kind: 'remark', by, words: `run of ${step}` },
      { kind: 'finished', by },
    ];
    for (const [at, entry] of entries.entries()) await book.must('runs.add', { id, after: at + 1, entry });
  }
  return book;
}

/** Does to the file what no window can, and opens the book again. */
async function tampered(book: Workbook, ...statements: readonly string[]): Promise<Workbook> {
  book.keeper.close();
  const raw = new Sqlite(join(book.folder, 'backweigh.db'));
  raw.pragma('foreign_keys = OFF');
  const triggers = raw.prepare("SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name LIKE 'run%'").all();
  for (const one of triggers as { name: string }[]) raw.exec(`DROP TRIGGER ${one.name}`);
  for (const one of statements) raw.exec(one);
  raw.close();
  return openBook({ folder: book.folder });
}

describe('whatever is changed in the file is noticed, and where', () => {
  const other = "'0' || substr(link, 2)";
  const flipped = `CASE WHEN substr(link, 1, 1) = '0' THEN '1' || substr(link, 2) ELSE ${other} END`;
  test.each<[what: string, sql: readonly string[], run: number, entry: number]>([
    ['a word of an entry', ["UPDATE run_entry SET data = replace(data, 'run of two', 'run of ten') WHERE run = 2"], 2, 3],
    ['a figure of a weighing', ['UPDATE run_entry SET data = replace(data, \'"net":10\', \'"net":11\') WHERE run = 2'], 2, 2],
    ['who wrote it', ['UPDATE run_entry SET data = replace(data, \'"AB"\', \'"CD"\') WHERE run = 2 AND number = 4'], 2, 4],
    ['the moment', ["UPDATE run_entry SET at = '2027-02-25T09:30:00.000Z' WHERE run = 2 AND number = 2"], 2, 2],
    ['the hash of an entry', [`UPDATE run_entry SET link = ${flipped} WHERE run = 2 AND number = 3`], 2, 3],
    ['the hash of the start', [`UPDATE run SET link = ${flipped} WHERE id = 2`], 2, 0],
    ['the head', [`UPDATE run_head SET link = ${flipped} WHERE run = 2`], 2, 4],
    ['the length in the head', ['UPDATE run_head SET entries = 9 WHERE run = 2'], 2, 5],
    ['what it was started with', ['UPDATE run SET data = replace(data, \'"moles"\', \'"molar"\') WHERE id = 2'], 2, 0],
    ['the plan it belongs to', ['UPDATE run SET revision = 9 WHERE id = 2'], 2, 0],
    ['the last entry taken out', ['DELETE FROM run_entry WHERE run = 2 AND number = 4'], 2, 4],
    ['one in the middle taken out', ['DELETE FROM run_entry WHERE run = 2 AND number = 3'], 2, 3],
    [
      'one put in behind',
      ['INSERT INTO run_entry SELECT run, 5, at, data, link FROM run_entry WHERE run = 2 AND number = 4'],
      2,
      5,
    ],
    [
      'two entries swapped',
      [
        'UPDATE run_entry SET number = 99 WHERE run = 2 AND number = 2',
        'UPDATE run_entry SET number = 2 WHERE run = 2 AND number = 3',
        'UPDATE run_entry SET number = 3 WHERE run = 2 AND number = 99',
      ],
      2,
      2,
    ],
    [
      'their contents swapped',
      [
        `UPDATE run_entry SET data = (SELECT data FROM run_entry AS two WHERE two.run = 2 AND two.number = 5 - run_entry.number)
         WHERE run = 2 AND number IN (2, 3)`,
      ],
      2,
      2,
    ],
    ['a run taken out, its head left', ['DELETE FROM run_entry WHERE run = 2', 'DELETE FROM run WHERE id = 2'], 2, 0],
    [
      'a run taken out with its head',
      ['run_entry', 'run_head'].map((one) => `DELETE FROM ${one} WHERE run = 2`).concat('DELETE FROM run WHERE id = 2'),
      2,
      0,
    ],
    ['the head of a run', ['DELETE FROM run_head WHERE run = 2'], 2, 5],
  ])('%s', async (_what, sql, run, entry) => {
    const again = await tampered(await threeRuns(), ...sql);
    expect((await again.must('runs.check', {})).map((one) => [one.id, one.entry])).toEqual([[run, entry]]);
    // The others are read as they were written, and go on being listed.
    const listed = (await again.must('runs.list', { planId: 1 })).map((one) => one.id);
    expect(listed).toEqual(expect.arrayContaining([1, 3]));
    again.keeper.close();
  });
});

test('a line that a run wrote into a ledger is held against its record', async () => {
  const open = async (...statements: readonly string[]) => {
    const book = openBook();
    const material = { name: 'benzoin', formula: 'C14H12O2' };
    const { id: bottle } = await book.must('shelf.add', { material, form: { kind: 'neat' }, amount: 50, unit: 'g' });
    const { id } = await book.must('runs.start', { planId: 1, state: 1, sheet: sheetOf(), by });
    const weighed = taken('benzoin', 10.163, { bottle, taken: 10.163, moles: 10.163 / 212.248 });
    await book.must('runs.add', { id, after: 1, entry: weighed });
    const instead = { ...weighed, net: 10.613, taken: 10.613 } as never;
    await book.must('runs.add', { id, after: 2, entry: { kind: 'correction', by, of: 2, reason: 'misread', instead } });
    const crop = {
      kind: 'product',
      by,
      crop: 1,
      grams: 9,
      wet: false,
      assayPercent: null,
      place: '',
      text: '',
      bottle: null,
    } as const;
    const made = await book.must('runs.add', { id, after: 3, entry: crop });
    expect(await book.must('runs.check', {})).toEqual([]);
    book.keeper.close();
    const raw = new Sqlite(join(book.folder, 'backweigh.db'));
    raw.pragma('foreign_keys = OFF');
    const triggers = raw.prepare("SELECT name FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'ledger'").all();
    for (const one of triggers as { name: string }[]) raw.exec(`DROP TRIGGER ${one.name}`);
    for (const one of statements) raw.exec(one);
    raw.close();
    const again = openBook({ folder: book.folder });
    return { found: await again.must('runs.check', {}), bottle, made: made.bottle };
  };
  const less = await open("UPDATE ledger SET change = -10613001 WHERE kind = 'used' AND change = -10613000");
  expect(less.found).toEqual([{ id: 1, entry: 3, sheet: '1-1', bottle: less.bottle }]);
  const more = await open("UPDATE ledger SET change = 9500000 WHERE kind = 'made'");
  expect(more.found).toEqual([{ id: 1, entry: 4, sheet: '1-1', bottle: more.made }]);
  const gone = await open("DELETE FROM ledger WHERE kind = 'used' AND change = -10163000");
  expect(gone.found).toEqual([{ id: 1, entry: 2, sheet: '1-1', bottle: '' }]);
});

describe('an exported record', () => {
  interface Exported {
    readonly start: Record<string, unknown>;
    readonly link: string;
    readonly entries: readonly {
      readonly number: number;
      readonly at: string;
      readonly entry: RunEntry;
      readonly link: string;
    }[];
  }
  const sha256 = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');
  const brokenIn = ({ start, link, entries }: Exported): number | null => {
    const linked = entries.map(({ link: own, ...one }): Linked => ({ recorded: one, link: own }));
    return brokenLink(start, link, linked, sha256);
  };

  test('holds all there is of a run: read again it is the same, and its chain is worked out anew from the file alone', async () => {
    const book = await threeRuns();
    const { text } = await book.must('runs.export', { id: 2 });
    const file = JSON.parse(text) as Exported;
    const { start, entries } = await book.must('runs.read', { id: 2 });
    expect(file.start).toEqual(start);
    expect(file.entries.map(({ link: _link, ...one }) => one)).toEqual(entries);
    expect(RunSheet.parse(file.start['sheet'])).toEqual(start.sheet);
    for (const one of file.entries) expect(RunEntry.parse(one.entry)).toEqual(one.entry);
    expect(brokenIn(file)).toBeNull();
    expect(`${JSON.stringify(JSON.parse(text), null, 2)}\n`).toBe(text);
    expect(brokenIn(JSON.parse(text.replace('run of two', 'run of ten')) as Exported)).toBe(3);
  });

  test('is read again for its scale: step, phase and basis as the list of runs has them; a changed one is refused', async () => {
    const book = await threeRuns();
    const rows = await book.must('runs.list', {});
    for (const row of rows) {
      const { text } = await book.must('runs.export', { id: row.id });
      const { id, step, phase, early, basisGrams } = row;
      expect(readRunFile(text, sha256)).toEqual({ ok: true, value: { id, step, phase, early, basisGrams } });
    }
    const { text } = await book.must('runs.export', { id: 2 });
    const changed = readRunFile(text.replace('run of two', 'run of ten'), sha256);
    expect(changed).toMatchObject({
      ok: false,
      problems: [{ words: expect.stringContaining('changed after it was written, at entry 3') }],
    });
    expect(readRunFile('{"backweigh":"run record"}', sha256).ok).toBe(false);
  });
});
