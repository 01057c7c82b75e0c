import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { wrongSums } from '../../src/main/store/check.ts';
import { by, charge, sheetOf, taken } from '../core/run-fixture.ts';
import { newBottle, openBook, type Workbook } from './workbook-fixture.ts';

const BENZOIN = { name: 'benzoin', formula: 'C14H12O2', cas: '119-53-9' };
const sheet = sheetOf([
  charge({ id: 'benzoin', isBasis: true, low: null, high: null, molesPerUnit: 1 / 212.248 }),
  charge({ id: 'nitric', by: 'volume', unit: 'mL' }),
]);

/** A book with a bottle of 50 g benzoin, and a run begun. */
async function begun() {
  const book = openBook();
  const { id: bottle } = await book.must('shelf.add', newBottle({ material: BENZOIN, amount: 50 }));
  const { id } = await book.must('runs.start', { planId: 1, state: 1, sheet, by });
  let number = 1;
  const add = async (entry: RunEntry, adjust = false) => {
    const got = await book.must('runs.add', { id, after: number, entry, adjust });
    number = got.number;
    return got;
  };
  const left = async (code = bottle): Promise<number> => (await book.must('shelf.bottle', { id: code })).bottle.left;
  return { ...book, bottle, id, add, left };
}

const weighed = (bottle: string, net: number): RunEntry => taken('benzoin', net, { bottle, taken: net, moles: net / 212.248 });
const product = (grams: number, more: Partial<Extract<RunEntry, { kind: 'product' }>> = {}): RunEntry => ({
  kind: 'product',
  by,
  crop: 1,
  grams,
  wet: false,
  assayPercent: null,
  place: 'dry box',
  text: '',
  bottle: null,
  ...more,
});

const gotBack = (
  grams: number,
  more: Partial<Extract<RunEntry, { kind: 'recovered' }>> = {},
): Extract<RunEntry, { kind: 'recovered' }> => ({
  kind: 'recovered',
  by,
  grams,
  wet: false,
  assayPercent: null,
  place: '',
  text: '',
  bottle: null,
  ...more,
});

describe('a run', () => {
  test('numbers the plan’s state, takes from its bottles, puts the product on the shelf', async () => {
    const { must, id, add, left, bottle, keeper, told } = await begun();
    expect((await must('plans.read', { id: 1 })).revision).toBe(1);
    await add(weighed(bottle, 10.163));
    expect(await left()).toBeCloseTo(39.837, 9);
    const { bottle: made } = await add(product(8.914, { assayPercent: 99.2 }));
    const shown = await must('shelf.bottle', { id: made ?? '' });
    expect(shown.bottle).toMatchObject({
      left: 8.914,
      place: 'dry box',
      form: { kind: 'neat', assayPercent: 99.2 },
      material: { name: 'benzil' },
    });
    expect(shown.ledger.map((line) => line.kind)).toEqual(['made']);
    await add({ kind: 'finished', by });
    const [row] = await must('runs.list', { planId: 1 });
    expect(row).toMatchObject({ id, phase: 'finished', weighed: 1, bottles: [made], uncorrected: false });
    // 8.914 · 0.992 / (10.163 / 212.248 · 210.232) = 87.8435 %
    expect(row?.yieldPercent).toBeCloseTo((100 * 8.914 * 0.992) / ((10.163 / 212.248) * 210.232), 9);
    expect(wrongSums(keeper.database())).toEqual([]);
    expect(new Set(told)).toEqual(new Set(['shelf', 'plans', 'runs']));
  });

  test('its route says when it was used, its largest run, and which steps have none', async () => {
    const { must, add, bottle, id } = await begun();
    const [before] = await must('routes.use', {});
    expect(before).toMatchObject({ id: 1, runs: 1, largest: null, meanOverallPercent: null });
    await add(weighed(bottle, 10));
    await add(product(8));
    await add({ kind: 'finished', by });
    const [row] = await must('runs.list', {});
    const [use] = await must('routes.use', {});
    expect(use?.last).toBe(row?.last);
    expect(id).toBe(row?.id);
    expect(use?.runs).toBe(1);
  });

  test('a cumulative yield runs through the bottle that an earlier run filled', async () => {
    const { must, add, bottle, id } = await begun();
    await add(weighed(bottle, 10));
    const { bottle: made } = await add(product(8));
    await add({ kind: 'finished', by });
    const { id: second } = await must('runs.start', { planId: 1, state: 1, sheet: { ...sheet, step: 'next' }, by });
    await must('runs.add', { id: second, after: 1, entry: weighed(made ?? '', 5) });
    await must('runs.add', { id: second, after: 2, entry: product(4) });
    const [later, earlier] = await must('runs.list', {});
    expect([later?.id, earlier?.id]).toEqual([second, id]);
    expect(earlier?.cumulativePercent).toBeCloseTo(earlier?.yieldPercent ?? Number.NaN, 9);
    expect(later?.cumulativePercent).toBeCloseTo(((later?.yieldPercent ?? 0) * (earlier?.yieldPercent ?? 0)) / 100, 9);
  });

  test('basis got back stands on the shelf as what it is, is put right with its bottle, and keeps the yield of the steps before it', async () => {
    const { must, add, bottle, id, left } = await begun();
    await add(weighed(bottle, 10));
    await add(product(8));
    const { bottle: back } = await add(gotBack(1.5, { place: 'dry box' }));
    const code = back ?? '';
    expect((await must('shelf.bottle', { id: code })).bottle).toMatchObject({
      left: 1.5,
      place: 'dry box',
      material: { name: 'benzoin' },
      lot: `run ${id}, sheet 1-1, got back`,
    });
    const correction = { kind: 'correction', by, of: 4, reason: 'misread' } as const;
    await add({ ...correction, instead: { ...gotBack(1.2, { assayPercent: 97, place: 'fridge' }), bottle: code } });
    expect((await must('shelf.bottle', { id: code })).bottle).toMatchObject({
      left: 1.2,
      place: 'fridge',
      form: { kind: 'neat', assayPercent: 97 },
    });
    await add({ kind: 'finished', by });
    expect(await must('runs.check', {})).toEqual([]);
    // The bought benzoin, got back, feeds the step again: no step was gone through before it.
    const next = await must('runs.start', { planId: 1, state: 1, sheet: { ...sheet, batch: 2 }, by });
    await must('runs.add', { id: next.id, after: 1, entry: weighed(code, 1) });
    await must('runs.add', { id: next.id, after: 2, entry: product(0.9) });
    const [row] = await must('runs.list', { planId: 1 });
    expect(row?.cumulativePercent).toBeCloseTo(row?.yieldPercent ?? Number.NaN, 9);
    expect(await left(code)).toBeCloseTo(0.2, 9);
    // Wet, it is no stock yet.
    expect((await must('runs.add', { id: next.id, after: 3, entry: gotBack(2, { wet: true }) })).bottle).toBeNull();
  });

  test('a product has its use-by date from how long the route says it keeps; none where it does not say', async () => {
    const { must, bottle } = await begun();
    const made = async (keeps: { readonly hours: number } | null, batch: number) => {
      const own = { ...sheet, batch, product: { ...sheet.product, ...(keeps ? { keeps } : {}) } };
      const { id } = await must('runs.start', { planId: 1, state: 1, sheet: own, by });
      await must('runs.add', { id, after: 1, entry: weighed(bottle, 1) });
      const { bottle: code } = await must('runs.add', { id, after: 2, entry: product(0.9) });
      const shown = (await must('shelf.bottle', { id: code ?? '' })).bottle;
      const days = (Date.parse(shown.useBy ?? '') - Date.parse(shown.received ?? '')) / 86_400_000;
      return shown.useBy ? days : null;
    };
    expect(await made({ hours: 72 }, 2)).toBe(3);
    expect(await made({ hours: 12 }, 3)).toBe(0);
    expect(await made(null, 4)).toBeNull();
  });

  test('a batch that is being weighed is not begun twice', async () => {
    const { call, add } = await begun();
    const again = { planId: 1, state: 1, sheet, by };
    expect(await call('runs.start', again)).toMatchObject({ ok: false, code: 'conflict' });
    await add({ kind: 'finished', by });
    expect(await call('runs.start', again)).toMatchObject({ ok: true });
  });

  test('what another window added first is not written over', async () => {
    const { call, id, bottle, add, left } = await begun();
    await add(weighed(bottle, 10));
    const late = await call('runs.add', { id, after: 1, entry: weighed(bottle, 9) });
    expect(late).toMatchObject({ ok: false, code: 'conflict' });
    expect(await left()).toBe(40);
  });

  test('a bottle that held more than its ledger says: refused by name, and put right where the person says so', async () => {
    const { call, id, bottle, add, left } = await begun();
    const entry = weighed(bottle, 50.5);
    const refused = await call('runs.add', { id, after: 1, entry });
    expect(refused).toMatchObject({ ok: false, code: 'refused', problems: [{ at: '/entry/taken' }] });
    expect(await left()).toBe(50);
    await add(entry, true);
    expect(await left()).toBe(0);
  });

  test('a wet product is recorded and is no stock yet; dried, it is', async () => {
    const { add, must } = await begun();
    const before = (await must('shelf.list', { search: '', from: 0, count: 1, sort: 'name' })).total;
    expect((await add(product(14, { wet: true }))).bottle).toBeNull();
    expect((await must('shelf.list', { search: '', from: 0, count: 1, sort: 'name' })).total).toBe(before);
    expect((await add(product(9))).bottle).not.toBeNull();
  });
});

describe('corrections', () => {
  const correction = (of: number, instead: RunEntry | null): RunEntry => ({
    kind: 'correction',
    by: 'CD',
    of,
    reason: 'misread',
    instead: instead as never,
  });

  test('a weighing is countered and written as it was, in one write; and once more', async () => {
    const { add, left, bottle, must, keeper } = await begun();
    await add(weighed(bottle, 10.613));
    await add(correction(2, weighed(bottle, 10.163)));
    expect(await left()).toBeCloseTo(39.837, 9);
    await add(correction(2, null));
    expect(await left()).toBe(50);
    await add(correction(2, weighed(bottle, 10)));
    expect(await left()).toBe(40);
    const { ledger } = await must('shelf.bottle', { id: bottle });
    expect(ledger.map((line) => [line.kind, line.undone])).toEqual([
      ['received', false],
      ['used', true],
      ['undone', false],
      ['used', true],
      ['undone', false],
      ['used', false],
    ]);
    expect(wrongSums(keeper.database())).toEqual([]);
  });

  test('what was spilled stays taken from its bottle, what is weighed again comes on top, and nothing looks tampered with', async () => {
    const { must, add, left, bottle } = await begun();
    await add(weighed(bottle, 10));
    await add({ kind: 'correction', by, of: 2, reason: 'the boat tipped', instead: null, spilled: true });
    expect(await left()).toBeCloseTo(40, 9);
    await add(weighed(bottle, 10.2));
    expect(await left()).toBeCloseTo(29.8, 9);
    const [row] = await must('runs.list', {});
    expect(row?.basisGrams).toBeCloseTo(10.2, 9);
    // It was not spilled after all, but never weighed: it goes back into its bottle, once.
    await add({ kind: 'correction', by, of: 2, reason: 'never weighed', instead: null });
    expect(await left()).toBeCloseTo(39.8, 9);
    expect(await must('runs.check', {})).toEqual([]);
  });

  test('a product keeps its bottle', async () => {
    const { add, left, must } = await begun();
    const { bottle: made } = await add(product(9.81));
    await must('shelf.move', { id: made ?? '', kind: 'used', change: -9.5, reason: '' });
    const got = await add(correction(2, product(9.6, { assayPercent: 98 })));
    expect(got.bottle).toBe(made);
    expect(await left(made ?? '')).toBeCloseTo(0.1, 9);
    expect((await must('shelf.bottle', { id: made ?? '' })).bottle.form).toEqual({ kind: 'neat', assayPercent: 98 });
  });

  test('what a run wrote into a ledger is taken back in the run, not on the shelf', async () => {
    const { add, left, bottle, call, must } = await begun();
    await add(weighed(bottle, 10));
    const { ledger } = await must('shelf.bottle', { id: bottle });
    const used = ledger.find((line) => line.kind === 'used');
    const refused = await call('shelf.undo', { id: bottle, line: used?.id ?? 0 });
    expect(refused).toMatchObject({ ok: false, code: 'refused', detail: expect.stringContaining('Run 1') as string });
    expect(await left()).toBe(40);
  });

  test('what was measured since stays as it was measured', async () => {
    const { add, left, bottle, must } = await begun();
    await add(weighed(bottle, 10));
    await must('shelf.move', { id: bottle, kind: 'adjusted', change: -0.2, reason: 'weighed the bottle' });
    const { said } = await add(correction(2, weighed(bottle, 9)));
    expect(said).toContain('measured');
    expect(await left()).toBeCloseTo(39.8, 9);
  });
});

describe('the record', () => {
  /** Changes bytes of the database file behind the program's back. */
  async function changed(book: Workbook, from: string, to: string): Promise<Workbook> {
    book.keeper.database().pragma('wal_checkpoint(TRUNCATE)');
    book.keeper.close();
    const file = join(book.folder, 'backweigh.db');
    const bytes = readFileSync(file);
    const at = bytes.indexOf(from);
    expect(at).toBeGreaterThan(0);
    expect(Buffer.byteLength(from)).toBe(Buffer.byteLength(to));
    bytes.write(to, at, 'utf8');
    writeFileSync(file, bytes);
    return openBook({ folder: book.folder });
  }

  test('a changed byte is noticed when the book is opened, and said where; nothing more is written into it', async () => {
    const book = await begun();
    await book.add(weighed(book.bottle, 10.163));
    await book.add({ kind: 'remark', by, words: 'turned yellow' });
    expect(await book.must('runs.check', {})).toEqual([]);
    const again = await changed(book, 'turned yellow', 'turned orange');
    expect(await again.must('runs.check', {})).toEqual([{ id: book.id, entry: 3, sheet: '1-1' }]);
    expect((await again.must('runs.read', { id: book.id })).broken).toBe(3);
    const more = await again.call('runs.add', { id: book.id, after: 3, entry: { kind: 'finished', by } });
    expect(more).toMatchObject({ ok: false, code: 'refused', detail: expect.stringContaining('entry 3') as string });
  });

  test('and so is one in what it was started with', async () => {
    const book = await begun();
    const again = await changed(book, '"asOf":"2027-02-25"', '"asOf":"2027-02-26"');
    expect(await again.must('runs.check', {})).toMatchObject([{ entry: 0 }]);
  });

  test('a record cut at its end is noticed, and so is a run taken out whole', async () => {
    const book = await begun();
    await book.add(weighed(book.bottle, 10));
    await book.add({ kind: 'remark', by, words: 'spilt a little' });
    const file = join(book.folder, 'backweigh.db');
    book.keeper.close();
    const cut = (...statements: readonly string[]): void => {
      const raw = new Sqlite(file);
      raw.pragma('foreign_keys = OFF');
      for (const table of ['run', 'run_entry', 'run_ledger', 'run_head']) raw.exec(`DROP TRIGGER IF EXISTS ${table}_never_goes`);
      for (const one of statements) raw.exec(one);
      raw.close();
    };
    cut('DELETE FROM run_entry WHERE number = 3');
    const again = openBook({ folder: book.folder });
    expect(await again.must('runs.check', {})).toMatchObject([{ id: book.id, entry: 3 }]);
    expect((await again.must('runs.read', { id: book.id })).broken).toBe(3);
    // Nothing is written over the gap.
    const more = await again.call('runs.add', { id: book.id, after: 2, entry: { kind: 'remark', by, words: 'all well' } });
    expect(more).toMatchObject({ ok: false, code: 'refused' });
    again.keeper.close();
    cut('DELETE FROM run_entry', 'DELETE FROM run');
    const third = openBook({ folder: book.folder });
    expect(await third.must('runs.check', {})).toMatchObject([{ id: book.id, entry: 0 }]);
    third.keeper.close();
    // The newest run taken out with all its rows: its number is still known, named, and never given again.
    cut('DELETE FROM run_head', 'DELETE FROM run_ledger');
    const fourth = openBook({ folder: book.folder });
    expect(await fourth.must('runs.list', {})).toEqual([]);
    expect(await fourth.must('runs.check', {})).toEqual([{ id: book.id, entry: 0, sheet: '' }]);
    expect(await fourth.must('runs.start', { planId: 1, state: 1, sheet, by })).toEqual({ id: book.id + 1 });
    expect(await fourth.must('runs.check', {})).toEqual([{ id: book.id, entry: 0, sheet: '' }]);
    fourth.keeper.close();
  });

  test('any byte of it changed is noticed: the file is set aside as damaged, or the run is named', {
    timeout: 120_000,
  }, async () => {
    const book = await begun();
    await book.add(weighed(book.bottle, 10.163));
    await book.add({ kind: 'remark', by, words: 'turned yellow, then orange' });
    const database = book.keeper.database();
    const links = database
      .all<{ link: string }>('SELECT link FROM run_entry UNION SELECT link FROM run UNION SELECT link FROM run_head')
      .map((one) => one.link);
    database.pragma('wal_checkpoint(TRUNCATE)');
    book.keeper.close();
    const file = join(book.folder, 'backweigh.db');
    const whole = readFileSync(file);
    // In what it was started with, in its entries, and in every link of its chain.
    const texts = ['"asOf":"2027-02-25"', '"net":10.163', 'turned yellow, then orange', '"kind":"started"', ...links];
    const places = texts.flatMap((text) => {
      const at = whole.indexOf(text);
      return at < 0 ? [] : Array.from({ length: Buffer.byteLength(text) }, (_none, byte) => at + byte);
    });
    expect(places.length).toBeGreaterThan(60);
    for (const at of places) {
      const bytes = Buffer.from(whole);
      bytes[at] = (bytes[at] ?? 0) ^ 1;
      writeFileSync(file, bytes);
      const again = openBook({ folder: book.folder });
      const trouble = again.keeper.trouble();
      const named = trouble === null ? (await again.must('runs.check', {})).map((one) => one.id) : [];
      expect(trouble !== null || named.includes(book.id), `byte ${at}`).toBe(true);
      // What is broken stops nothing else.
      if (trouble === null) await again.must('runs.list', {});
      again.keeper.close();
    }
  });

  test('is exported whole, with its chain', async () => {
    const { must, add, id, bottle } = await begun();
    await add(weighed(bottle, 10));
    const file = JSON.parse((await must('runs.export', { id })).text) as { entries: { number: number; link: string }[] };
    expect(file).toMatchObject({ backweigh: 'run record', run: id, broken: null, start: { sheet: { step: 'oxidation' } } });
    expect(file.entries.map((one) => [one.number, one.link.length])).toEqual([
      [1, 64],
      [2, 64],
    ]);
  });

  test('its tables are never changed and nothing is ever taken out of them', async () => {
    const { keeper, add, bottle } = await begun();
    await add(weighed(bottle, 10));
    const database = keeper.database();
    for (const sql of [
      'UPDATE run SET link = link',
      'UPDATE run_entry SET at = at',
      'DELETE FROM run_entry',
      'DELETE FROM run_ledger',
      'DELETE FROM run_head',
    ]) {
      expect(() => database.write(() => database.run(sql)), sql).toThrow('never');
    }
  });
});
