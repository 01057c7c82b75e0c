import { describe, expect, test } from 'vitest';
import { readBalanceText } from '../../src/core/run/balance-text.ts';
import { reference } from '../reference/tables.ts';

const table = reference.rows.balanceTexts;
const read = (text: string, asked: 'g' | 'mL' = 'g') => {
  const got = readBalanceText(text, asked, table);
  return got.ok ? [got.what, got.amount, got.unit, got.decimals] : got.why.code;
};

describe('what balances type', () => {
  test.each([
    ['+  12.345 g', ['net', 12.345, 'g', 3]],
    ['12,345 g S', ['net', 12.345, 'g', 3]],
    ['ST,+00012.34  g', ['net', 12.34, 'g', 2]],
    ['ST,GS,+00012.34  g', ['gross', 12.34, 'g', 2]],
    ['S S     12.3450 g', ['net', 12.345, 'g', 4]],
    ['N  +  12.345 g', ['net', 12.345, 'g', 3]],
    ['Tare: 10.123 g', ['tare', 10.123, 'g', 3]],
    ['G 22.468 g', ['gross', 22.468, 'g', 3]],
    ['   250.0 mg  ', ['net', 0.25, 'g', 4]],
    ['1.2345 kg', ['net', 1234.5, 'g', 1]],
    ['12.345', ['net', 12.345, 'g', 3]],
    ['1,234 g', ['net', 1.234, 'g', 3]],
    ['40 mL', ['net', 40, 'mL', 0]],
    ['1.5 L', ['net', 1500, 'mL', 0]],
    ['T 0.000 g', ['tare', 0, 'g', 3]],
    ['12.34[5] g', ['net', 12.345, 'g', 3]],
    ['\u000212.345 g\u0003\r', ['net', 12.345, 'g', 3]],
    ['PT 10.0 g', ['tare', 10, 'g', 1]],
  ])('%s', (text, expected) => expect(read(text)).toEqual(expected));

  test('a bare number is in the unit that is asked for', () => {
    expect(read('40', 'mL')).toEqual(['net', 40, 'mL', 0]);
  });

  test.each([
    ['12.345 g D', 'balance unstable'],
    ['US,+00012.34  g', 'balance unstable'],
    ['S D     12.345 g', 'balance unstable'],
    ['12.345 ?', 'balance unstable'],
    ['?12.345 g', 'balance unstable'],
    ['~ 12.345 g', 'balance unstable'],
    ['12.345 g12.346 g', 'reading not understood'],
    ['12.345 g 12.346 g', 'reading not understood'],
    ['+ 12.345 g+ 12.345 g', 'reading not understood'],
    ['4006381333931', 'reading not understood'],
    ['UNDERLOAD', 'balance overloaded'],
    ['ST,NT,-00012.34  g', 'reading below zero'],
    ['5 pcs', 'reading not understood'],
    ['-  0.012 g', 'reading below zero'],
    ['0.000 g', 'reading is zero'],
    ['2000 kg', 'reading too large'],
    ['2000000', 'reading too large'],
    ['OL', 'balance overloaded'],
    ['-------', 'balance overloaded'],
    ['', 'reading empty'],
    ['12.3.4 g', 'reading not understood'],
    ['1,234.5 g', 'reading not understood'],
    ['12.345 lb', 'reading not understood'],
    ['B-40', 'reading not understood'],
    ['1e9999 g', 'reading not understood'],
    ['x'.repeat(5000), 'reading not understood'],
  ])('%s is refused', (text, code) => expect(read(text)).toBe(code));

  test('every example of the table is read', () => {
    for (const { example } of table.forms) {
      expect(['net', 'gross', 'balance unstable'], example).toContain([read(example)].flat()[0]);
    }
  });
});
