import { describe, expect, test } from 'vitest';
import { type Form, NEAT } from '../../src/core/matter/form.ts';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import type { ChosenBatch, PaperContext } from '../../src/core/paper/context.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Charge } from '../../src/core/route/route.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { bottle, chargeOf, draw, planOf, route, step } from './build.ts';
import { demoContext } from './demo-fixture.ts';

/** Step 1 takes 1 % of a catalyst (0.84 g a mole), step 2 so little of it that no balance of the list weighs it. */
const both = route({ a: 'C6H12', b: 'C6H12', c: 'C6H12', cat: 'C6H12' }, [
  step({ id: '1', basis: 'a', product: 'b', equivalents: { cat: 0.01 } }),
  step({ id: '2', basis: 'b', product: 'c', equivalents: { cat: 0.0001 } }),
]);
/** 0.5 mol · 84.162 g/mol · 0.0001 = 4.2081 mg of it in step 2, of 98 % 4.2940 mg. */
const GOES_IN = 0.5 * 84.162 * 0.0001;
const planned = (bottles: readonly Bottle[]): PlanResult => planOf(both, [draw('c', 0.5, 'mol')], [bottle('a', 1e3), ...bottles]);
const contextOf = (result: PlanResult): PaperContext => ({
  ...demoContext,
  result,
  say: sentence,
  bench: () => [],
  cautions: () => new Map(),
});
const assay = (assayPercent: number): Form => ({ kind: 'neat', assayPercent });
const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const lineOf = (result: PlanResult) => result.fetch.find((one) => one.material === 'cat') ?? expect.fail();
const listed = (result: PlanResult, chosen: readonly ChosenBatch[]) =>
  fetchPaper(chosen, contextOf(result))
    .places.flatMap((place) => place.lines)
    .find((one) => one.material === 'cat') ?? expect.fail();
const dissolved = (result: PlanResult): number =>
  chargeOf(result, '2', 'cat').perBatch.stock?.dissolve.value ?? expect.fail('no stock solution');

describe('what goes in as a stock solution is fetched, checked and bought as what is dissolved', () => {
  const only2: readonly ChosenBatch[] = [{ step: '2', batch: 1 }];
  const all: readonly ChosenBatch[] = [{ step: '1', batch: 1 }, ...only2];

  test('the sheet says so much, and the lists ask for it', () => {
    const result = planned([bottle('cat', 5)]);
    // 2 % on 1 mg: 41 mg weighed at least, twice: √(41² + 41·√(41² + 4.2²)) = 58.1 → 60 mg.
    expect(dissolved(result)).toBe(0.06);
    const said = result.notices.find(({ code }) => code === 'weigh as a stock solution') ?? expect.fail();
    expect(plain(sentence(said))).toContain('Dissolve (or dilute) 0.060 g');
    expect(plain(sentence(said))).toMatch(/to \d\.\d{2,3} g in all, and take 0\.\d{3} g of that\.$/);
    const line = lineOf(result);
    expect(line.need.value).toBeCloseTo(0.5 * 84.162 * 0.01 + GOES_IN, 9);
    expect(line.peak.value).toBeCloseTo(0.5 * 84.162 * 0.01 + 0.06, 9);
    expect(plain(listed(result, only2).need)).toBe('0.060 g');
    expect(plain(listed(result, only2).peak)).toBe('dissolved as a stock solution; goes in: 4.21 mg');
    expect(plain(listed(result, all).need)).toBe('0.481 g');
  });

  test('of another assay it is the same that is dissolved, of two bottles together as well', () => {
    for (const bottles of [
      [bottle('cat', 5, 'g', assay(98))],
      [bottle('cat', 0.44, 'g', assay(98), { id: 'one' }), bottle('cat', 0.1, 'g', assay(100), { id: 'other' })],
    ]) {
      const result = planned(bottles);
      const ofTwo = result.fetch.flatMap((one) => (one.material === 'cat' ? one.bottles : []));
      const first = chargeOf(result, '1', 'cat').grams?.value ?? expect.fail();
      expect(ofTwo.reduce((sum, one) => sum + one.amount, 0)).toBeCloseTo(first + dissolved(result), 6);
      const { grams } = chargeOf(result, '2', 'cat');
      expect(grams?.value).toBeGreaterThan(GOES_IN);
      expect(grams?.value).toBeLessThan(GOES_IN * 1.021);
    }
  });

  test('a bottle that holds what goes in and not what is dissolved is short', () => {
    const result = planned([bottle('cat', 0.45)]);
    const line = lineOf(result);
    // 0.42081 + 0.06 − 0.45 g.
    expect(line.short?.value).toBeCloseTo(0.03081, 5);
    expect(buyingPaper(contextOf(result)).lines.map((one) => [one.material, plain(one.short)])).toEqual([['cat', '30.8 mg']]);
    // Of the second step alone there is enough.
    expect(listed(result, only2).status).toContain('enough');
    expect(plain(listed(result, only2).need)).toBe('0.060 g');
  });

  test('the sheet takes it of two bottles in parts that add up to what is dissolved', () => {
    const result = planned([bottle('cat', 0.45, 'g', NEAT, { id: 'one' }), bottle('cat', 0.1, 'g', NEAT, { id: 'other' })]);
    const entry = weighingPaper(only2, contextOf(result))
      .sheets.flatMap((sheet) => sheet.stages.flatMap(({ entries }) => entries))
      .find((one) => one.do === 'charge' && one.material === 'cat');
    const sources = entry?.do === 'charge' ? entry.sources.map((one) => plain(one.amount)) : [];
    expect(sources).toEqual(['0.029 g', '0.031 g']);
  });

  test('every batch dissolves its own', () => {
    const batched = route({ a: 'C6H12', b: 'C6H12', cat: 'C6H12' }, [
      { ...step({ id: '1', basis: 'a', product: 'b', equivalents: { cat: 0.0001 } }), batchLimit: { grams: 11, reason: 'own' } },
    ]);
    const result = planOf(batched, [draw('b', 0.5, 'mol')], [bottle('a', 1e3), bottle('cat', 5)]);
    const { count } = result.steps[0]?.batches ?? expect.fail();
    const each = chargeOf(result, '1', 'cat').perBatch.stock?.dissolve.value ?? expect.fail();
    expect(count).toBe(4);
    expect(lineOf(result).peak.value).toBeCloseTo(4 * each, 9);
    expect(plain(listed(result, [{ step: '1', batch: 2 }]).need)).toBe(`${each.toFixed(3)} g`);
  });
});

describe('what is said of too little', () => {
  const seeded = (amount: number, more: Partial<Charge> = {}) => {
    const seed = { do: 'charge', id: 'seed', stage: 'purification', material: 'b', ...more } as const;
    const one = step({
      id: '1',
      basis: 'a',
      product: 'b',
      more: [{ ...seed, rule: { kind: 'per batch', amount, unit: 'g' } } as const],
    });
    const result = planOf(route({ a: 'C6H12', b: 'C6H12' }, [one]), [draw('b', 40)]);
    const said = result.notices.filter(({ code, at }) => code === 'too little to weigh' && at.operation === 'seed');
    return said.map((notice) => plain(sentence(notice))).join(' ');
  };

  test('a seed is a fixed amount: a larger batch takes no more of it, and is not proposed', () => {
    expect(seeded(0.01)).not.toContain('larger batches');
    expect(seeded(0.01)).toContain('10.00 mg is less than the analytical balance weighs within ±2.00 % (41.0 mg)');
    expect(seeded(0.01)).toContain('a wider accepted range');
  });
  test('what is proposed helps: a wider range, a larger amount', () => {
    expect(seeded(0.01, { tolerancePercent: 10 })).toBe('');
    expect(seeded(0.05)).toBe('');
  });
});

describe('in portions', () => {
  test('one solution holds enough for all of them', () => {
    const { materials } = both;
    const cat = { do: 'charge', id: 'cat', stage: 'reaction', material: 'cat', portions: 8 } as const;
    const one = step({
      id: '1',
      basis: 'a',
      product: 'b',
      more: [{ ...cat, rule: { kind: 'equivalents', equivalents: 0.005 } } as const],
    });
    const result = planOf(route(materials, [one]), [draw('b', 0.5, 'mol')], [bottle('a', 1e3), bottle('cat', 5)]);
    const charge = chargeOf(result, '1', 'cat');
    const stock = charge.perBatch.stock ?? expect.fail();
    expect(stock.take.value * 8).toBeLessThanOrEqual(stock.total.value * (1 + 1e-9));
    const said = result.notices.find(({ code }) => code === 'weigh as a stock solution') ?? expect.fail();
    expect(plain(sentence(said))).toMatch(/of that for each portion\.$/);
  });
});
