import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { branchedCover } from '../../src/core/buy/cover-whole.ts';
import { type CoverPack, leastCover } from '../../src/core/buy/cover.ts';
import { worked } from '../worked.ts';

interface Solved {
  readonly kind: string;
  readonly need: number;
  /** Amount, price and least number of each. */
  readonly packs: readonly (readonly [number, number | null, number])[];
  readonly best: readonly number[];
}
const solved = JSON.parse(readFileSync(new URL('./cover-solver.json', import.meta.url), 'utf8')) as readonly Solved[];

/** Every way to buy, tried one after another: slow, and without a thought in common with the program's way. */
function everyWay(need: number, packs: readonly CoverPack[]): readonly [cost: number, quantity: number, packs: number] | null {
  let best: readonly [number, number, number] | null = null;
  const search = (at: number, cost: number, quantity: number, count: number): void => {
    const pack = packs[at];
    if (!pack) {
      if (quantity < need) return;
      const found = [cost, quantity, count] as const;
      const before = best;
      const by = before === null ? -1 : found.map((one, nth) => one - (before[nth] ?? 0)).find((one) => one !== 0);
      if (by !== undefined && by < 0) best = found;
      return;
    }
    // More than covers the need alone, or than its minimum, is never less.
    const most = Math.max(Math.ceil(need / pack.amount), pack.minimum ?? 1);
    for (let times = 0; times <= most; times += 1) {
      if (times > 0 && times < (pack.minimum ?? 1)) continue;
      search(at + 1, cost + times * (pack.price ?? 0), quantity + times * pack.amount, count + times);
    }
  };
  search(0, 0, 0, 0);
  return best;
}

/** Of all covers the one that is judged first, fewest of the last pack where all is equal: every one is tried. */
function firstOfEqual(need: number, packs: readonly Required<CoverPack>[]): readonly number[] | undefined {
  let best: readonly number[] | null = null;
  const search = (counts: readonly number[], [cost, quantity, number]: readonly [number, number, number]): void => {
    const one = packs[counts.length];
    if (!one) {
      const judged = [cost, quantity, number, ...counts.toReversed()];
      const by = best === null ? -1 : judged.map((value, at) => value - (best?.[at] ?? 0)).find((value) => value !== 0);
      if (quantity >= need && by !== undefined && by < 0) best = judged;
      return;
    }
    for (let times = 0; times <= Math.max(Math.ceil(need / one.amount), one.minimum); times += 1) {
      if (times > 0 && times < one.minimum) continue;
      search([...counts, times], [cost + times * (one.price ?? 0), quantity + times * one.amount, number + times]);
    }
  };
  search([], [0, 0, 0]);
  return (best as readonly number[] | null)?.slice(3).toReversed();
}

const pack = fc.record({
  amount: fc.integer({ min: 1, max: 30 }),
  price: fc.integer({ min: 0, max: 40 }),
  minimum: fc.integer({ min: 1, max: 4 }),
});

describe('the least cover', () => {
  test('is what trying every way finds: 2000 random price lists, ties in quantity and number of packs too', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60 }), fc.array(pack, { minLength: 1, maxLength: 4 }), (need, packs) => {
        const found = leastCover(need, packs);
        expect(found && [found.cost, found.quantity, found.packs]).toEqual(everyWay(need, packs));
      }),
      { numRuns: 2000 },
    );
  });

  test('without prices it is the least left over, then the fewest packs', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), fc.array(pack, { minLength: 1, maxLength: 4 }), (need, priced) => {
        const packs = priced.map(({ amount, minimum }) => ({ amount, minimum, price: null }));
        const found = leastCover(need, packs);
        const best = everyWay(need, packs);
        expect(found && [found.quantity, found.packs]).toEqual(best?.slice(1));
        expect(found?.cost).toBeNull();
        expect(found?.leftOver).toBe((found?.quantity ?? 0) - need);
      }),
      { numRuns: 1000 },
    );
  });

  test('always covers, keeps every minimum, costs what it says, and never more than one kind alone', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 5000, noNaN: true }),
        fc.array(pack, { minLength: 1, maxLength: 8 }),
        (need, packs) => {
          const found = leastCover(need, packs);
          if (!found) throw new Error('no cover');
          expect(found.quantity).toBeGreaterThanOrEqual(need - 1e-6);
          found.counts.forEach((count, at) => expect(count === 0 || count >= (packs[at]?.minimum ?? 1)).toBe(true));
          expect(found.cost).toBe(found.counts.reduce((sum, count, at) => sum + count * (packs[at]?.price ?? 0), 0));
          for (const one of packs) {
            const times = need <= 1e-9 ? 0 : Math.max(one.minimum, Math.ceil(need / one.amount - 1e-9));
            expect(found.cost ?? 0).toBeLessThanOrEqual(times * one.price);
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  test('of equal covers the one with fewest of the last pack, then of the one before it, whichever way it was found', () => {
    // Prices that follow the amount make many covers equal in cost, quantity and number of packs.
    const even = fc
      .integer({ min: 1, max: 9 })
      .chain((amount) =>
        fc.record({ amount: fc.constant(amount), price: fc.constant(amount * 2), minimum: fc.integer({ min: 1, max: 3 }) }),
      );
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 36 }), fc.array(even, { minLength: 1, maxLength: 4 }), (need, packs) => {
        const first = firstOfEqual(need, packs);
        expect(leastCover(need, packs)?.counts).toEqual(first);
        expect(branchedCover(need, packs)).toEqual(first);
      }),
      { numRuns: 300 },
    );
    // 7 × 5 g and 3 × 5 + 2 × 8 + 2 × 2 g are both 35 g in seven packs for 70.
    const kinds = [6, 5, 8, 2].map((amount, at) => ({ amount, price: amount * 2, minimum: [1, 3, 2, 1][at] ?? 1 }));
    expect(branchedCover(35, kinds)).toEqual([0, 7, 0, 0]);
  });

  test('amounts with decimals and prices in cents are exact', () => {
    const packs = [
      { amount: 2.5, price: 0.1 },
      { amount: 0.1, price: 0.004 },
    ];
    expect(leastCover(7.5, packs)).toMatchObject({ counts: [3, 0], cost: 0.3, quantity: 7.5, leftOver: 0 });
    expect(leastCover(0.3, [{ amount: 0.1, price: 1 }])?.counts).toEqual([3]);
  });

  test('nothing needed, nothing bought; no packs, no answer; too fine a measure is said, never guessed', () => {
    expect(leastCover(0, [{ amount: 5, price: 9, minimum: 3 }])).toMatchObject({ counts: [0], cost: 0, packs: 0 });
    expect(leastCover(5, [])).toBeNull();
    const alike = Array.from({ length: 8 }, (_, at) => ({ amount: 99.999983 + at * 1.000019, price: null }));
    expect(leastCover(9e5, alike)).toBeNull();
    expect(() => leastCover(5, [{ amount: 0, price: 1 }])).toThrow(/needs a pack above 0/);
    expect(() =>
      leastCover(5, [
        { amount: 1, price: null },
        { amount: 1, price: 1 },
      ]),
    ).toThrow(/every price or none/);
    expect(() => leastCover(Number.NaN, [])).toThrow(/needs an amount/);
  });

  test('large lists stay quick: 100 kg from packs of 1 g to 25 kg', async () => {
    const packs = [1, 5, 10, 25, 100, 500, 1000, 2500, 5000, 25_000].map((amount) => ({ amount, price: amount ** 0.8 }));
    const took = await worked(() => expect(leastCover(99_999, packs)?.quantity).toBeGreaterThanOrEqual(99_999));
    expect(took).toBeLessThan(3000);
  });

  // Least cost, then least quantity at that cost, then fewest packs at both: scipy 1.17.1, optimize.milp (HiGHS), gap 0.
  test.each([...new Set(solved.map((one) => one.kind))])('is what an integer solver finds: %s', (kind) => {
    for (const { need, packs, best } of solved.filter((one) => one.kind === kind)) {
      const list = packs.map(([amount, price, minimum]) => ({ amount, price, minimum }));
      const found = leastCover(need, list);
      const got = [...(best.length === 3 ? [found?.cost] : []), found?.quantity, found?.packs];
      expect(got, JSON.stringify(packs)).toEqual(best.map((one) => expect.closeTo(one, 5)));
    }
  });
});
