import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { celsiusText, percentText } from '../../src/core/paper/amounts.ts';
import { formatAmount, formatDecimals, formatSignificant, groupedDigits } from '../../src/core/quantity/format.ts';
import { parseQuantity } from '../../src/core/quantity/parse.ts';
import { decimalsOf, roundTo } from '../../src/core/quantity/round.ts';

describe('quantities as typed', () => {
  test.each([
    ['12.5 mL', 12.5, 'mL', 12.5],
    ['250 mg', 250, 'mg', 0.25],
    ['0.2 mol', 0.2, 'mol', 0.2],
    ['180 mmol', 180, 'mmol', 0.18],
    ['1,5 g', 1.5, 'g', 1.5],
    ['2.5 M', 2.5, 'mol/L', 2.5],
    ['15 % w/w', 15, '% w/w', 15],
    ['  25g ', 25, 'g', 25],
    ['1e-3 kg', 0.001, 'kg', 1],
    ['5 μL', 5, 'µL', 0.005],
    ['500 mM', 500, 'mmol/L', 0.5],
    ['20% (w/w)', 20, '% w/w', 20],
    ['5 (w/v) %', 5, '% w/v', 5],
    ['12 % W/W', 12, '% w/w', 12],
    ['32 wt. %', 32, '% w/w', 32],
    ['3 mol/dm³', 3, 'mol/L', 3],
    ['8 g/100 mL', 8, '% w/v', 8],
    ['40 mg/mL', 40, 'g/L', 40],
  ])('%s', (text, value, unit, base) => {
    expect(parseQuantity(text)).toMatchObject({ ok: true, value, unit });
    const parsed = parseQuantity(text);
    expect(parsed.ok && parsed.base).toBeCloseTo(base, 12);
  });
  test('3 × 40 mL is three portions', () => {
    expect(parseQuantity('3 × 40 mL')).toMatchObject({ ok: true, value: 40, portions: 3, unit: 'mL' });
  });
  test.each([
    ['', 0],
    ['g', 0],
    ['25', 2],
    ['25 gg', 3],
    ['1,234 g', 1],
    ['1.2.3 g', 3],
    ['-4 g', 0],
    ['15 %', 3],
    ['25 constructor', 3],
    ['1e999 g', 0],
  ])('%j is refused at character %d', (text, at) => {
    expect(parseQuantity(text)).toMatchObject({ ok: false, at });
  });
  test('any text gives an answer with its place inside the text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const parsed = parseQuantity(text);
        if (!parsed.ok) expect(parsed.at).toBeLessThanOrEqual(text.length);
        else expect(Number.isFinite(parsed.base)).toBe(true);
      }),
      { numRuns: 10_000 },
    );
  });
});

describe('numbers as shown', () => {
  test.each([
    [36.2345, 3, '36.2'],
    [0.0012345, 3, '0.00123'],
    [9.996, 3, '10.0'],
    [123456, 3, '123000'],
    [0, 3, '0'],
    [20, 3, '20.0'],
  ])('%d with %d digits is %s', (value, digits, text) => {
    expect(formatSignificant(value, digits)).toBe(text);
  });
  test('amounts choose their unit', () => {
    expect(formatAmount({ value: 0.0939, unit: 'mol', digits: 4 })).toEqual({ text: '93.9', unit: 'mmol' });
    expect(formatAmount({ value: 0.341, unit: 'mol', digits: 4 })).toEqual({ text: '341', unit: 'mmol' });
    expect(formatAmount({ value: 19.934, unit: 'g', digits: 5 })).toEqual({ text: '19.93', unit: 'g' });
    expect(formatAmount({ value: 12_345, unit: 'mL', digits: 5 })).toEqual({ text: '12.35', unit: 'L' });
  });
});

describe('rounding to readability', () => {
  test.each([
    [19.9349, 0.01, 19.93],
    [0.30000000000000004, 0.1, 0.3],
    [149.2, 0.5, 149],
    [1234, 5, 1235],
  ])('%d to %d is %d', (value, step, rounded) => {
    expect(roundTo(value, step)).toBe(rounded);
  });
  test('is within half a step and prints exactly', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        fc.constantFrom(0.0001, 0.001, 0.01, 0.1, 0.5, 1, 5),
        (value, step) => {
          const rounded = roundTo(value, step);
          expect(Math.abs(rounded - value)).toBeLessThanOrEqual(step * 0.5 + 1e-9 * value);
          expect(Number(rounded.toFixed(decimalsOf(step)))).toBe(rounded);
        },
      ),
    );
  });
});

test('a small heat is in joules: nobody counts zeros', () => {
  expect(formatAmount({ value: 0.000571, unit: 'kJ', digits: 3 })).toEqual({ text: '0.571', unit: 'J' });
  expect(formatAmount({ value: 0.877, unit: 'kJ', digits: 3 })).toEqual({ text: '0.877', unit: 'kJ' });
});

test('a figure below zero has a true minus sign', () => {
  expect([formatSignificant(-2.71049, 3), formatSignificant(-0.5, 2, ','), formatDecimals(-2.5, 2)]).toEqual([
    '−2.71',
    '−0,50',
    '−2.50',
  ]);
  expect(formatAmount({ value: -0.0123, unit: 'g', digits: 3 })).toEqual({ text: '−12.3', unit: 'mg' });
  expect([percentText(-12.34, '.'), celsiusText(-5, ',')]).toEqual(['−12.3\u00a0%', '−5\u00a0°C']);
});

test('a large number in a sentence has its digits in groups of three, a small one and decimals none', () => {
  const shown = [1e6, 2_500_000, 12_345.6789, 9999, 0.00001234, -1e6].map((one) => groupedDigits(one).replaceAll('\u202f', ' '));
  expect(shown).toEqual(['1 000 000', '2 500 000', '12 345.6789', '9999', '0.00001234', '-1 000 000']);
});
