import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { limitsOn, mostTarget } from '../../src/core/plan/forward/most-target.ts';
import type { PlanInput } from '../../src/core/plan/input.ts';
import type { Draw } from '../../src/core/plan/ask.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Route } from '../../src/core/route/route.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { mostTargetWords } from '../../src/core/words/most-target-words.ts';
import { reference } from '../reference/tables.ts';
import { cases } from '../cases.ts';
import { bottle, draw, route, settings, shelfOf, step, TODAY } from './build.ts';

// All materials are C6H6, 78.114 g/mol (CIAAW 2021), so that grams and moles are in one proportion.
const materials = { a: 'C6H6', b: 'C6H6', c: 'C6H6', d: 'C6H6', e: 'C6H6' };
const M = 78.114;

const inputOf = (one: Route, draws: readonly Draw[], bottles: readonly Bottle[]): PlanInput => ({
  route: one,
  ask: { name: 'a plan', draws: [...draws] },
  shelf: shelfOf(one, bottles),
  settings,
  reference,
  asOf: TODAY,
});

/** a → b (80 %) → c (50 %), the second step with 2 mol of e per mol of b. */
const chain = route(materials, [
  step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
  step({ id: '2', basis: 'b', product: 'c', yieldPercent: 50, equivalents: { e: 2 } }),
]);

describe('the most that stock allows', () => {
  test('a chain multiplies by its yields; the bottleneck is named, and what more of it brings', () => {
    const input = inputOf(chain, [draw('c', 1)], [bottle('a', 100), bottle('e', 200)]);
    expect(limitsOn(input).map((limit) => [limit.material, limit.onHand])).toEqual([
      ['a', 100],
      ['e', 200],
    ]);
    const most = mostTarget(input, 'draw-c', new Set(['a', 'e']));
    if (most.kind !== 'most') throw new Error(most.kind);
    // 100 g of a give 80 g of b and 40 g of c; 200 g of e serve 100 g of b and 50 g of c.
    expect(most.grams.value).toBeCloseTo(40, 9);
    expect(most.bottleneck).toMatchObject({ material: 'a', thenMaterial: 'e' });
    expect(most.bottleneck.perUnit).toBeCloseTo(0.4, 9);
    expect(most.bottleneck.thenGrams).toBeCloseTo(50, 9);
    expect(most.bottleneck.more).toBeCloseTo(25, 9);
  });

  test('only what is chosen limits; with nothing chosen there is no limit', () => {
    const input = inputOf(chain, [draw('c', 1)], [bottle('a', 100), bottle('e', 200)]);
    const most = mostTarget(input, 'draw-c', new Set(['e']));
    expect(most.kind === 'most' && most.grams.value).toBeCloseTo(50, 9);
    expect(mostTarget(input, 'draw-c', new Set())).toEqual({ kind: 'no limit' });
  });

  test('stock of the target that is not as pure as its draw asks for does not add to it', () => {
    const bottles = [bottle('a', 100), bottle('e', 2000), bottle('c', 30, 'g', { kind: 'neat', assayPercent: 90 })];
    const most = (leastAssayPercent: number) =>
      mostTarget(inputOf(chain, [draw('c', 1, 'g', { leastAssayPercent })], bottles), 'draw-c', new Set(['a']));
    const [pure, any] = [most(98), most(0)];
    expect(pure.kind === 'most' && pure.grams.value).toBeCloseTo(40, 9);
    expect(any.kind === 'most' && any.grams.value).toBeCloseTo(40 + 27, 9);
  });

  test('stock of an intermediate and of the target adds to it', () => {
    const bottles = [bottle('a', 100), bottle('e', 2000), bottle('b', 20), bottle('c', 3)];
    const most = mostTarget(inputOf(chain, [draw('c', 1)], bottles), 'draw-c', new Set(['a']));
    expect(most.kind === 'most' && most.grams.value).toBeCloseTo((80 + 20) / 2 + 3, 9);
  });

  test('other draws are met first; where they cannot be, that is said', () => {
    const input = inputOf(chain, [draw('c', 1), draw('b', 30)], [bottle('a', 100)]);
    const most = mostTarget(input, 'draw-c', new Set(['a']));
    expect(most.kind === 'most' && most.grams.value).toBeCloseTo((80 - 30) / 2, 9);
    const hopeless = inputOf(chain, [draw('c', 1), draw('b', 90)], [bottle('a', 100)]);
    expect(mostTarget(hopeless, 'draw-c', new Set(['a']))).toEqual({ kind: 'nothing', material: 'a' });
  });

  test('what is charged once a batch is taken off first', () => {
    const rinse = step({
      id: '1',
      basis: 'a',
      product: 'b',
      more: [{ do: 'charge', id: 'r', stage: 'work-up', material: 'a', rule: { kind: 'per batch', amount: 5, unit: 'g' } }],
    });
    const most = mostTarget(inputOf(route(materials, [rinse]), [draw('b', 1)], [bottle('a', 100)]), 'draw-b', new Set(['a']));
    expect(most.kind === 'most' && most.grams.value).toBeCloseTo(95, 9);
  });

  test('too little for another batch is what limits, though some of everything is left', () => {
    // 10 g of a batch, 5 g of rinse each: 23 g are four batches, 40 g of a, 32 g of b at 80 %. A fifth takes 2 g more; 100 g of a are
    // ten batches, 80 g, and 50 g of rinse.
    const rinsed = step({
      id: '1',
      basis: 'a',
      product: 'b',
      yieldPercent: 80,
      more: [{ do: 'charge', id: 'r', stage: 'work-up', material: 'e', rule: { kind: 'per batch', amount: 5, unit: 'g' } }],
      extra: { batchLimit: { grams: 10, reason: 'the funnel' } },
    });
    const input = inputOf(route(materials, [rinsed]), [draw('b', 1)], [bottle('a', 100), bottle('e', 23)]);
    const most = mostTarget(input, 'draw-b', new Set(['a', 'e']));
    if (most.kind !== 'most') throw new Error(most.kind);
    expect(most.grams.value).toBeCloseTo(32, 6);
    expect(most.bottleneck).toMatchObject({ material: 'e', anotherBatch: expect.closeTo(2, 6), thenMaterial: 'a' });
    expect(most.bottleneck.more).toBeCloseTo(27, 6);
    expect(most.bottleneck.thenGrams).toBeCloseTo(80, 6);
    expect(mostTargetWords(most).map((one) => one.replaceAll('\u00a0', ' '))).toEqual([
      'Too little e for another batch: 2.00 g more would allow one.',
      '27.0 g more e would bring 80.0 g; then a limits.',
    ]);
    const alone = mostTarget(input, 'draw-b', new Set(['e']));
    expect(mostTargetWords(alone)).toContain('Nothing else that was chosen limits beside e.');
    // What is charged once a batch limits by itself: four batches, whatever there is of the rest; none at all of 3 g.
    expect(alone.kind === 'most' && alone.grams.value).toBeCloseTo(32, 6);
    const little = inputOf(route(materials, [rinsed]), [draw('b', 1)], [bottle('e', 3)]);
    expect(mostTarget(little, 'draw-b', new Set(['e']))).toEqual({ kind: 'nothing', material: 'e' });
    const plenty = inputOf(route(materials, [rinsed]), [draw('b', 1)], [bottle('e', 1e6)]);
    expect(mostTarget(plenty, 'draw-b', new Set(['e']))).toEqual({ kind: 'no limit' });
  });

  test('two ways to one material are used together', () => {
    const both = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50 }),
      step({ id: '2', basis: 'c', product: 'b', yieldPercent: 80 }),
    ]);
    const most = mostTarget(inputOf(both, [draw('b', 1)], [bottle('a', 10), bottle('c', 10)]), 'draw-b', new Set(['a', 'c']));
    expect(most.kind === 'most' && most.grams.value).toBeCloseTo(5 + 8, 9);
    // The plan runs only the second way: 13 g take 16.25 g of c, there are 10.
    expect(most.kind === 'most' && most.planShort).toEqual(['c']);
    expect(mostTargetWords(most).join(' ')).toContain('is short of c.');
    const alone = mostTarget(inputOf(chain, [draw('c', 1)], [bottle('a', 100)]), 'draw-c', new Set(['a']));
    expect(alone.kind === 'most' && alone.planShort).toEqual([]);
  });

  test('a loop that returns 99 %', () => {
    const loop = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', equivalents: { c: 0.99 } }),
      step({ id: '2', basis: 'b', product: 'c' }),
    ]);
    const most = mostTarget(inputOf(loop, [draw('c', 1)], [bottle('a', 100)]), 'draw-c', new Set(['a']));
    expect(most.kind === 'most' && most.grams.value).toBeCloseTo(1, 7);
  });
});

test('planned at the most, nothing chosen is short; a little more, and the bottleneck is', () => {
  const chains = fc.record({
    yields: fc.array(fc.integer({ min: 5, max: 100 }), { minLength: 1, maxLength: 5 }),
    reagents: fc.array(fc.integer({ min: 1, max: 300 }), { minLength: 5, maxLength: 5 }),
    stock: fc.array(fc.integer({ min: 1, max: 10_000 }), { minLength: 6, maxLength: 6 }),
  });
  fc.assert(
    fc.property(chains, ({ yields, reagents, stock }) => {
      const names = Object.fromEntries(
        [...yields.keys(), yields.length].flatMap((i) => [`m${i}`, `r${i}`]).map((key) => [key, 'C6H6']),
      );
      const one = route(
        names,
        yields.map((yieldPercent, i) =>
          step({
            id: `${i}`,
            basis: `m${i}`,
            product: `m${i + 1}`,
            yieldPercent,
            equivalents: { [`r${i}`]: (reagents[i] ?? 1) / 100 },
          }),
        ),
      );
      const bought = ['m0', ...yields.map((_, i) => `r${i}`)];
      const bottles = bought.map((key, i) => bottle(key, stock[i] ?? 1));
      const last = `m${yields.length}`;
      const most = mostTarget(inputOf(one, [draw(last, 1)], bottles), `draw-${last}`, new Set(bought));
      if (most.kind !== 'most') throw new Error(most.kind);
      const statuses = (factor: number): readonly string[] =>
        plan(inputOf(one, [draw(last, most.moles * factor * M)], bottles))
          .fetch.filter((line) => line.status !== 'enough')
          .map((line) => line.material);
      expect(statuses(1 - 1e-9)).toEqual([]);
      expect(statuses(1 + 1e-6)).toContain(most.bottleneck.material);
    }),
    { numRuns: cases(1000) },
  );
});
