import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type CoverPack, leastCover } from '../../src/core/buy/cover.ts';

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
    expect(
      leastCover(1e6, [
        { amount: 0.001, price: 1 },
        { amount: 1.003, price: 2 },
      ]),
    ).toBeNull();
    expect(() => leastCover(5, [{ amount: 0, price: 1 }])).toThrow(/needs a pack above 0/);
    expect(() =>
      leastCover(5, [
        { amount: 1, price: null },
        { amount: 1, price: 1 },
      ]),
    ).toThrow(/every price or none/);
    expect(() => leastCover(Number.NaN, [])).toThrow(/needs an amount/);
  });

  test('large lists stay quick: 100 kg from packs of 1 g to 25 kg', () => {
    const packs = [1, 5, 10, 25, 100, 500, 1000, 2500, 5000, 25_000].map((amount) => ({ amount, price: amount ** 0.8 }));
    const started = performance.now();
    expect(leastCover(99_999, packs)?.quantity).toBeGreaterThanOrEqual(99_999);
    expect(performance.now() - started).toBeLessThan(3000);
  });
});
