import { type CellObject, utils, write, type WorkBook } from '@e965/xlsx';
import { expect, test } from 'vitest';
import { openWorkbook } from '../../src/main/files/read-xlsx.ts';
import { xlsxBytes } from '../../src/main/files/write-xlsx.ts';

// Workbooks as another program writes them, and ours as another program reads them.

function bookOf(rows: readonly (readonly (CellObject | string | number | null)[])[], more: Partial<WorkBook> = {}): Uint8Array {
  const sheet = utils.aoa_to_sheet(
    rows.map((row) => row.map((cell) => (cell !== null && typeof cell === 'object' ? { ...cell } : cell))),
  );
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
