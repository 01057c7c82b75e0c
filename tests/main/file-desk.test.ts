import { expect, test } from 'vitest';
import { sameMaterial } from '../../src/core/matter/facts.ts';
import { bottleCount, openedFile } from './file-fixture.ts';
import { newBottle, openBook } from './workbook-fixture.ts';

test('the shelf has changed since the preview: nothing is written, and the preview is to be looked at again', async () => {
  const book = openBook({ empty: true });
  const { id } = await book.must('shelf.add', newBottle({ place: 'A' }));
  const text = `bottle,material,left,place\n${id},benzil,10 g,B\nnew one,benzil,5 g,B\n`;
  const { file, preview } = await openedFile(book, text);
  expect(preview.counts).toEqual({ new: 1, update: 1, duplicate: 0, refused: 0 });
  await book.must('shelf.move', { id, kind: 'used', change: -1, reason: '' });
  const answer = await book.call('files.write', { file, preview: preview.preview });
  expect(answer).toMatchObject({ ok: false, code: 'conflict' });
  expect(bottleCount(book)).toBe(1);
  const next = await book.must('files.preview', { file, choices: {} });
  if (next.at !== 'table') throw new Error('no table');
  const rows = await book.must('files.rows', { file, fate: 'update', from: 0, count: 5 });
  expect(rows.rows[0]?.says).toEqual(['left 9 g → 10 g, recorded as adjusted', 'place A → B']);
  await book.must('files.write', { file, preview: next.preview });
  const { bottle, ledger } = await book.must('shelf.bottle', { id });
  expect([bottle.left, bottle.place]).toEqual([10, 'B']);
  expect(ledger.at(-1)).toMatchObject({ kind: 'adjusted', change: 1, reason: 'from the file inventory.csv' });
});

test('rows without a label: as many as are on the shelf already are those; a further one is new', async () => {
  const book = openBook({ empty: true });
  const row = 'benzil,5 g,A,L1\n';
  const first = await openedFile(book, `material,left,place,lot\n${row}${row}`);
  expect(first.preview.counts).toMatchObject({ new: 2, duplicate: 0 });
  await book.must('files.write', { file: first.file, preview: first.preview.preview });
  const second = await openedFile(book, `material,left,place,lot\n${row}${row}${row}`);
  expect(second.preview.counts).toMatchObject({ new: 1, duplicate: 2 });
  const all = await book.must('files.preview', { file: second.file, choices: { takeDuplicates: true } });
  expect(all).toMatchObject({ counts: { new: 3, duplicate: 0 } });
});

test('one name, two formulas: two materials, for a file as for a plan', async () => {
  const book = openBook({ empty: true });
  const materials = { a: { name: 'Co', formula: 'Co' }, b: { name: 'copper vitriol', formula: 'CuSO4·5H2O' } };
  const [cobalt, hydrate] = ['C1', 'C2'];
  const five = { form: { kind: 'neat' }, left: 5, unit: 'g' };
  const bottles = [
    { id: cobalt, material: 'a', ...five },
    { id: hydrate, material: 'b', ...five },
  ];
  await book.must('shelf.import', { text: JSON.stringify({ backweigh: 'shelf', version: 1, materials, bottles }) });
  const csv =
    'material,formula,amount\nCO,CO,5 g\nco,Co,5 g\nCo,,5 g\nCopper  vitriol,CuSO4,5 g\ncopper vitriol,CuSO4.5H2O,5 g\n';
  const { file } = await openedFile(book, csv);
  const { rows } = await book.must('files.rows', { file, fate: 'all', from: 0, count: 9 });
  expect(rows.map((row) => [row.fate, row.says[0] ?? ''])).toEqual([
    ['new', expect.stringContaining('CO is a formula')],
    ['duplicate', `on the shelf already, as ${cobalt}`],
    ['new', expect.stringContaining('no formula')],
    ['new', ''],
    ['duplicate', `on the shelf already, as ${hydrate}`],
  ]);
  expect(sameMaterial({ name: 'Co', formula: 'Co' }, { name: 'CO', formula: 'CO' })).toBe(false);
  expect(sameMaterial({ name: 'copper sulfate', formula: 'CuSO4' }, { name: 'Copper Sulfate', formula: 'CuSO4·5H2O' })).toBe(
    false,
  );
  for (const formula of ['C2H5OH', 'C₂H₆O', undefined, 'EtOH', 'C2H6O+'])
    expect(sameMaterial({ name: 'ethanol', formula: 'C2H6O' }, { name: 'Ethanol', ...(formula ? { formula } : {}) })).toBe(true);
});

test('labels that a scanner would not tell apart are one question, never two bottles', async () => {
  const book = openBook({ empty: true });
  const { id } = await book.must('shelf.add', newBottle());
  const csv = `label,material,cas,amount\n${id.toLowerCase()},benzil,134-81-6,5 g\nSm-1,benzil,134-81-6,5 g\nSM-1,benzil,134-81-6,6 g\nx 1,benzil,134-81-6,6 g\n`;
  const { file, preview } = await openedFile(book, csv);
  expect(preview.counts).toEqual({ new: 1, update: 0, duplicate: 0, refused: 3 });
  const { rows } = await book.must('files.rows', { file, fate: 'refused', from: 0, count: 9 });
  expect(rows.map((row) => /differs from (\S+) in nothing/.exec(row.problems[0]?.words ?? '')?.[1])).toEqual([
    id,
    'SM-1',
    'Sm-1',
  ]);
  await book.must('files.write', { file, preview: preview.preview });
  expect(await book.must('shelf.labelled', { typed: ' X  1' })).toEqual(['x 1']);
  expect(await book.must('shelf.labelled', { typed: 'x' })).toEqual([]);
});

test('what a file cannot change on a bottle is refused in words; refused rows go out with their reasons', async () => {
  const book = openBook({ empty: true });
  const { id } = await book.must('shelf.add', newBottle());
  const text = ['bottle,material,left,assay', `${id},benzoin,10 g,`, `${id}x,benzil,1 g,`].join('\n');
  const { file, preview } = await openedFile(book, text);
  expect(preview.counts).toMatchObject({ refused: 1, new: 1 });
  const refused = (await book.must('files.refused', { file })).text;
  expect(refused).toContain('bottle,material,left,assay,row,why refused\r\n');
  expect(refused).toContain(`${id},benzoin,10 g,,2,`);
  for (const [cells, words] of [
    [`${id},benzil,10 mL,`, /is kept in g; the file says mL/],
    [`${id},benzil,10 g,98`, /A strength changes by a recorded test/],
  ] as const) {
    const one = await openedFile(book, `bottle,material,left,assay\n${cells}\n`);
    const page = await book.must('files.rows', { file: one.file, fate: 'refused', from: 0, count: 1 });
    expect(page.rows[0]?.problems[0]?.words).toMatch(words);
  }
});

test('a file that was closed, or another one opened since, is gone; the shelf comes out as a table', async () => {
  const book = openBook();
  const one = await openedFile(book, 'material,left\nbenzil,1 g\n');
  await openedFile(book, 'material,left\nbenzil,2 g\n');
  expect(await book.call('files.rows', { file: one.file, fate: 'all', from: 0, count: 1 })).toMatchObject({
    ok: false,
    code: 'refused',
  });
  const { base64: csv } = await book.must('files.shelf', { as: 'csv' });
  const lines = Buffer.from(csv, 'base64').toString('utf8').split('\r\n');
  expect(lines[0]).toMatch(/^\ufeffbottle,material,formula,CAS number,/);
  expect(lines.length).toBe((await book.must('shelf.list', { search: '', from: 0, count: 1, sort: 'name' })).total + 2);
  const { base64: xlsx } = await book.must('files.shelf', { as: 'xlsx' });
  const { read, utils } = await import('@e965/xlsx');
  const workbook = read(Buffer.from(xlsx, 'base64'));
  expect(workbook.SheetNames).toEqual(['bottles', 'ledger', 'packs', 'orders']);
  const ledger = utils.sheet_to_json<Record<string, unknown>>(workbook.Sheets['ledger'] ?? {});
  expect(ledger[0]).toMatchObject({ line: 1, movement: 'received', unit: expect.stringMatching(/g|mL/) });
});

test('what a file changes on bottles is one entry, and can be taken back as one; an old bottle gets no later date', async () => {
  const book = openBook({ empty: true });
  const { id: one } = await book.must('shelf.add', newBottle({ place: 'A' }));
  const { id: other } = await book.must('shelf.add', newBottle({ place: 'B', useBy: '2020-01-31' }));
  const { file, preview } = await openedFile(
    book,
    `bottle,location,tare,water,price,best before\n${one},C,"12,5 g",0.5,3.20 €,\n${other},C,,,,\n`,
  );
  expect(preview.counts).toMatchObject({ update: 2, refused: 0 });
  await book.must('files.write', { file, preview: preview.preview });
  const read = await book.must('shelf.bottle', { id: one });
  expect(read.bottle).toMatchObject({ place: 'C', tare: 12.5, water: 0.5, price: 3.2 });
  expect(read.edits).toMatchObject([{ bottles: 2, after: { place: 'C', tare: 12.5 } }]);
  await book.must('shelf.undoChange', { edit: read.edits[0]?.id ?? 0 });
  expect((await book.must('shelf.bottle', { id: one })).bottle).toMatchObject({ place: 'A', tare: null });
  expect((await book.must('shelf.bottle', { id: other })).bottle.place).toBe('B');
  const later = await openedFile(book, `bottle,best before\n${other},2099-01-01\n`);
  const rows = await book.must('files.rows', { file: later.file, fate: 'refused', from: 0, count: 1 });
  expect(rows.rows[0]?.problems[0]?.words).toMatch(/is out of date: only a recorded test or purification/);
});

test('a shelf file carries every ledger along: what was used, undone and adjusted is there after export and import', async () => {
  const book = openBook({ empty: true });
  const { id } = await book.must('shelf.add', newBottle());
  const { line } = await book.must('shelf.move', { id, kind: 'used', change: -2, reason: 'a try' });
  await book.must('shelf.undo', { id, line });
  await book.must('shelf.move', { id, kind: 'adjusted', change: -0.5, reason: 'weighed' });
  const { text } = await book.must('shelf.export', {});
  const other = openBook({ empty: true });
  await other.must('shelf.add', newBottle({ material: { name: 'something before it' } }));
  const file = text.replaceAll(`"id": "${id}"`, '"id": "kept"');
  await other.must('shelf.import', { text: file });
  const [one, same] = [await book.must('shelf.bottle', { id }), await other.must('shelf.bottle', { id: 'kept' })];
  const plain = (lines: typeof one.ledger) =>
    lines.map(({ kind, change, reason, at, undone }) => ({ kind, change, reason, at, undone }));
  expect(plain(same.ledger)).toEqual(plain(one.ledger));
  expect(same.bottle.left).toBe(9.5);
  for (const [from, to, words] of [
    ['"left": 9.5', '"left": 9', /add up to what is left/],
    ['"change": -2', '"change": 2', /"used" takes out/],
    ['"undoes": 1', '"undoes": 0', /takes back exactly/],
    ['"change": -0.5', '"change": -50', /more is taken out/],
  ] as const) {
    const spoilt = await openBook({ empty: true }).call('shelf.import', { text: text.replace(from, to) });
    expect(spoilt).toMatchObject({ ok: false, code: 'refused' });
    expect(!spoilt.ok && spoilt.problems?.[0]?.words).toMatch(words);
  }
});
