import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findPhaseChange } from '../../src/core/crystallise/phase-change.ts';
import { type SolubilityCurve, solubilityAt, solubilityCurve } from '../../src/core/crystallise/solubility-curve.ts';
import type { Solubility } from '../../src/core/crystallise/van-t-hoff.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { reference } from '../reference/tables.ts';

const curve = (points: readonly Solubility[], change?: number): SolubilityCurve =>
  solubilityCurve(
    points.map((one) => ({ ...one, figure: entered('solubility', one.grams, 'g', 'a test') })),
    change,
  );
const at = (of: SolubilityCurve, celsius: number): number => {
  const found = solubilityAt(of, celsius);
  return found.ok ? found.figure.value : Number.NaN;
};
const tabled = (solute: string): readonly Solubility[] =>
  (reference.rows.solubility.find((row) => row.solute === solute)?.points ?? []).map(([celsius, grams]) => ({ celsius, grams }));
const line = (heat: number, intercept: number) => (celsius: number) => Math.exp(intercept - heat / (celsius + 273.15));
const every10 = [0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100];

describe('a change of the solid told by the points', () => {
  // Transition temperatures: Gmelin and the CRC Handbook, from memory; 32.4 and 35.4 °C are fixed points of thermometry.
  test.each([
    ['Na2SO4', 25, 40, 32.4],
    ['Na2CO3', 25, 40, 35.4],
    ['Sr(NO3)2', 25, 40, 29.3],
    ['NaSCN', 25, 40, 30.4],
    ['Na2MoO4', 0, 20, 10.3],
    ['MgSO4', 50, 80, 68],
    ['FeSO4', 50, 70, 64],
  ])('%s: found where the handbooks have it', (solute, least, most, known) => {
    const change = findPhaseChange(tabled(solute));
    expect(change?.from).toBeGreaterThanOrEqual(least);
    expect(change?.to).toBeLessThanOrEqual(most);
    expect(Math.abs((change?.near ?? 0) - known)).toBeLessThan(10);
  });

  test.each(['NaCl', 'KCl', 'KNO3', 'NH4Cl', 'NH4Br', 'NaNO3', 'CuSO4', 'K2Cr2O7', 'KClO4', 'H3BO3', 'AgNO3', 'KI'])(
    '%s: none, however its solubility bends',
    (solute) => {
      expect(tabled(solute).length).toBeGreaterThan(4);
      expect(findPhaseChange(tabled(solute))).toBeNull();
    },
  );

  test('two straight lines are found again, and one straight line is never split', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1500, max: 5000, noNaN: true }),
        fc.double({ min: 25, max: 75, noNaN: true }),
        fc.double({ min: 0.02, max: 0.9, noNaN: true }),
        (heat, turn, part) => {
          const low = line(heat, 12);
          const above = heat * (1 - part) - 1500;
          const high = (celsius: number): number => low(turn) * Math.exp(-above * (1 / (celsius + 273.15) - 1 / (turn + 273.15)));
          const points = every10.map((celsius) => ({ celsius, grams: celsius <= turn ? low(celsius) : high(celsius) }));
          const found = findPhaseChange(points);
          expect(found).not.toBeNull();
          expect(Math.abs((found?.near ?? 0) - turn)).toBeLessThan(1e-3);
          expect(findPhaseChange(every10.map((celsius) => ({ celsius, grams: low(celsius) })))).toBeNull();
        },
      ),
      { numRuns: 500 },
    );
  });

  test('a smooth bend is no change, nor one that bends up', () => {
    const bent = every10.map((celsius) => ({ celsius, grams: Math.exp(1 + 0.04 * celsius - 1.5e-4 * celsius ** 2) }));
    expect(findPhaseChange(bent)).toBeNull();
    const up = every10.map((celsius) => ({ celsius, grams: celsius <= 45 ? 5 : 5 * Math.exp(0.04 * (celsius - 45)) }));
    expect(findPhaseChange(up)).toBeNull();
  });
});

describe('each side has its own line', () => {
  test('in the gap of sodium sulfate the peak comes back: 49.7 g per 100 g of water at 32.4 °C (Linke 1965, from memory)', () => {
    const of = curve(tabled('Na2SO4'));
    expect(at(of, 32.4)).toBeGreaterThan(46);
    expect(at(of, 32.4)).toBeLessThan(51);
    // A straight line between its neighbours would have said 43.
    expect(at(of, 30)).toBeCloseTo(41.28, 2);
    expect(at(of, 40)).toBeCloseTo(47.82, 2);
  });

  test('a change that is stated splits the points there; far outside them nothing is carried across it', () => {
    const straight = every10.slice(0, 5).map((celsius) => ({ celsius, grams: line(3000, 12)(celsius) }));
    const of = curve(straight, 15);
    expect(of.change).toMatchObject({ from: 10, to: 20, near: 15, stated: true });
    expect(of.sides.map((side) => side.points.length)).toEqual([2, 3]);
    expect(solubilityAt(curve(straight, 45), 50)).toMatchObject({ ok: false, why: { code: 'outside solubility points' } });
    expect(solubilityAt(curve(straight), 50)).toMatchObject({ ok: true });
  });

  test('a little beyond the points the line goes on, marked as an estimate; every point comes back', () => {
    const points = [0, 25, 60].map((celsius) => ({ celsius, grams: line(2500, 10)(celsius) }));
    const of = curve(points);
    expect(at(of, 70)).toBeCloseTo(line(2500, 10)(70), 6);
    expect(at(of, -10)).toBeCloseTo(line(2500, 10)(-10), 6);
    expect(at(of, 76)).toBeNaN();
    const found = solubilityAt(of, 70);
    expect(JSON.stringify(found)).toContain('"estimate"');
    for (const one of points) expect(at(of, one.celsius)).toBe(one.grams);
  });

  test('two values for one temperature: told, and their geometric mean is used', () => {
    const of = curve([
      { celsius: 0, grams: 1 },
      { celsius: 25, grams: 2 },
      { celsius: 25, grams: 8 },
    ]);
    expect(of.conflicts).toEqual([{ celsius: 25, least: 2, most: 8 }]);
    expect(at(of, 25)).toBeCloseTo(4, 12);
    expect(
      curve([
        { celsius: 0, grams: 1 },
        { celsius: 0, grams: 1 },
      ]).conflicts,
    ).toEqual([]);
  });
});
