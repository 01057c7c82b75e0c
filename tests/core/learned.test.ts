import { describe, expect, test } from 'vitest';
import { confidenceOf } from '../../src/core/confidence/confidence.ts';
import { learnedSpread, yieldFromRuns } from '../../src/core/confidence/from-runs.ts';
import { studentBelow } from '../../src/core/confidence/special.ts';
import { cumulative } from '../../src/core/confidence/yield-distribution.ts';
import type { Ask, LearnedRun } from '../../src/core/plan/ask.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, shelfOf, step, stepOf, TODAY } from './build.ts';

const one = route({ a: 'C6H6', b: 'C6H6' }, [step({ id: 's', basis: 'a', product: 'b', yieldPercent: 70 })]);
const runs: readonly LearnedRun[] = [
  { run: 1, percent: 62, weight: 1 },
  { run: 2, percent: 58, weight: 1 },
  { run: 3, percent: 90, weight: 0 },
];
const input = (ask: Partial<Ask>) => ({
  route: one,
  ask: { name: 'p', draws: [draw('b', 10)], ...ask },
  shelf: shelfOf(one, []),
  settings,
  reference,
  asOf: TODAY,
});
const logit = (p: number): number => Math.log(p / (1 - p));

describe('a yield learned from runs', () => {
  // By the closed form: n = 2, κ = 3, μ = (l0 + l1 + l2)/3, a = 2.5, b = 0.19 + Σ(l − m)²/2 + 2(m − l0)²/6.
  const [l0, l1, l2] = [logit(0.7), logit(0.62), logit(0.58)];
  const mean = (l1 + l2) / 2;
  const centre = (l0 + l1 + l2) / 3;
  const b = 0.19 + ((l1 - mean) ** 2 + (l2 - mean) ** 2) / 2 + (2 * (mean - l0) ** 2) / 6;
  const spread = Math.sqrt((b * 4) / (2.5 * 3));

  test('the plan follows its median, and says from what', () => {
    const result = plan(input({ learned: { s: [...runs] } }));
    const planned = stepOf(result, 's');
    expect(planned.yield.value).toBeCloseTo(100 / (1 + Math.exp(-centre)), 10);
    expect(planned.basis.grams.value).toBeCloseTo(10 / (planned.yield.value / 100), 9);
    expect([planned.yieldRuns, planned.yieldRange]).toEqual([2, null]);
    expect(planned.yield.from.kind === 'computed' && planned.yield.from.of.map((each) => each.value)).toEqual([62, 58, 70]);
  });

  test('the start per point of it is that of a chain: the start divided by the yield', () => {
    const ask = { learned: { s: [...runs] } };
    const planned = stepOf(plan(input(ask)), 's');
    const confidence = confidenceOf(input(ask));
    const slope = 'slopes' in confidence ? confidence.slopes[0]?.gramsPerPoint.value : undefined;
    expect(slope).toBeCloseTo(-planned.basis.grams.value / planned.yield.value, 4);
  });

  test('its chances are those of the Student-t of the closed form', () => {
    const got = yieldFromRuns(0.7, [0.62, 0.58]);
    for (const p of [0.3, 0.5, 0.62, 0.8]) {
      expect(cumulative(got, p)).toBeCloseTo(studentBelow((logit(p) - centre) / spread, 5), 12);
    }
    const { p10, median, p90 } = learnedSpread(got);
    expect(studentBelow((logit(p10) - centre) / spread, 5)).toBeCloseTo(0.1, 9);
    expect(studentBelow((logit(p90) - centre) / spread, 5)).toBeCloseTo(0.9, 9);
    expect(logit(median)).toBeCloseTo(centre, 12);
  });

  test('the chance of enough at the median is one half', () => {
    const confidence = confidenceOf(input({ learned: { s: [...runs] } }));
    expect(confidence.kind === 'chance' && confidence.chance.value).toBeCloseTo(50, 0);
  });

  test('a run of weight two counts as two; of weight zero as none', () => {
    expect(yieldFromRuns(0.7, [0.62, 0.58], [2, 1])).toEqual(yieldFromRuns(0.7, [0.62, 0.62, 0.58]));
    expect(yieldFromRuns(0.7, [0.62, 0.9], [1, 0])).toEqual(yieldFromRuns(0.7, [0.62]));
    expect(stepOf(plan(input({ learned: { s: [{ run: 1, percent: 20, weight: 0 }] } })), 's').yield.value).toBe(70);
  });

  test('a yield entered for this plan is the prior; without runs nothing is changed', () => {
    const own = stepOf(plan(input({ yields: { s: 50 }, learned: { s: [...runs] } })), 's').yield.value;
    expect(own).toBeCloseTo(100 / (1 + Math.exp(-(logit(0.5) + l1 + l2) / 3)), 10);
    expect(stepOf(plan(input({})), 's').yield.value).toBe(70);
  });
});
