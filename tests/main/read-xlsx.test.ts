import { type CellObject, type Range, utils, write, type WorkBook } from '@e965/xlsx';
import { expect, test } from 'vitest';
import { openWorkbook } from '../../src/main/files/read-xlsx.ts';
import { xlsxBytes } from '../../src/main/files/write-xlsx.ts';

// Workbooks as another program writes them, and ours as another program reads them.

function bookOf(
  rows: readonly (readonly (CellObject | string | number | null)[])[],
  more: Partial<WorkBook> = {},
  merges: Range[] = [],
): Uint8Array {
  const sheet = utils.aoa_to_sheet(
    rows.map((row) => row.map((cell) => (cell !== null && typeof cell === 'object' ? { ...cell } : cell))),
  );
  sheet['!merges'] = merges;
  const book: WorkBook = { ...utils.book_new(), ...more };
  utils.book_append_sheet(book, sheet, 'stock');
  return new Uint8Array(write(book, { type: 'array', bookType: 'xlsx' }) as ArrayBuffer);
}

async function cellsOf(bytes: Uint8Array, sheet = 0) {
  return (await openWorkbook(bytes)).rows(sheet);
}

/** 4 March 2027 as a serial day, from 1900 and from 1904. */
const DAY = 46_450;
const DAY_1904 = DAY - 1462;

test('cells are read as they are shown: days, percents, units in the format, grouped thousands, plain numbers in full', async () => {
  const rows = await cellsOf(
    bookOf([
      [
        { t: 'n', v: DAY, z: 'yyyy-mm-dd' },
        { t: 'n', v: DAY + 0.75, z: 'd/m/yy h:mm' },
        { t: 'n', v: 0.985, z: '0.0%' },
        { t: 'n', v: 12.5, z: '0.0" g"' },
        { t: 'n', v: 1234.5, z: '#,##0.00' },
        { t: 'n', v: 0.1 + 0.2 },
        { t: 'n', v: 1e-7 },
        { t: 's', v: '007' },
        { t: 'b', v: true },
        { t: 'n', v: 12.346, z: '0.00' },
      ],
    ]),
  );
  expect(rows[0]?.cells).toEqual(['2027-03-04', '2027-03-04', '98.5%', '12.5 g', 1234.5, 0.1 + 0.2, 1e-7, '007', 'yes', 12.35]);
  expect(rows[0]?.problems).toEqual([]);
});

test('a number shown with zeros in front keeps them: it is a label', async () => {
  const rows = await cellsOf(
    bookOf([
      [
        { t: 'n', v: 12, z: '00000' },
        { t: 'n', v: 0, z: '0' },
        { t: 'n', v: 0.5, z: '0.00' },
      ],
    ]),
  );
  expect(rows[0]?.cells).toEqual(['00012', 0, 0.5]);
});

test('a cell merged with one above is said: its value stands in the first row alone', async () => {
  const sheet = bookOf(
    [
      ['benzil', '1 g', 'fridge'],
      ['toluene', '2 g'],
      ['x', '3 g', 'y'],
    ],
    {},
    [{ s: { r: 0, c: 2 }, e: { r: 1, c: 2 } }],
  );
  const rows = await cellsOf(sheet);
  expect(rows.map((row) => row.problems.map((one) => [one.column, one.words]))).toEqual([
    [],
    [[2, 'this cell is merged with the one in row 1: write its value in every row']],
    [],
  ]);
});

test('days of a workbook that counts from 1904', async () => {
  const rows = await cellsOf(bookOf([[{ t: 'n', v: DAY_1904, z: 'yyyy-mm-dd' }]], { Workbook: { WBProps: { date1904: true } } }));
  expect(rows[0]?.cells).toEqual(['2027-03-04']);
});

test('a number shown as another one is asked about, and so is an error', async () => {
  const rows = await cellsOf(
    bookOf([
      ['benzil', { t: 'n', v: 2.5, z: '0' }],
      ['benzil', { t: 'n', v: 0.3, z: '0' }],
      ['benzil', { t: 'e', v: 0x07, w: '#DIV/0!' }],
      ['benzil', { t: 'n', v: 999.9, z: '0' }],
    ]),
  );
  expect(rows.map((row) => row.problems.map((one) => [one.column, one.words]))).toEqual([
    [[1, 'the cell shows 3 but holds 2.5: which of them is it? Write it out']],
    [[1, 'the cell shows 0 but holds 0.3: which of them is it? Write it out']],
    [[1, 'the cell holds an error (#DIV/0!)']],
    [],
  ]);
});

test('a day before a sheet’s first or behind its last is told, never left out', async () => {
  const days = [-1, 1e9, 2_958_465].map((v) => ({ t: 'n', v, z: 'dd/mm/yyyy' }) as const);
  const [row] = await cellsOf(bookOf([days]));
  expect(row?.cells).toEqual([-1, 1e9, '9999-12-31']);
  expect(row?.problems.map((one) => [one.column, one.words])).toEqual([
    [0, 'the cell is formatted as a day but holds -1, which is none: a sheet shows ##### for it'],
    [1, 'the cell is formatted as a day but holds 1000000000, which is none: a sheet shows ##### for it'],
  ]);
});

test('empty rows and columns between keep their places; the sheets are told by name', async () => {
  const book = utils.book_new();
  utils.book_append_sheet(book, utils.aoa_to_sheet([]), 'empty');
  utils.book_append_sheet(book, utils.aoa_to_sheet([['a'], [], [null, null, 'c']]), 'second');
  const opened = await openWorkbook(new Uint8Array(write(book, { type: 'array', bookType: 'xlsx' }) as ArrayBuffer));
  expect(opened.sheets).toEqual(['empty', 'second']);
  expect(opened.rows(0)).toEqual([]);
  expect(opened.rows(1).map((row) => [row.number, row.cells])).toEqual([
    [1, ['a']],
    [3, ['', '', 'c']],
  ]);
});

test('what we write, another program reads: numbers as numbers, text as text, nothing as a formula', async () => {
  const texts = ['=1+1', '+49', '@x', '007', '1e5', 'TRUE', ' a ', 'a\nb', '<&>"', '_x0041_', '_x005F_', 'é真😀', '\u0001'];
  const numbers = [0, 1e-6, 0.1 + 0.2, 123_456_789.123456, 1e21];
  const { read } = await import('@e965/xlsx');
  const book = read(xlsxBytes([{ name: 'one & "two"', headings: ['a', 'b'], rows: [texts, numbers] }]), { cellFormula: true });
  const sheet = book.Sheets['one & "two"'] ?? {};
  const shown = utils.sheet_to_json<unknown[]>(sheet, { header: 1, raw: true });
  expect(shown).toEqual([['a', 'b'], texts, numbers]);
  expect(Object.values(sheet).filter((cell: CellObject) => cell.f !== undefined)).toEqual([]);
  expect((await cellsOf(xlsxBytes([{ name: 'x', headings: ['a'], rows: [texts, numbers] }]))).map((row) => row.cells)).toEqual([
    ['a'],
    texts,
    numbers,
  ]);
});

test('how far a sheet is read is told while it is read, and it can be stopped there', async () => {
  const rows = Array.from({ length: 12_000 }, (_, at) => [`L${at}`, 'benzil', at + 1]);
  const book = await openWorkbook(xlsxBytes([{ name: 'stock', headings: ['bottle', 'material', 'left (g)'], rows }]));
  const told: number[] = [];
  const read = book.rows(0, { step: (done, of) => told.push(done / of) });
  expect(read).toHaveLength(12_001);
  expect(told).toEqual(told.toSorted((one, other) => one - other));
  // Half of it while the reader goes through the sheet, the rest while its cells are taken over.
  expect(told.filter((part) => part < 0.5).length).toBeGreaterThan(10);
  expect(told.every((part) => part >= 0 && part <= 1)).toBe(true);
  const stop = new Error('stop');
  const stopAt = (part: number) => () =>
    book.rows(0, {
      step: (done, of) => {
        if (done / of > part) throw stop;
      },
    });
  expect(stopAt(0.2)).toThrow(stop);
  expect(stopAt(0.8)).toThrow(stop);
});
