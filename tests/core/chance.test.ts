import { describe, expect, test } from 'vitest';
import { type Confidence, confidenceOf, type Outlook } from '../../src/core/confidence/confidence.ts';
import type { PlanInput } from '../../src/core/plan/input.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Route, StepYield } from '../../src/core/route/route.ts';
import { cumulative, distributionOf } from '../../src/core/confidence/yield-distribution.ts';
import { bottle, draw, route, step } from './build.ts';
import { chances, FORMULA, inputOf, MASS } from './chance-fixture.ts';

/** A chain m0 → m1 → … with these yields. */
function chain(yields: readonly StepYield[]): Route {
  const keys = [...yields.keys(), yields.length].map((i) => `m${i}`);
  const materials = Object.fromEntries(keys.map((key) => [key, FORMULA]));
  return route(
    materials,
    yields.map((yieldPercent, i) => step({ id: `s${i}`, basis: `m${i}`, product: `m${i + 1}`, yieldPercent })),
  );
}

function outlook(input: PlanInput): Outlook {
  const found: Confidence = confidenceOf(input);
  if (found.kind !== 'chance') throw new Error(`no chance: ${found.kind}`);
  return found;
}

/** The exact chance for a chain, the slow way: log yields on a fine grid, added one after another. */
function byConvolution(yields: readonly StepYield[], width = 0.001): (multiplier: number) => number {
  let sum = new Map<number, number>([[0, 1]]);
  let planned = 0;
  for (const one of yields) {
    planned += Math.log((typeof one === 'number' ? one : one.likeliest) / 100);
    const of = distributionOf(one);
    if (of.kind === 'certain') {
      planned -= Math.log(of.value);
      continue;
    }
    const next = new Map<number, number>();
    for (let cell = Math.floor(Math.log(0.005) / width); cell <= 1; cell += 1) {
      const chance = cumulative(of, Math.exp((cell + 0.5) * width)) - cumulative(of, Math.exp((cell - 0.5) * width));
      if (chance > 1e-12) for (const [at, before] of sum) next.set(at + cell, (next.get(at + cell) ?? 0) + before * chance);
    }
    sum = next;
  }
  // A cell counts in so far as it lies above the target.
  return (multiplier) => {
    const target = (planned - Math.log(multiplier)) / width;
    return [...sum].reduce((total, [cell, chance]) => total + chance * Math.min(1, Math.max(0, cell + 0.5 - target)), 0);
  };
}

const RANGES: readonly StepYield[] = [
  { lowest: 35, likeliest: 55, highest: 70 },
  { lowest: 91, likeliest: 94, highest: 96 },
  { lowest: 70, likeliest: 85, highest: 95 },
  { lowest: 10, likeliest: 40, highest: 90 },
  { lowest: 80, likeliest: 80, highest: 99 },
  { lowest: 65, likeliest: 72, highest: 80, limits: 'one in ten' },
];

describe('a chain against numerical convolution, to 0.2 %', () => {
  test.each([1, 2, 3, 6])('%i steps', (count) => {
    const yields = RANGES.slice(0, count);
    const found = chances(inputOf(chain(yields), [draw(`m${count}`, 10)]));
    const exact = byConvolution(yields);
    for (const multiplier of [0.7, 0.9, 1, 1.1, 1.25, 1.5, 2])
      expect(Math.abs(found.of(multiplier) - exact(multiplier)), `at ${multiplier}`).toBeLessThan(0.002);
  });

  test('60 steps', () => {
    const yields = Array.from({ length: 60 }, (_, i): StepYield => ({ lowest: 80 - (i % 7), likeliest: 90, highest: 97 }));
    const found = chances(inputOf(chain(yields), [draw('m60', 10)]));
    const exact = byConvolution(yields, 0.002);
    for (const multiplier of [1.5, 2, 2.5, 3]) expect(Math.abs(found.of(multiplier) - exact(multiplier))).toBeLessThan(0.002);
  });

  test('eight steps that cannot be taken together, since each product is drawn a little: the lattice alone', () => {
    const yields = Array.from({ length: 8 }, (): StepYield => ({ lowest: 70, likeliest: 85, highest: 95 }));
    const draws = yields.map((_, i) => draw(`m${i + 1}`, i === 7 ? 1 : 1e-9, 'mol'));
    const found = chances(inputOf(chain(yields), draws));
    // Only the last draw matters beyond the first ones at the same start: what is short early is short in the end.
    const simulated = [1, 1.1, 1.3].map((multiplier) => found.of(multiplier));
    const exact = [1, 1.1, 1.3].map((multiplier) => byRandom(yields, multiplier));
    simulated.forEach((value, i) => expect(Math.abs(value - (exact[i] ?? 0))).toBeLessThan(0.005));
  });
});

/** All prefixes of a chain have to be enough: 400,000 drawn outcomes, standard error below 0.08 %. */
function byRandom(yields: readonly StepYield[], multiplier: number): number {
  let state = 12_345;
  const uniform = (): number => {
    state = (state * 1_664_525 + 1_013_904_223) % 4_294_967_296;
    return (state + 0.5) / 4_294_967_296;
  };
  const of = distributionOf(yields[0] ?? 100);
  const table = Array.from({ length: 4096 }, (_, i) => quantileOf(of, (i + 0.5) / 4096));
  let enough = 0;
  for (let trial = 0; trial < 400_000; trial += 1) {
    let ratio = multiplier;
    let met = true;
    for (let i = 0; i < yields.length; i += 1) {
      ratio *= (table[Math.floor(uniform() * 4096)] ?? 0) / 0.85;
      if (ratio < 1) met = false;
    }
    if (met) enough += 1;
  }
  return enough / 400_000;
}

function quantileOf(of: ReturnType<typeof distributionOf>, chance: number): number {
  let [low, high] = [0, 1];
  for (let round = 0; round < 40; round += 1) {
    const middle = (low + high) / 2;
    if (cumulative(of, middle) < chance) low = middle;
    else high = middle;
  }
  return low;
}

test('nothing lies above the highest yield there can be, or below the lowest', () => {
  const one = (yieldPercent: StepYield): PlanInput =>
    inputOf(route({ a: FORMULA, b: FORMULA }, [step({ id: '1', basis: 'a', product: 'b', yieldPercent })]), [
      draw('b', 1, 'mol'),
    ]);
  const top = chances(one({ lowest: 5, likeliest: 100, highest: 100 }));
  expect(top.of(1)).toBeLessThan(1e-3);
  // At the lowest yield the start would be likeliest ÷ lowest times as large.
  expect(chances(one({ lowest: 50, likeliest: 60, highest: 90 })).of(60 / 50)).toBe(1);
});

describe('networks', () => {
  const range: StepYield = { lowest: 50, likeliest: 70, highest: 85 };
  const above = (multiplier: number): number => 1 - cumulative(distributionOf(range), 0.7 / multiplier);

  test('two branches that meet: the scarcer decides', () => {
    const one = route({ a: FORMULA, b: FORMULA, c: FORMULA, d: FORMULA, e: FORMULA }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: range }),
      step({ id: '2', basis: 'c', product: 'd', yieldPercent: range }),
      step({ id: '3', basis: 'b', product: 'e', yieldPercent: 80, equivalents: { d: 1.2 } }),
    ]);
    const found = chances(inputOf(one, [draw('e', 10)]));
    for (const multiplier of [0.9, 1, 1.2]) expect(found.of(multiplier)).toBeCloseTo(above(multiplier) ** 2, 3);
  });

  test('two draws on one intermediate share its luck', () => {
    const one = route({ a: FORMULA, b: FORMULA, c: FORMULA, d: FORMULA }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: range }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 90 }),
      step({ id: '3', basis: 'b', product: 'd', yieldPercent: 90 }),
    ]);
    const found = chances(inputOf(one, [draw('c', 10), draw('d', 5), draw('b', 1, 'g', { kept: true })]));
    expect(found.of(1)).toBeCloseTo(above(1), 3);
  });

  describe('two branches of one uncertain intermediate that meet again, against the exact integral', () => {
    const of = distributionOf(range);
    const levels = Array.from({ length: 2000 }, (_, i) => quantileOf(of, (i + 0.5) / 2000));
    /** P(first × the scarcer of the two branches ≥ ratio of what is planned, and the first alone ≥ least). */
    const exact = (ratio: number, least = 0): number =>
      levels.reduce((sum, first) => sum + (first / 0.7 < least ? 0 : (1 - cumulative(of, (ratio * 0.49) / first)) ** 2), 0) /
      2000;
    const one = route({ a: FORMULA, b: FORMULA, c: FORMULA, d: FORMULA, e: FORMULA }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: range }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: range }),
      step({ id: '3', basis: 'b', product: 'd', yieldPercent: range }),
      step({ id: '4', basis: 'c', product: 'e', yieldPercent: 80, equivalents: { d: 1.2 } }),
    ]);

    test('chance of enough, to 0.2 %', () => {
      const found = chances(inputOf(one, [draw('e', 10)]));
      for (const k of [0.9, 1, 1.2, 1.5]) expect(Math.abs(found.of(k) - exact(1 / k)), `at ${k}`).toBeLessThan(0.002);
    });

    test('a draw of the intermediate beside it shares its luck', () => {
      const found = chances(inputOf(one, [draw('e', 10), draw('b', 1)]));
      for (const k of [0.9, 1, 1.2, 1.5]) expect(Math.abs(found.of(k) - exact(1 / k, 1 / k)), `at ${k}`).toBeLessThan(0.002);
    });

    test('one in ten falls below P10, half below P50, nine in ten below P90; the branches carry the same risk', () => {
      const { products, risks } = outlook(inputOf(one, [draw('e', 10)]));
      const { p10, p50, p90 } = products[0] ?? { p10: { value: 0 }, p50: { value: 0 }, p90: { value: 0 } };
      [p10, p50, p90].forEach(({ value }, i) => {
        expect(Math.abs(1 - exact(value / 10) - ([0.1, 0.5, 0.9][i] ?? 0)), `part ${i}`).toBeLessThan(0.002);
      });
      const [first, second, third] = ['1', '2', '3'].map((id) => risks.find((risk) => risk.step === id)?.share.value ?? 0);
      expect(Math.abs((second ?? 0) - (third ?? 0))).toBeLessThan(0.5);
      expect(first).toBeGreaterThan(second ?? 0);
    });
  });

  test('stock is certain: only what has to be made is at risk', () => {
    const one = chain([range]);
    const input = inputOf(one, [draw('m1', 1, 'mol')], [bottle('m1', 0.6 * MASS)]);
    // Enough where 0.4/0.7·k of basis gives 0.4: the stock changes nothing in that.
    expect(chances(input).of(1.1)).toBeCloseTo(above(1.1), 3);
    const [half] = outlook(input).levels;
    expect(half?.grams?.value).toBeCloseTo((0.4 * MASS) / quantileOf(distributionOf(range), 0.5), 1);
  });

  test('stock of an intermediate softens the step before it', () => {
    const input = inputOf(chain([range, 90]), [draw('m2', 0.9, 'mol')], [bottle('m1', 0.5 * MASS)]);
    // One mole of m1 is needed, half of it from step 1.
    expect(chances(input).of(1)).toBeCloseTo(above(1), 3);
    expect(outlook(input).products[0]?.p10.value).toBeGreaterThan(0.9 * MASS * 0.85);
  });

  test('what stays behind in a vessel stays behind whatever the yield', () => {
    const one = route({ a: FORMULA, b: FORMULA }, [
      step({
        id: '1',
        basis: 'a',
        product: 'b',
        yieldPercent: range,
        extra: { lossPerBatch: { grams: 0.2 * MASS, reason: 'film' } },
      }),
    ]);
    const input = inputOf(one, [draw('b', 0.5, 'mol')]);
    const batches = plan(input).steps[0]?.batches.count ?? 0;
    expect(batches).toBe(1);
    // One mole of basis makes 0.7, of which 0.2 stays behind.
    expect(chances(input).of(1)).toBeCloseTo(above(1), 3);
    expect(chances(input).of(1.2)).toBeCloseTo(1 - cumulative(distributionOf(range), 0.7 / (0.8 / 0.7)), 3);
  });

  test('two wanted products of one step share its luck', () => {
    const both = route({ a: FORMULA, b: FORMULA, c: FORMULA }, [
      step({
        id: '1',
        basis: 'a',
        product: 'b',
        yieldPercent: range,
        extra: {
          equation: {
            uses: [{ material: 'a', coefficient: 1 }],
            makes: [
              { material: 'b', coefficient: 1 },
              { material: 'c', coefficient: 1 },
            ],
          },
        },
      }),
    ]);
    const found = chances(inputOf(both, [draw('b', 1, 'mol'), draw('c', 1, 'mol')]));
    expect(found.of(1.1)).toBeCloseTo(above(1.1), 3);
  });

  test('a loop is lent what it takes and gives it back', () => {
    const one = route({ a: FORMULA, b: FORMULA }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: range, equivalents: { b: 0.2 } }),
    ]);
    // Net 0.5 of a mole per mole at 70 %: enough where k·(y − 0.2) ≥ 0.5.
    const found = chances(inputOf(one, [draw('b', 0.5, 'mol')]));
    for (const k of [1, 1.1]) expect(found.of(k)).toBeCloseTo(1 - cumulative(distributionOf(range), 0.2 + 0.5 / k), 3);
  });
});

describe('what is answered', () => {
  const yields: readonly StepYield[] = [
    { lowest: 35, likeliest: 55, highest: 70 },
    92,
    { lowest: 91, likeliest: 94, highest: 96 },
  ];
  const input = inputOf(chain(yields), [draw('m3', 20)]);

  test('a chosen chance: every amount follows, and the answer is that chance', () => {
    const likeliest = plan(input);
    const chosen = plan({ ...input, ask: { ...input.ask, start: { chancePercent: 90 } } });
    const k = chosen.start.multiplier.value;
    expect(chosen.start).toMatchObject({ kind: 'chance', chancePercent: 90 });
    expect(k).toBeGreaterThan(1.1);
    chosen.steps.forEach((one, i) =>
      expect(one.basis.moles.value).toBeCloseTo((likeliest.steps[i]?.basis.moles.value ?? 0) * k, 9),
    );
    const found = outlook({ ...input, ask: { ...input.ask, start: { chancePercent: 90 } } });
    expect(found.chance.value).toBeCloseTo(90, 6);
    expect(found.first.grams?.value).toBeCloseTo(found.levels[2]?.grams?.value ?? 0, 9);
    expect(found.atLikeliest.value).toBeLessThan(50);
    // What is asked stays what was asked.
    expect(chosen.draws[0]?.grams?.value).toBe(20);
  });

  test('the step with the wide range carries the risk; certain steps carry none', () => {
    const { risks } = outlook(input);
    expect(risks.map((one) => one.step)).toEqual(['s0', 's2']);
    expect(risks[0]?.share.value).toBeGreaterThan(95);
    expect(risks.reduce((sum, one) => sum + one.share.value, 0)).toBeCloseTo(100, 9);
  });

  test('a flask that once in thousands of times keeps everything does not carry all the risk', () => {
    const film = (moles: number): readonly number[] => {
      const wide: StepYield = { lowest: 20, likeliest: 70, highest: 90 };
      const one = chain([wide, { lowest: 20, likeliest: 80, highest: 95 }]);
      const [first, second] = one.steps;
      const lossPerBatch = { grams: moles * MASS, reason: 'film' };
      const steps = [{ ...first, ...(moles > 0 ? { lossPerBatch } : {}) }, second] as Route['steps'];
      const { risks } = outlook(inputOf({ ...one, steps }, [draw('m2', 0.3, 'mol')]));
      return ['s0', 's1'].map((id) => risks.find((risk) => risk.step === id)?.share.value ?? 0);
    };
    // Of 0.5 mol and more of the first product 0.25 mol stay behind: all of it in about one run of ten thousand.
    const [without = 0] = film(0);
    const [some = 0] = film(0.2);
    const [more = 0] = film(0.25);
    expect(without).toBeLessThan(some);
    expect(some).toBeLessThan(more);
    expect(more - some).toBeLessThan((some - without) / 2);
  });

  test('the start per point of yield is −start ÷ yield in a chain', () => {
    const found = outlook(input);
    const grams = plan(input).steps[0]?.basis.grams.value ?? 0;
    const percents = [55, 92, 94];
    found.slopes.forEach((one, i) => expect(one.gramsPerPoint.value).toBeCloseTo(-grams / (percents[i] ?? 1), 4));
    expect(found.slopes).toHaveLength(3);
  });

  test('all yields certain: said, not reckoned; nothing to start: said', () => {
    const certain = inputOf(chain([80, 90]), [draw('m2', 10)]);
    expect(confidenceOf(certain).kind).toBe('certain');
    const asked = plan({ ...certain, ask: { ...certain.ask, start: { chancePercent: 90 } } });
    expect(asked.start.kind).toBe('likeliest');
    expect(asked.notices.map((one) => one.code)).toContain('certain start');
    expect(confidenceOf(inputOf(chain(yields), [draw('m3', 20)], [bottle('m3', 50)])).kind).toBe('nothing to start');
  });

  test('a multiplier is followed as it is', () => {
    const one = plan({ ...input, ask: { ...input.ask, start: { multiplier: 1.5 } } });
    expect(one.steps[0]?.basis.moles.value).toBeCloseTo(1.5 * (plan(input).steps[0]?.basis.moles.value ?? 0), 12);
  });
});
