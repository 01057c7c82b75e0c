import * as fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { csvText, unguarded } from '../../src/main/files/write-csv.ts';
import { openedFile } from './file-fixture.ts';
import { openBook } from './workbook-fixture.ts';

const readBack = (text: string): readonly (readonly string[])[] =>
  Papa.parse<string[]>(text.replace(/^\ufeff/, '').replace(/\r\n$/, ''), { newline: '\r\n' }).data;

describe('a table as CSV', () => {
  // What a spreadsheet takes for a formula by its first sign. Source: OWASP, "CSV Injection" (from memory).
  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1', '\n=1', '＝1', "'=1", "''-1"])(
    '%j is guarded, and comes back',
    (text) => {
      const [[, cell] = []] = readBack(csvText(['a', 'b'], [['x', text]])).slice(1);
      expect(cell).toBe(`'${text}`);
      expect(unguarded(cell ?? '')).toBe(text);
    },
  );

  test.each(["it's", "'quoted'", 'a=b', '1-2', '', ' =1'])('%j is left as it is', (text) => {
    const [[, cell] = []] = readBack(csvText(['a', 'b'], [['x', text]])).slice(1);
    expect(cell).toBe(text);
  });

  test('a number is none, whatever its sign, and never has an exponent', () => {
    expect(csvText(['a', 'b'], [[-5, 1e-9]])).toBe('\ufeffa,b\r\n-5,0.000000001\r\n');
  });

  test('quotes, separators and line ends inside a field stay in it', () => {
    const text = 'say "x", then;\r\nnext\nlast\r';
    expect(readBack(csvText(['a'], [[text], ['b']]))).toEqual([['a'], [text], ['b']]);
    expect(csvText(['a'], [['say "x"']])).toContain('"say ""x"""');
  });

  test('a heading that came with a file is guarded too', () => {
    expect(csvText(['=cmd()', 'b'], [])).toMatch(/^\ufeff'=cmd\(\),b\r\n/);
  });

  test('any table comes back cell by cell, and no cell of it begins as a formula does', () => {
    const cell = fc.oneof(fc.string({ unit: 'binary' }), fc.constantFrom('=', "'", '"', '\r\n', ',', "'+"));
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1, maxLength: 5 }), (rows) => {
        const back = readBack(csvText(['a', 'b'], rows)).slice(1);
        expect(back.map((row) => row.map(unguarded))).toEqual(rows);
        expect(back.flat().filter((one) => /^[=+\-@\t\r\n]/.test(one))).toEqual([]);
      }),
    );
  });
});

test('refused rows go out guarded, heading and cell', async () => {
  const book = openBook({ empty: true });
  const { file } = await openedFile(book, 'material,left,=HYPERLINK("x")\nbenzil,none,=1+1\n');
  const { text } = await book.must('files.refused', { file });
  expect(text).toContain(`"'=HYPERLINK(""x"")"`);
  expect(text).toContain(`'=1+1`);
});
