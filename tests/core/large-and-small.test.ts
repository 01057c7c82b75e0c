import { describe, expect, test } from 'vitest';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { rangeText } from '../../src/core/paper/amounts.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { formatAmount } from '../../src/core/quantity/format.ts';
import { parseQuantity } from '../../src/core/quantity/parse.ts';
import { readingParts } from '../../src/core/quantity/reading.ts';
import { planText } from '../../src/core/words/plan-text.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { demoContext, demoInput } from './demo-fixture.ts';

// A microgram and a hundred tonnes of the ready example: every list names its amounts in the unit the trade would.

const draws = (grams: number) => [{ id: 'd', material: 'benzil', amount: grams, unit: 'g' as const }];
const planned = (grams: number) => plan({ ...demoInput, ask: { name: 'a plan', draws: draws(grams) }, shelf: EMPTY_SHELF });

/** Everything that the plan's text, one sheet of each step and the fetch list say. */
function saidOf(grams: number): readonly string[] {
  const result = planned(grams);
  const batches = result.steps.filter((one) => one.active).map((one) => ({ step: one.id, batch: 1 }));
  const context = { ...demoContext, result };
  const text = planText(result, { kind: 'unknown' }, () => []);
  const strings = (value: unknown): readonly string[] =>
    typeof value === 'string'
      ? [value]
      : value !== null && typeof value === 'object'
        ? Object.values(value).flatMap(strings)
        : [];
  return [...text.split('\n'), ...strings(weighingPaper(batches, context)), ...strings(fetchPaper(batches, context))];
}

const LONG = /(?<![\d.,])\d{5,}(?:[.,]\d+)?[\s\u00a0](?:g|mL|kg|L|mol|mmol)(?![\p{L}/])/u;
/** A balance shows its milligrams as 0.003 g; anything finer, and what was not weighed, is named in its own unit. */
const SHORT = /(?<![\d.])0[.,]0(?:0\d{3,}|\d*[\s\u00a0](?:mol|L|kg))[\s\u00a0]?(?![\p{L}/])/u;

describe('units of very large and very small amounts', () => {
  test.each([1e-6, 1, 1e5, 1e8])('%f g: no list counts zeros', (grams) => {
    expect(saidOf(grams).filter((one) => LONG.test(one) || SHORT.test(one))).toEqual([]);
  });

  test('100 t: 100 t ÷ 0.92 ÷ 0.55 × 212.12/210.23 of benzaldehyde, in every list', () => {
    // 1e8 g ÷ 210.232 ÷ 0.92 ÷ 0.55 × 2 × 106.124 = 199.52 t, in 1000 batches of 199.52 kg.
    const said = saidOf(1e8).join('\n');
    expect(said).toContain('199.5 t of benzaldehyde');
    expect(said).toContain('199.524 t (1000 × 199.524 kg)');
    const target = weighingPaper([{ step: 'benzoin', batch: 1 }], { ...demoContext, result: planned(1e8) })
      .sheets.flatMap((one) => one.stages)
      .flatMap((one) => one.entries)
      .find((one) => one.do === 'charge' && one.targetUnit === 'kg' && one.targetText === '199.524');
    expect(target).toMatchObject({ targetText: '199.524', targetUnit: 'kg', unit: 'g' });
  });

  test.each([
    [9999, 'g', 1, '9999.0 g'],
    [10_000, 'g', 0, '10.000 kg'],
    [32_025_000, 'g', 0, '32.025 t'],
    [12_340, 'mL', 0, '12.340 L'],
    [379_090_000, 'mL', 0, '379.090 m³'],
    [31_704.54, 'g', 2, '31.7045 kg'],
    [0.000_003_05, 'g', 8, '3.05 µg'],
  ] as const)('a reading of %f %s', (value, unit, decimals, expected) => {
    const { text, unit: shown } = readingParts(value, unit, decimals, '.');
    expect(`${text} ${shown}`).toBe(expected);
  });

  test('of an intermediate that goes in whole there is no more for a stock solution: it is told as too little', () => {
    const codes = planned(1e-6).steps.map((one) => one.notices.map(({ code, values }) => `${code}: ${values.material}`));
    expect(codes.flat()).toContain('too little to weigh: benzoin');
    expect(codes.flat()).not.toContain('weigh as a stock solution: benzoin');
    expect(codes.flat()).toContain('weigh as a stock solution: benzaldehyde');
  });

  test('an accepted range is read beside its target, also where its lower end is below the next unit', () => {
    expect(rangeText(9900, 10_100, { unit: 'g', decimals: 0, target: 10_000 }, '.')).toBe('9.900–10.100');
    expect(rangeText(9990, 10_010, { unit: 'g', decimals: 0, target: 9999 }, '.')).toBe('9990–10010');
  });

  test('what must not be less is not rounded up to what a balance shows first: 6.17 µg of nitric acid, not 1 mg', () => {
    // 1 µg ÷ 210.23 ÷ 0.92 × 12.87 × 63.01 ÷ 0.68 = 6.17 µg.
    const acid = planned(1e-6)
      .steps.flatMap((one) => one.operations)
      .find((one) => one.kind === 'charge' && one.material === 'nitric-acid');
    expect(acid?.kind === 'charge' && acid.perBatch.target).toBeCloseTo(6.17e-6, 8);
    expect(acid?.kind === 'charge' && acid.perBatch.equivalents).toBeCloseTo(12.87, 1);
  });

  test('what is shown can be typed again', () => {
    for (const [value, unit] of [
      [1e8, 'g'],
      [1e8, 'mL'],
      [1e5, 'mol'],
      [4e-9, 'mol'],
      [4e-9, 'mL'],
      [4e-9, 'g'],
    ] as const) {
      const shown = formatAmount({ value, unit, digits: 4 });
      const read = parseQuantity(`${shown.text} ${shown.unit}`);
      expect(read.ok && read.base).toBeCloseTo(value, 6);
    }
  });
});
