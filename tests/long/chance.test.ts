import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { confidenceOf } from '../../src/core/confidence/confidence.ts';
import type { PlanInput } from '../../src/core/plan/input.ts';
import type { StepYield } from '../../src/core/route/route.ts';
import { bottle, draw, route, step } from '../core/build.ts';
import { chances, FORMULA, inputOf, MASS } from '../core/chance-fixture.ts';

describe('any tree of steps', () => {
  const percent = fc.integer({ min: 5, max: 100 });
  const anyYield: fc.Arbitrary<StepYield> = fc.oneof(
    percent,
    fc.tuple(percent, percent, percent).map((three): StepYield => {
      const [lowest = 1, likeliest = 1, highest = 1] = three.sort((a, b) => a - b);
      return { lowest, likeliest, highest };
    }),
  );
  const shape = fc.integer({ min: 1, max: 4 }).chain((count) =>
    fc.record({
      yields: fc.array(anyYield, { minLength: count, maxLength: count }),
      // Step i takes what an earlier step makes, or something bought.
      from: fc.tuple(...Array.from({ length: count }, (_, i) => fc.integer({ min: -1, max: i - 1 }))),
      stock: fc.option(fc.double({ min: 0.01, max: 0.5, noNaN: true })),
    }),
  );
  type Shape = typeof shape extends fc.Arbitrary<infer T> ? T : never;
  const build = ({ yields, from, stock }: Shape): PlanInput => {
    const keys = yields.map((_, i) => `m${i}`);
    const one = route(
      Object.fromEntries([...keys, ...keys.map((key) => `raw-${key}`)].map((key) => [key, FORMULA])),
      yields.map((yieldPercent, i) => {
        const basis = (from[i] ?? -1) < 0 ? `raw-m${i}` : `m${from[i]}`;
        return step({ id: `s${i}`, basis, product: `m${i}`, yieldPercent });
      }),
    );
    const last = keys.filter((_, i) => !from.includes(i));
    return inputOf(
      one,
      last.map((key) => draw(key, 1, 'mol')),
      stock === null ? [] : [bottle('m0', stock * MASS)],
    );
  };

  test('a larger start never has a smaller chance; chances lie in 0 … 1; the same again to the last digit', () => {
    fc.assert(
      fc.property(shape, fc.double({ min: 0.5, max: 3, noNaN: true }), (one, multiplier) => {
        const [found, again] = [chances(build(one)), chances(build(one))];
        const [less, more] = [found.of(multiplier), found.of(multiplier * 1.2)];
        expect(less >= 0 && less <= more && more <= 1, `${less} then ${more}`).toBe(true);
        expect(again.of(multiplier)).toBe(less);
      }),
      { numRuns: 1000 },
    );
  }, 60_000);

  test('P10 ≤ P50 ≤ P90, and the curve rises', () => {
    fc.assert(
      fc.property(shape, (one) => {
        const found = confidenceOf(build({ ...one, stock: null }));
        if (found.kind !== 'chance') return;
        found.curve.forEach((point, i) => expect(point.percent).toBeGreaterThanOrEqual(found.curve[i - 1]?.percent ?? 0));
        for (const { p10, p50, p90 } of found.products) expect(p10.value <= p50.value && p50.value <= p90.value).toBe(true);
      }),
      { numRuns: 1000 },
    );
  }, 60_000);

  test('a better yield never lowers the chance of the same start', () => {
    const better = (one: StepYield): StepYield =>
      typeof one === 'number' ? one : { ...one, lowest: (one.lowest + one.likeliest) / 2, highest: (one.highest + 100) / 2 };
    fc.assert(
      fc.property(shape, fc.nat(), (one, at) => {
        const raised = { ...one, yields: one.yields.map((value, i) => (i === at % one.yields.length ? better(value) : value)) };
        // The likeliest stays, so both plans start with the same; the grid may differ by its own fineness.
        expect(chances(build(raised)).of(1)).toBeGreaterThanOrEqual(chances(build(one)).of(1) - 0.001);
      }),
      { numRuns: 1000 },
    );
  }, 60_000);
});
