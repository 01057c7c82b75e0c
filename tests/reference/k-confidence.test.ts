import { expect, test } from 'vitest';
import { yieldLevels } from '../../src/core/confidence/series.ts';
import {
  classicalPert,
  cumulative,
  moments,
  pert,
  productMoments,
  quantile,
  type YieldDistribution,
} from '../../src/core/confidence/yield-distribution.ts';
import { caseById, casesOf, expected } from './cases.ts';

// Topic k: yields that are not certain. Sources stand in cases.json.
function near(id: string, name: string, value: number, within = expected(caseById(id), name).within): void {
  const want = expected(caseById(id), name);
  expect(Math.abs(value - want.value), `${id} ${name}: ${value} against ${want.value}`).toBeLessThanOrEqual(within * 1.0001);
}

const numbers = (id: string): Readonly<Record<string, number>> => caseById(id).inputs as Record<string, number>;

test('k01: the textbook estimate of an activity', () => {
  for (const [name, limits] of [
    ['E', [1, 4, 7]],
    ['F', [1, 2, 9]],
    ['G', [3, 4, 11]],
  ] as const) {
    const { mean, sd } = classicalPert(limits[0], limits[1], limits[2]);
    const shown = `(${limits.join(',')})`;
    near('k01', `t ${name} ${shown}`, mean);
    near('k01', `var ${name}`, sd ** 2);
    // The mean of the distribution itself is the same.
    expect(moments(pert(limits[0], limits[1], limits[2])).mean).toBeCloseTo(mean, 12);
  }
});

test.each(['k03', 'k04'])('%s: shape, mean, spread and quantiles of a PERT yield', (id) => {
  const { min = 0, mode = 0, max = 0 } = numbers(id);
  const of = pert(min, mode, max);
  if (of.kind !== 'beta') throw new Error('a range is a beta');
  const answers: Readonly<Record<string, number>> = {
    alpha: of.alpha,
    beta: of.beta,
    mean: moments(of).mean,
    'sd of the beta-PERT': moments(of).sd,
    'classical sd (b-a)/6': classicalPert(min, mode, max).sd,
    q10: quantile(of, 0.1),
    q50: quantile(of, 0.5),
    q90: quantile(of, 0.9),
  };
  for (const { name } of caseById(id).outputs) near(id, name, answers[name] ?? Number.NaN);
});

test('k06: two independent yields multiplied', () => {
  const { mx = 0, sx = 0, my = 0, sy = 0 } = numbers('k06');
  const { mean, sd } = productMoments([
    { mean: mx, sd: sx },
    { mean: my, sd: sy },
  ]);
  near('k06', 'mean', mean);
  near('k06', 'var', sd ** 2);
});

test('k07: two uniform yields in a row', () => {
  const uniform: YieldDistribution = { kind: 'beta', alpha: 1, beta: 1, lowest: 0, highest: 1 };
  const levels = yieldLevels([uniform, uniform], 20_001);
  near('k07', 'median', levels[10_000] ?? Number.NaN, 2e-5);
  near('k07', 'mean', levels.reduce((sum, one) => sum + one, 0) / levels.length, 2e-5);
  near('k07', 'P(XY<=0.1)', levels.filter((one) => one <= 0.1).length / levels.length, 1e-4);
  near('k07', 'mean', productMoments([uniform, uniform].map(moments)).mean);
});

test('k09: three beta yields in a row', () => {
  const steps = (caseById('k09').inputs.steps as readonly string[]).map((text): YieldDistribution => {
    const [alpha = 0, beta = 0] = [...text.matchAll(/\d+/g)].map(Number);
    return { kind: 'beta', alpha, beta, lowest: 0, highest: 1 };
  });
  const { mean, sd } = productMoments(steps.map(moments));
  near('k09', 'mean', mean);
  near('k09', 'sd', sd);
  const levels = yieldLevels(steps, 10_000);
  const simulated = levels.reduce((sum, one) => sum + one, 0) / levels.length;
  near('k09', 'mean', simulated, 1e-4);
  near('k09', 'sd', Math.sqrt(levels.reduce((sum, one) => sum + (one - simulated) ** 2, 0) / levels.length), 1e-4);
});

test('k10: the start for a chance of 50 and 90 %', () => {
  const inputs = caseById('k10').inputs as { target: { value: number }; median: number; sigmaLn: number };
  const of: YieldDistribution = { kind: 'lognormal', median: inputs.median, sigma: inputs.sigmaLn };
  near('k10', 'mass for 50 %', inputs.target.value / quantile(of, 0.5));
  near('k10', 'mass for 90 %', inputs.target.value / quantile(of, 0.1));
  expect(cumulative(of, quantile(of, 0.1))).toBeCloseTo(0.1, 12);
});

test('every visible case of the topic is run here', () => {
  expect(casesOf('k').map((one) => one.id)).toEqual(['k01', 'k03', 'k04', 'k06', 'k07', 'k09', 'k10']);
});
