import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { crystallise, leastSolvent, secondCrop } from '../../src/core/crystallise/crystallise.ts';
import { fitted, perSolvent, solubilityAt, vantHoffFit } from '../../src/core/crystallise/solubility.ts';

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
    const found = solubilityAt(points, '100 g solvent', celsius);
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

  test('outside the points nothing is said, and one point is too few', () => {
    expect(solubilityAt(points, '100 g solvent', -1)).toMatchObject({ ok: false, why: { code: 'outside solubility points' } });
    expect(solubilityAt(points.slice(0, 1), '100 g solvent', 0)).toMatchObject({
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
    const fit = vantHoffFit(exact, '100 g solvent');
    expect(fit?.slope).toBeCloseTo(-3500, 6);
    expect(fit?.scatter).toBeLessThan(1e-9);
    expect(fit && fitted(fit, 40)).toBeCloseTo(exact[1]?.grams ?? Number.NaN, 9);
    expect(vantHoffFit(exact.slice(0, 1), '100 g solvent')).toBeNull();
  });
});
