import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { readRecrystallise, recrystalliseText } from '../../src/core/route/recrystallise-text.ts';
import { type Recrystallise, Route } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { lineText } from '../../src/core/words/bench-number-words.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';
import { crystallise, leastSolvent, secondCrop } from '../../src/core/crystallise/crystallise.ts';
import { perSolvent } from '../../src/core/crystallise/solubility.ts';
import { solubilityAt, solubilityCurve } from '../../src/core/crystallise/solubility-curve.ts';
import { fitted, vantHoffFit } from '../../src/core/crystallise/van-t-hoff.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import type { SolubilityPoint } from '../../src/core/crystallise/solubility.ts';

const curveOf = (points: readonly SolubilityPoint[]) =>
  solubilityCurve(points.map((one) => ({ ...one, figure: entered('solubility', one.grams, 'g', 'a test') })));

const amount = fc.double({ min: 1e-6, max: 1e6, noNaN: true });

describe('a crystallisation', () => {
  test('loses no mass, never gives more than went in, and scales', () => {
    fc.assert(
      fc.property(amount, amount, amount, amount, amount, amount, (grams, solvent, a, b, wash, k) => {
        const [cold, hot] = [Math.min(a, b), Math.max(a, b)];
        const crop = crystallise({ grams, solvent, hot, cold, wash });
        const sum = crop.crystals + crop.liquor + crop.washed + crop.undissolved;
        expect(Math.abs(sum - grams)).toBeLessThanOrEqual(1e-9 * grams);
        expect(crop.recoveryPercent).toBeGreaterThanOrEqual(0);
        expect(crop.recoveryPercent).toBeLessThanOrEqual(100 + 1e-9);
        const larger = crystallise({ grams: grams * k, solvent: solvent * k, hot, cold, wash: wash * k });
        expect(Math.abs(larger.recoveryPercent - crop.recoveryPercent)).toBeLessThanOrEqual(1e-6);
      }),
      { numRuns: 1000 },
    );
  });

  test('with the least solvent the recovery is 1 − cold ÷ hot; colder is never less', () => {
    fc.assert(
      fc.property(
        amount,
        amount,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (grams, hot, p, q) => {
          const solvent = leastSolvent(grams, hot);
          const of = (part: number): number => crystallise({ grams, solvent, hot, cold: hot * part }).recoveryPercent;
          expect(of(p)).toBeCloseTo(100 * (1 - p), 6);
          expect(of(Math.min(p, q))).toBeGreaterThanOrEqual(of(Math.max(p, q)) - 1e-9);
        },
      ),
      { numRuns: 1000 },
    );
  });

  test('zero: nothing in, nothing out, no solvent dissolves nothing', () => {
    expect(crystallise({ grams: 0, solvent: 10, hot: 5, cold: 1 })).toMatchObject({ crystals: 0, recoveryPercent: 0 });
    expect(crystallise({ grams: 3, solvent: 0, hot: 5, cold: 1 })).toMatchObject({ undissolved: 3, crystals: 0 });
    expect(() => leastSolvent(1, 0)).toThrow(/needs a hot solubility/);
  });

  test('a second crop: half of the solvent off the liquor gives half of what it holds', () => {
    expect(secondCrop(2, 100, 0.5, 2)).toBeCloseTo(1, 12);
    expect(secondCrop(2, 100, 0, 2)).toBe(0);
  });
});

describe('solubility', () => {
  // Benzoic acid in water, g per 100 g: 0.34 at 25 °C and 6.80 near 100 °C (a teaching page); 0.17 at 0 °C from memory (Seidell).
  const points = [
    { celsius: 0, grams: 0.17 },
    { celsius: 25, grams: 0.34 },
    { celsius: 100, grams: 6.8 },
  ];
  const at = (celsius: number): number => {
    const found = solubilityAt(curveOf(points), celsius);
    return found.ok ? found.figure.value : Number.NaN;
  };

  test('its own points come back, and between them it lies between them', () => {
    for (const { celsius, grams } of points) expect(at(celsius)).toBeCloseTo(grams, 12);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (celsius) => {
        expect(at(celsius)).toBeGreaterThanOrEqual(0.17 - 1e-12);
        expect(at(celsius)).toBeLessThanOrEqual(6.8 + 1e-12);
      }),
      { numRuns: 1000 },
    );
  });

  test('far outside the points nothing is said, and one point is too few', () => {
    expect(solubilityAt(curveOf(points), -16)).toMatchObject({ ok: false, why: { code: 'outside solubility points' } });
    expect(solubilityAt(curveOf(points), 116)).toMatchObject({ ok: false, why: { code: 'outside solubility points' } });
    expect(solubilityAt(curveOf(points.slice(0, 1)), 0)).toMatchObject({
      ok: false,
      why: { code: 'too few solubility points' },
    });
  });

  test('per solution and per solvent: 60.78 g of 100 g of solution are 155 g per 100 g of water', () => {
    // Potassium nitrate saturated at 75 °C, as in a worked answer of socratic.org.
    expect(perSolvent(60.784314, '100 g solution')).toBeCloseTo(155, 4);
    expect(() => perSolvent(100, '100 g solution')).toThrow(/below 100 g/);
  });

  test('points on a line are fitted without scatter', () => {
    const exact = [10, 40, 70].map((celsius) => ({ celsius, grams: Math.exp(12 - 3500 / (celsius + 273.15)) }));
    const fit = vantHoffFit(exact);
    expect(fit?.slope).toBeCloseTo(-3500, 6);
    expect(fit?.scatter).toBeLessThan(1e-9);
    expect(fit && fitted(fit, 40)).toBeCloseTo(exact[1]?.grams ?? Number.NaN, 9);
    expect(vantHoffFit(exact.slice(0, 1))).toBeNull();
  });
});

describe('as it is typed', () => {
  const typed = 'from water per 100 mL; 0 °C 0.53 g; 100 °C 5.5 g; hot 95 °C, cold 0 °C, wash 2; source a handbook';

  test('the text of what was read is read as the same', () => {
    const read = readRecrystallise(typed);
    if (!read.ok) throw new Error(read.words);
    expect(read.value).toMatchObject({ solvent: 'water', per: '100 mL solvent', hotCelsius: 95, coldCelsius: 0, washPerGram: 2 });
    expect(read.value.points).toEqual([
      { celsius: 0, grams: 0.53 },
      { celsius: 100, grams: 5.5 },
    ]);
    expect(readRecrystallise(recrystalliseText(read.value))).toEqual(read);
    expect(readRecrystallise('ethanol per 100 g solution\n-10 °C 0,5 g\n70 °C 20 g\nhot 70 °C\ncold −10 °C')).toMatchObject({
      ok: true,
      value: {
        per: '100 g solution',
        coldCelsius: -10,
        points: [
          { celsius: -10, grams: 0.5 },
          { celsius: 70, grams: 20 },
        ],
      },
    });
  });

  test.each([
    ['', /begins with the solvent/],
    ['water', /begins with the solvent/],
    ['from water', /hot and the cold/],
    ['from water per mouthful; hot 95 °C, cold 0 °C', /begins with the solvent/],
    ['from water per 100 mL solution; hot 95 °C, cold 0 °C', /begins with the solvent/],
    ['from water; 0 °C 0.53 g; hot 95 °C, cold 0 °C', /counted per is needed/],
    ['from water; hot 95 mL/g, cold 0 °C', /“hot 95 mL\/g” is neither/],
    ['from water; hot 95 °C, cold 0 °C, excess 0 %', /excess of hot solvent/],
    ['from water; hot 95 °C, cold 0 °C, excess 1001 %', /excess of hot solvent/],
    ['from water; hot 95 °C, cold 0 °C, change 2000 °C', /solid changes/],
    ['from water per 100 mL; hot 95 °C, cold 0 °C', /a solubility is needed/],
    ['from water per 100 mL; 0 °C 0.53 g', /hot and the cold/],
    ['from water per 100 mL; 0 °C 0.53 g; hot 0 °C, cold 5 °C', /above cold/],
    ['from water per 100 mL; 0 °C 0 g; hot 9 °C, cold 5 °C', /more than 0 g/],
    ['from water per 100 mL; lukewarm', /“lukewarm” is neither/],
    ['from water per 100 g solution; 0 °C 10 g; 90 °C 100 g; hot 90 °C, cold 0 °C', /below 100 g/],
  ])('%j is refused in words', (text, words) => {
    const read = readRecrystallise(text);
    expect(read.ok ? '' : read.words).toMatch(words);
  });
});

test('a route whose solution holds as much solute as itself is refused when it is read', () => {
  const of: Recrystallise = {
    solvent: 'water',
    per: '100 g solution',
    points: [
      { celsius: 0, grams: 10 },
      { celsius: 90, grams: 100 },
    ],
    hotCelsius: 90,
    coldCelsius: 0,
  };
  const written = (grams: number): unknown =>
    route({ a: 'C6H7N', b: 'C8H9NO' }, [
      step({
        id: '1',
        basis: 'a',
        product: 'b',
        extra: {
          recrystallise: {
            ...of,
            points: [
              { celsius: 0, grams: 10 },
              { celsius: 90, grams },
            ],
          },
        },
      }),
    ]);
  expect(Route.safeParse(written(99)).success).toBe(true);
  expect(JSON.stringify(Route.safeParse(written(100)).error?.issues)).toMatch(/below 100 g/);
});

describe('the section of a step', () => {
  const of = {
    solvent: 'water',
    per: '100 mL solvent' as const,
    points: [
      { celsius: 0, grams: 0.53 },
      { celsius: 100, grams: 5.5 },
    ],
    hotCelsius: 100,
    coldCelsius: 0,
  };
  const linesOf = (recrystallise: Recrystallise): string[] => {
    const one = route({ a: 'C6H7N', b: 'C8H9NO' }, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80, extra: { recrystallise } }),
    ]);
    const input = {
      route: one,
      ask: { name: 'p', draws: [draw('b', 22)] },
      shelf: EMPTY_SHELF,
      settings,
      reference,
      asOf: TODAY,
    };
    const section = benchNumbers(input, plan(input), '1').find((each) => each.kind === 'recrystallise');
    return section?.lines.map((line) => lineText('recrystallise', line).replaceAll('\u00a0', ' ')) ?? [];
  };

  test('22 g of acetanilide: 400 mL of boiling water at least, 2.12 g stay in the liquor (by hand from 5.5 and 0.53 g per 100 mL)', () => {
    const said = linesOf(of).join('\n');
    expect(said).toContain('Least hot water (100 °C) that dissolves it: 400 mL');
    expect(said).toContain('Stays in the cold liquor (0 °C): 2.12 g');
    expect(said).toContain('Best recovery: 90.4 %');
    expect(said).toContain('Second crop at best, half of the solvent taken off the liquor: 1.06 g');
  });

  test('nothing is guessed: one point, a temperature outside, a solid that dissolves less when hot', () => {
    expect(linesOf({ ...of, points: of.points.slice(0, 1) }).join()).toMatch(/not known\. Solubilities at two/);
    expect(linesOf({ ...of, hotCelsius: 120 }).join()).toMatch(/not known\. 120 °C lies outside/);
    const lessHot = [
      { celsius: 0, grams: 5 },
      { celsius: 100, grams: 4 },
    ];
    expect(linesOf({ ...of, points: lessHot }).join()).toMatch(/cooling brings no crystals/);
  });
});
