import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type OrderGroup, withLeastOrders } from '../../src/core/buy/least-orders.ts';
import { cases } from '../cases.ts';

const pack = (amount: number, price: number, supplier: number | null = null, minimum = 1) => ({
  amount,
  price,
  supplier,
  minimum,
  serves: [0],
});
const group = (need: number, ...packs: ReturnType<typeof pack>[]): OrderGroup => ({ needs: [need], packs });

/** Every way to buy, tried: the least cost of those that cover each need and keep each least order. */
function tried(groups: readonly OrderGroup[], least: readonly number[]): number {
  const all = groups.flatMap(({ packs }, of) => packs.map((one) => ({ ...one, of })));
  let best = Infinity;
  const go = (at: number, open: readonly number[], spent: readonly number[], cost: number): void => {
    if (cost >= best) return;
    const one = all[at];
    if (!one) {
      const kept = spent.every((sum, by) => sum === 0 || sum >= (least[by] ?? 0));
      if (kept && open.every((left) => left <= 0)) best = cost;
      return;
    }
    const most = Math.max(
      one.minimum ?? 1,
      Math.ceil((open[one.of] ?? 0) / one.amount),
      one.supplier === null ? 0 : Math.ceil((least[one.supplier] ?? 0) / one.price),
    );
    for (let count = 0; count <= most; count += 1) {
      if (count > 0 && count < (one.minimum ?? 1)) continue;
      go(
        at + 1,
        open.map((left, of) => (of === one.of ? left - count * one.amount : left)),
        spent.map((sum, by) => (by === one.supplier ? sum + count * one.price : sum)),
        cost + count * one.price,
      );
    }
  };
  go(
    0,
    groups.map(({ needs: [need = 0] }) => need),
    least.map(() => 0),
    0,
  );
  return best;
}

describe('a choice over suppliers that keeps their least orders', () => {
  test('another supplier, where that costs less than more of what is needed', () => {
    // 10 g for 8 at North (least order 30), 10 g for 11 elsewhere.
    const one = group(10, pack(10, 8, 0), pack(10, 11));
    expect(withLeastOrders([one], [30])).toEqual({ counts: [[0, 1]], cost: 11, atLeast: 11 });
    // Four of North come to 32 and are dearer; of a least order of 10 two come to 16, still dearer than 11.
    expect(withLeastOrders([one], [10])?.cost).toBe(11);
    expect(withLeastOrders([one], [8])?.cost).toBe(8);
  });

  test('more than is needed, where nobody else has it: the larger pack that just reaches the order', () => {
    const one = group(10, pack(10, 8, 0), pack(50, 30, 0));
    expect(withLeastOrders([one], [30])).toEqual({ counts: [[0, 1]], cost: 30, atLeast: 30 });
  });

  test('two materials together reach the order that neither reaches alone', () => {
    const both = [group(10, pack(10, 8, 0), pack(10, 9)), group(5, pack(5, 12, 0), pack(5, 14))];
    expect(withLeastOrders(both, [20])).toMatchObject({
      counts: [
        [1, 0],
        [1, 0],
      ],
      cost: 20,
    });
    expect(withLeastOrders(both, [21])).toMatchObject({
      counts: [
        [0, 1],
        [0, 1],
      ],
      cost: 23,
    });
  });

  test('what no pack serves is no choice; what cannot all be gone through says what none costs less than', () => {
    expect(withLeastOrders([group(10)], [30])).toBeNull();
    const unlike = (seed: number): OrderGroup =>
      group(
        997.13,
        ...Array.from({ length: 9 }, (_, at) =>
          pack(1 + ((seed * 7919 + at * 104_729) % 9973) / 97, 1 + ((seed * 31 + at * 57) % 89) / 7, at % 3),
        ),
      );
    const found = withLeastOrders([unlike(1), unlike(2), unlike(3), unlike(4)], [9000, 8000, 7000]);
    if (!found) throw new Error('nothing found');
    expect(found.atLeast).toBeLessThanOrEqual(found.cost);
    expect(found.atLeast).toBeGreaterThan(0);
  });

  test('random instances cost what trying every way finds', () => {
    const packs = fc.array(
      fc.record({
        amount: fc.integer({ min: 3, max: 12 }),
        price: fc.integer({ min: 6, max: 40 }).map((value) => value / 4),
        supplier: fc.constantFrom(null, 0, 1),
        minimum: fc.constantFrom(1, 1, 1, 2),
        serves: fc.constant([0]),
      }),
      { minLength: 1, maxLength: 3 },
    );
    const groups = fc.array(fc.record({ needs: fc.tuple(fc.integer({ min: 1, max: 18 })), packs }), {
      minLength: 1,
      maxLength: 2,
    });
    fc.assert(
      fc.property(groups, fc.tuple(fc.integer({ min: 1, max: 15 }), fc.integer({ min: 1, max: 15 })), (all, least) => {
        const found = withLeastOrders(all, least);
        expect(found?.cost).toBeCloseTo(tried(all, least), 9);
        expect(found?.atLeast).toBe(found?.cost);
        const spent = least.map((_, by) =>
          all.reduce(
            (sum, one, of) =>
              sum +
              one.packs.reduce(
                (money, { supplier, price }, at) => money + (supplier === by ? price * (found?.counts[of]?.[at] ?? 0) : 0),
                0,
              ),
            0,
          ),
        );
        for (const [by, sum] of spent.entries()) expect(sum === 0 || sum >= (least[by] ?? 0) - 1e-9).toBe(true);
        for (const [of, one] of all.entries()) {
          const held = one.packs.reduce((sum, { amount }, at) => sum + amount * (found?.counts[of]?.[at] ?? 0), 0);
          expect(held).toBeGreaterThanOrEqual(one.needs[0]);
        }
      }),
      { numRuns: cases(600) },
    );
  });
});
