import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { LEAST_MULTIPLIER, leastMultiplier, MOST_MULTIPLIER } from '../../src/core/confidence/least-multiplier.ts';
import { chanceOfAtLeast, outcomeAt, valueAt } from '../../src/core/confidence/sorted-outcomes.ts';

/** Rising curves that meet enough near `root`, each unkind to some way of looking for it. */
const CURVES = {
  proportional: (m: number, root: number) => m / root,
  steep: (m: number, root: number) => (m / root) ** 3,
  'nearly flat': (m: number, root: number) => (m / root) ** 0.2,
  'a film in the flask: nothing comes out of a small start': (m: number, root: number) =>
    Math.max(0, (m - 0.3 * root) / (0.7 * root)),
  'another batch: a jump': (m: number, root: number) => (m < root ? (0.5 * m) / root : 1.0000001 * (m / root) ** 0.1),
  'a jump between two levels': (m: number, root: number) => (m < root ? 0.999999 : 1.000001),
  stairs: (m: number, root: number) => Math.floor((10 * m) / root) / 10 + 1e-9,
} as const;

describe('the least multiplier that is enough', () => {
  test.each(Object.entries(CURVES))('%s: enough itself, and a ten-thousandth less is not', (_, curve) => {
    fc.assert(
      fc.property(fc.double({ min: -1.9, max: 1.9, noNaN: true }), (power) => {
        const root = 10 ** power;
        let trials = 0;
        const found = leastMultiplier((m) => {
          trials += 1;
          return curve(m, root);
        });
        expect(found).not.toBeNull();
        expect(curve(found ?? 0, root)).toBeGreaterThanOrEqual(1);
        const less = (found ?? 0) / (1 + 1.01e-4);
        if (less > LEAST_MULTIPLIER) expect(curve(less, root)).toBeLessThan(1);
        expect(trials).toBeLessThanOrEqual(40);
      }),
      { numRuns: 150 },
    );
  });

  test('a plan whose outcomes grow with the start is found in three trials', () => {
    for (const root of [0.7, 1.234, 2.9]) {
      let trials = 0;
      leastMultiplier((m) => {
        trials += 1;
        return m / root;
      });
      expect(trials).toBeLessThanOrEqual(3);
    }
  });

  test('none where even the largest start is not enough; the smallest where that is enough already', () => {
    expect(leastMultiplier((m) => m / (MOST_MULTIPLIER * 1.01))).toBeNull();
    expect(leastMultiplier(() => 0)).toBeNull();
    expect(leastMultiplier(() => 1)).toBe(LEAST_MULTIPLIER);
  });
});

describe('outcomes', () => {
  test('the value at a place is that of the sorted list, with many alike too', () => {
    const lists = fc.array(fc.oneof(fc.integer({ min: 0, max: 9 }), fc.double({ noNaN: true })), { minLength: 1, maxLength: 60 });
    fc.assert(
      fc.property(lists, fc.nat(), (list, at) => {
        const outcomes = Float64Array.from(list, (value) => value + 0);
        expect(valueAt(outcomes, at % list.length)).toBe(outcomes.toSorted()[at % list.length]);
        expect([...outcomes]).toEqual(list.map((value) => value + 0));
      }),
    );
  });

  test('of ten even outcomes: half are at least the middle, none more than the last, all as much as the first', () => {
    const ten = Float64Array.from({ length: 10 }, (_, i) => i + 0.5);
    expect(chanceOfAtLeast(ten, 5)).toBeCloseTo(0.5, 12);
    expect(chanceOfAtLeast(ten, 0.1)).toBe(1);
    expect(chanceOfAtLeast(ten, 10)).toBe(0);
    expect(outcomeAt(ten, 0.5)).toBeCloseTo(5, 12);
    expect(outcomeAt(ten, 0)).toBe(0.5);
    expect(outcomeAt(ten, 1)).toBe(9.5);
  });
});
