import { describe, expect, test } from 'vitest';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { bottle, draw, planOf, route, step, stepOf } from './build.ts';

// a → b → c, every yield 80 %, all molar masses alike: 20 g of c asks for 25 g of b and 31.25 g of a.
const FORMULA = 'C6H6';
const chain = route({ a: FORMULA, b: FORMULA, c: FORMULA }, [
  step({ id: 'ab', basis: 'a', product: 'b', yieldPercent: 80 }),
  step({ id: 'bc', basis: 'b', product: 'c', yieldPercent: 80 }),
]);
const AT = '2027-02-25T09:00:00.000Z';
const made = (material: string, grams: number, left = grams, more: Partial<Bottle> = {}): Bottle =>
  bottle(
    material,
    left,
    'g',
    { kind: 'neat' },
    {
      ledger: [
        { kind: 'made', change: grams, reason: 'run 1', at: AT },
        ...(left === grams ? [] : [{ kind: 'used' as const, change: left - grams, reason: 'run 2', at: AT }]),
      ],
      ...more,
    },
  );
const planned = (bottles: readonly Bottle[], grams = 20) => planOf(chain, [draw('c', grams)], [bottle('a', 100), ...bottles]);
const running = (bottles: readonly Bottle[], grams = 20) =>
  planned(bottles, grams)
    .steps.filter((one) => one.active)
    .map((one) => one.id);

describe('what runs made and lacks less than a sheet shows', () => {
  test('19.96 g of 20 g: 40 mg, 0.2004 % of what was made; no batch, and it is said', () => {
    const result = planned([made('c', 19.96)]);
    expect(result.steps.filter((one) => one.active)).toEqual([]);
    const said = result.notices.find((one) => one.code === 'near enough');
    expect(said?.values).toMatchObject({ material: 'c', unit: 'g' });
    expect(said?.values['amount']).toBeCloseTo(0.04, 9);
    expect(said?.values['percent']).toBeCloseTo(0.2004008, 6);
    expect(sentence(said as never)).toContain('40.0 mg c is lacking, 0.200 % of what its runs made');
    expect(result.notices.filter((one) => one.code === 'left short')).toEqual([]);
  });

  test('more than half a unit in the third figure is made: 19.94 g lacks 60 mg', () => {
    const result = planned([made('c', 19.94)]);
    expect(stepOf(result, 'bc').product.grams.value).toBeCloseTo(0.06, 9);
    expect(result.notices.filter((one) => one.code === 'near enough')).toEqual([]);
  });

  test('a bought bottle that lacks as little is made up to what is asked', () => {
    expect(running([bottle('c', 19.96)])).toEqual(['ab', 'bc']);
  });

  test('an intermediate: the step after it runs on what there is, and the sheet takes no more than the bottle holds', () => {
    const result = planned([made('b', 24.99)]);
    expect(result.steps.filter((one) => one.active).map((one) => one.id)).toEqual(['bc']);
    expect(stepOf(result, 'bc').basis.grams.value).toBeCloseTo(25, 9);
    const line = result.fetch.find((one) => one.material === 'b');
    expect(line?.bottles[0]?.amount).toBeCloseTo(24.99, 9);
    expect(line?.short).toBeNull();
  });

  test('what it lacks counts against all that was made, not against what is left: 12.49 g left of 25 g', () => {
    // The second of two batches: 10 g of c are there, 12.5 g of b go into the rest.
    expect(running([made('c', 10), made('b', 25, 12.49)])).toEqual(['bc']);
  });

  test('a weighing that was undone made nothing', () => {
    const undone = { kind: 'undone' as const, change: -19.96, reason: '', at: AT, undoes: 0 };
    const again = { kind: 'received' as const, change: 19.96, reason: '', at: AT };
    const { ledger = [] } = made('c', 19.96);
    expect(running([bottle('c', 19.96, 'g', { kind: 'neat' }, { ledger: [...ledger, undone, again] })])).toEqual(['ab', 'bc']);
  });

  test('asking for more plans it', () => {
    expect(running([made('c', 19.96)], 20.5)).toEqual(['ab', 'bc']);
  });
});
