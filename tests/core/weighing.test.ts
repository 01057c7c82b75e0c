import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balanceFor, measureFor } from '../../src/core/bench/device.ts';
import { smallestNetMass } from '../../src/core/bench/smallest-mass.ts';
import { stockSolution } from '../../src/core/bench/stock-solution.ts';
import { takeOf } from '../../src/core/bench/take.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { lineOf } from '../../src/core/quantity/round.ts';
import { deviceWords } from '../../src/core/words/device-words.ts';
import { reference } from '../reference/tables.ts';
import { chargeOf, draw, planOf, route, settings, step } from './build.ts';

const rows = reference.rows.measureTolerances;
const grams = (value: number) => entered('x', value, 'g', 'a test');
const some = { numRuns: 1000 };

describe('balances', () => {
  test('what a balance is said to weigh is at least its smallest net mass', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 9000, noNaN: true }), fc.double({ min: 0.001, max: 0.2, noNaN: true }), (m, t) => {
        const { balance, meets } = balanceFor(m, t, settings);
        expect(meets).toBe(smallestNetMass(balance, t) <= m * (1 + 1e-9));
        const able = settings.balances.filter((one) => one.largest >= m && smallestNetMass(one, t) <= m);
        expect(meets).toBe(able.length > 0);
      }),
      some,
    );
  });
  test('a poor repeatability counts for more than the last digit', () => {
    const [fine] = settings.balances;
    const shaky = {
      ...settings,
      balances: [{ name: 'shaky', readability: fine?.readability ?? 0.001, largest: 220, repeatability: 0.01 }],
    };
    expect(balanceFor(0.5, 0.02, shaky).meets).toBe(false);
    expect(balanceFor(1, 0.02, shaky).meets).toBe(true);
  });
});

describe('stock solutions', () => {
  test('hold what is wanted, and their three weighings keep the tolerance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -9, max: -0.3, noNaN: true }),
        fc.double({ min: 0.002, max: 0.1, noNaN: true }),
        (power, t) => {
          const m = 10 ** power;
          const found = stockSolution(grams(m), t, settings);
          if (!found) return;
          const least = (name: string): number => {
            const balance = settings.balances.find((one) => one.name === name);
            return balance ? smallestNetMass(balance, t) : Number.NaN;
          };
          const [a, b, c] = [found.dissolve.value, found.total.value, found.take.value];
          const [of, to] = [found.thinned?.of.value, found.thinned?.total.value];
          const content = of === undefined || to === undefined ? (a * c) / b : (((a * of) / b) * c) / to;
          expect(Math.abs(content / m - 1)).toBeLessThan(1e-9);
          expect(b).toBeGreaterThan(a);
          const [own, whole] = [least(found.balance), least(found.totalBalance)];
          const squares = [a, c, ...(of === undefined ? [] : [of])].map((one) => (own / one) ** 2);
          const solutions = [b, ...(to === undefined ? [] : [to])].map((one) => (whole / one) ** 2);
          expect([...squares, ...solutions].reduce((sum, one) => sum + one, 0)).toBeLessThanOrEqual(1 + 1e-9);
          expect(found.thinned === null && b > 250 ? 'too much in one' : '').toBe('');
        },
      ),
      some,
    );
  });
  test('1.25 µg within 2 % is thinned twice, not dissolved in 3 kg', () => {
    // 41 mg × √(3 ÷ 0.9) = 75 mg → 80 mg; 80 mg × √(80 mg ÷ 1.25 µg) = 20.2 g → 25 g; 1.25 µg × (25 ÷ 0.08)² = 0.122 g.
    const found = stockSolution(grams(1.25e-6), 0.02, settings);
    expect([found?.dissolve.value, found?.total.value, found?.thinned?.of.value, found?.thinned?.total.value]).toEqual([
      0.08, 25, 0.08, 25,
    ]);
    expect(found?.take.value).toBeCloseTo(0.12207, 5);
  });
  test('none where the balance weighs it as it is', () => {
    expect(stockSolution(grams(5), 0.02, settings)).toBeNull();
  });
});

describe('measures', () => {
  const volume = fc.double({ min: 1e-3, max: 20_000, noNaN: true });
  test('a measure that serves holds the volume and keeps inside the accepted range', () => {
    fc.assert(
      fc.property(volume, fc.double({ min: 0.002, max: 0.2, noNaN: true }), (v, t) => {
        const found = measureFor(v, t, settings, rows);
        if (!found?.meets) return;
        expect(found.measure.nominal * found.fills).toBeGreaterThanOrEqual(v * (1 - 1e-9));
        expect((found.tolerance?.value ?? 0) * found.fills).toBeLessThanOrEqual(v * t * (1 + 1e-9));
      }),
      some,
    );
  });
  test('a flask that contains is never proposed; a transfer pipette only at its mark; a burette only from 30 %', () => {
    const only = (measure: (typeof settings.measures)[number]) => ({ ...settings, measures: [measure] });
    const flask = only({ name: 'flask', nominal: 100, readability: 0.1, standard: 'ISO 1042, class A' });
    expect(measureFor(100, 0.1, flask, rows)).toBeNull();
    const pipette = only({ name: 'pipette', nominal: 25, readability: 25, standard: 'ISO 648, class A' });
    expect([25, 50, 20].map((v) => measureFor(v, 0.01, pipette, rows)?.meets)).toEqual([true, true, false]);
    const burette = only({ name: 'burette', nominal: 50, readability: 0.05, standard: 'ISO 385, class A' });
    expect(measureFor(10, 0.05, burette, rows)).toBeNull();
    expect(measureFor(20, 0.05, burette, rows)).toMatchObject({ meets: true, kind: 'burette' });
  });
  test('says the standard, the class, the tolerance and that it is from memory', () => {
    const exact = entered('x', 40, 'mL', 'a test');
    const more = {
      tolerancePercent: 5,
      portions: 1,
      moles: null,
      basisMoles: 1,
      settings,
      measureTolerances: rows,
      dissolves: true,
    };
    expect(deviceWords(takeOf({ by: 'volume', exact, ...more }))).toBe(
      'cylinder 50 mL (ISO 4788, class A, ±0.5 mL, from memory)',
    );
  });
});

test('nothing is rounded to nothing: far below what a balance shows the target keeps three digits and is flagged', () => {
  const rest = { portions: 1, tolerancePercent: 10, moles: 2e-9, basisMoles: 1e-9, settings, measureTolerances: [] };
  for (const [by, unit, value] of [
    ['mass', 'g', 2.468e-5],
    ['volume', 'mL', 2.468e-5],
  ] as const) {
    const found = takeOf({ by, exact: entered('x', value, unit, 'a test'), dissolves: false, ...rest });
    expect(found).toMatchObject({ target: 2.47e-5, meets: false });
    expect(found.equivalents).toBeCloseTo(2 * (2.47 / 2.468), 9);
  }
});

test('rounding keeps moles within the stated rounding: half a line a portion', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0.01, max: 5000, noNaN: true }),
      fc.constantFrom<'mass' | 'volume'>('mass', 'volume'),
      fc.integer({ min: 1, max: 6 }),
      (value, by, portions) => {
        const exact = entered('x', value, by === 'mass' ? 'g' : 'mL', 'a test');
        const more = {
          tolerancePercent: 2,
          portions,
          moles: value / 100,
          basisMoles: 1,
          settings,
          measureTolerances: rows,
          dissolves: true,
        };
        const take = takeOf({ by, exact, ...more });
        const names = [...settings.balances, ...settings.measures];
        const line = lineOf(names.find((one) => one.name === take.device)?.readability ?? Number.NaN);
        expect(Math.abs((take.moles ?? 0) * 100 - value)).toBeLessThanOrEqual((line / 2) * portions * (1 + 1e-9) + line / 2);
      },
    ),
    some,
  );
});

describe('in a plan', () => {
  const made = (amount: number) =>
    planOf(
      route({ a: 'C14H12O2', b: 'C14H10O2', cat: 'C8H6' }, [
        step({ id: '1', basis: 'a', product: 'b', equivalents: { cat: 0.001 } }),
      ]),
      [draw('b', amount)],
    );
  test('a catalyst too small to weigh says which stock solution does it', () => {
    const result = made(1);
    const said = result.notices.find((notice) => notice.code === 'weigh as a stock solution');
    expect(said?.at).toMatchObject({ step: '1', material: 'cat' });
    const { stock, target, exact, equivalents } = chargeOf(result, '1', 'cat').perBatch;
    expect(stock?.take.value).toBeGreaterThan(0.041);
    // Half a milligram is not rounded to the whole milligrams of the balance.
    expect(Math.abs(target / (exact?.value ?? Number.NaN) - 1)).toBeLessThan(0.005);
    expect(equivalents).toBeCloseTo(0.001, 5);
  });
  test('equivalents count against the basis as it is weighed', () => {
    const result = made(0.05);
    const basis = chargeOf(result, '1', 'a').perBatch;
    expect(basis.equivalents).toBeCloseTo(1, 12);
    const scale = basis.target / (basis.exact?.value ?? Number.NaN);
    expect(Math.abs(scale - 1)).toBeGreaterThan(1e-4);
    const other = chargeOf(result, '1', 'cat').perBatch;
    const rounded = other.target / (other.exact?.value ?? Number.NaN);
    expect(other.equivalents).toBeCloseTo((0.001 * rounded) / scale, 12);
  });
  test('no stock solution of a solvent', () => {
    const water = { name: 'water', formula: 'H2O', cas: '7732-18-5', utility: true };
    const little = { do: 'charge', id: 'w', stage: 'reaction', material: 'water' } as const;
    const more = [{ ...little, rule: { kind: 'volumes', millilitresPerGram: 1 } } as const];
    const result = planOf(route({ a: 'C14H12O2', b: 'C14H10O2', water }, [step({ id: '1', basis: 'a', product: 'b', more })]), [
      draw('b', 0.002),
    ]);
    const said = result.notices.filter((notice) => notice.at.operation === 'w').map((notice) => notice.code);
    expect(said).toEqual(['too little to weigh']);
  });
  test('and nothing where it is weighable', () => {
    expect(made(1000).notices.map((notice) => notice.code)).not.toContain('weigh as a stock solution');
  });
});
