import { describe, expect, test } from 'vitest';
import { yieldFromRuns } from '../../src/core/confidence/from-runs.ts';
import { incompleteBeta, logGamma, normalBelow, studentBelow } from '../../src/core/confidence/special.ts';
import {
  cumulative,
  distributionOf,
  limits,
  moments,
  pert,
  pertOneInTen,
  quantile,
} from '../../src/core/confidence/yield-distribution.ts';

describe('special functions against published values', () => {
  test('ln Γ: Γ(½) = √π, Γ(10) = 9!, Abramowitz & Stegun table 6.1 Γ(1.5)', () => {
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 13);
    expect(logGamma(10)).toBeCloseTo(Math.log(362_880), 12);
    expect(logGamma(1.5)).toBeCloseTo(Math.log(0.886_226_925_5), 9);
  });
  test('incomplete beta: closed forms', () => {
    expect(incompleteBeta(0.3, 1, 1)).toBeCloseTo(0.3, 14);
    expect(incompleteBeta(0.3, 2, 1)).toBeCloseTo(0.09, 14);
    // Beta(2, 3): 6x² − 8x³ + 3x⁴.
    for (const x of [0.01, 0.2, 0.5, 0.9, 0.999])
      expect(incompleteBeta(x, 2, 3)).toBeCloseTo(6 * x ** 2 - 8 * x ** 3 + 3 * x ** 4, 13);
    expect(incompleteBeta(0, 2, 3)).toBe(0);
    expect(incompleteBeta(1, 2, 3)).toBe(1);
  });
  test('Student-t: 95 % points of the usual tables', () => {
    expect(studentBelow(6.314, 1)).toBeCloseTo(0.95, 4);
    expect(studentBelow(2.353, 3)).toBeCloseTo(0.95, 4);
    expect(studentBelow(-1.812, 10)).toBeCloseTo(0.05, 4);
    // One degree of freedom is Cauchy's: ½ + arctan(t)/π.
    expect(studentBelow(0.7, 1)).toBeCloseTo(0.5 + Math.atan(0.7) / Math.PI, 13);
  });
  test('normal: Abramowitz & Stegun table 26.1', () => {
    expect(normalBelow(1)).toBeCloseTo(0.841_344_746_068_543, 13);
    expect(normalBelow(1.96)).toBeCloseTo(0.975_002_104_851_78, 12);
    expect(normalBelow(-6)).toBeCloseTo(9.865_876_45e-10, 17);
  });
});

describe('a yield from its runs', () => {
  test('without a run: the prior, Student-t with three degrees of freedom', () => {
    const prior = yieldFromRuns(0.8, []);
    expect(prior.centre).toBeCloseTo(Math.log(4), 13);
    expect(prior.spread).toBeCloseTo(Math.sqrt((0.19 * 2) / 1.5), 13);
    expect(prior.freedom).toBe(3);
    expect(quantile(prior, 0.5)).toBeCloseTo(0.8, 9);
  });
  test('two runs, by hand', () => {
    const [a, b] = [Math.log(0.7 / 0.3), Math.log(0.6 / 0.4)];
    const mean = (a + b) / 2;
    const beta = 0.19 + ((a - mean) ** 2 + (b - mean) ** 2) / 2 + (2 * mean ** 2) / 6;
    const got = yieldFromRuns(0.5, [0.7, 0.6]);
    expect(got.centre).toBeCloseTo((a + b) / 3, 13);
    expect(got.spread).toBeCloseTo(Math.sqrt((beta * 4) / (2.5 * 3)), 13);
    expect(got.freedom).toBe(5);
  });
  test('yields of 0 and 100 % are held inside 0.5 and 99.5 %', () => {
    expect(yieldFromRuns(1, [1, 1]).centre).toBeCloseTo(Math.log(199), 12);
    expect(yieldFromRuns(0.5, [0]).centre).toBeCloseTo(-Math.log(199) / 2, 12);
  });
});

describe('limits that are not absolute', () => {
  test('a tenth lies below the lowest and a tenth above the highest', () => {
    const fitted = pertOneInTen(0.65, 0.72, 0.8);
    expect(cumulative(fitted, 0.65)).toBeCloseTo(0.1, 6);
    expect(1 - cumulative(fitted, 0.8)).toBeCloseTo(0.1, 6);
    expect(moments(fitted).sd).toBeGreaterThan(1.5 * moments(pert(0.65, 0.72, 0.8)).sd);
  });
  test('nothing passes 100 %', () => {
    const fitted = pertOneInTen(0.91, 0.97, 0.995);
    expect(limits(fitted)[1]).toBeCloseTo(1, 9);
    expect(1 - cumulative(fitted, 0.995)).toBeLessThan(0.1);
    expect(cumulative(fitted, 0.91)).toBeCloseTo(0.1, 6);
  });
  test('what was entered says which is meant; limits that coincide are certain', () => {
    expect(distributionOf({ lowest: 65, likeliest: 72, highest: 80 })).toEqual(pert(0.65, 0.72, 0.8));
    expect(distributionOf({ lowest: 65, likeliest: 72, highest: 80, limits: 'one in ten' })).toEqual(
      pertOneInTen(0.65, 0.72, 0.8),
    );
    expect(distributionOf({ lowest: 70, likeliest: 70, highest: 70 })).toEqual({ kind: 'certain', value: 0.7 });
    expect(distributionOf(72)).toEqual({ kind: 'certain', value: 0.72 });
  });
});
