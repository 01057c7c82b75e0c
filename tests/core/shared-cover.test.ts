import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { leastCover } from '../../src/core/buy/cover.ts';
import { sharedCover, type SharedPack } from '../../src/core/buy/shared-cover.ts';
import { cases } from '../cases.ts';

const pack = (serves: number[]): fc.Arbitrary<SharedPack> =>
  fc.record({
    amount: fc.integer({ min: 1, max: 9 }),
    price: fc.integer({ min: 0, max: 40 }),
    minimum: fc.integer({ min: 1, max: 4 }),
    serves: fc.constant(serves),
  });
const served = fc.subarray([0, 1, 2], { minLength: 1 }).chain((serves) => pack(serves));
const instance = fc.record({
  needs: fc.tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 12 })),
  packs: fc.array(served, { minLength: 1, maxLength: 3 }),
});

/** Whether units can be handed out one by one so that every need has its own: every way tried by augmenting paths. */
function goesRound(needs: readonly number[], packs: readonly SharedPack[], counts: readonly number[]): boolean {
  const units = packs.flatMap(({ amount, serves }, at) => Array.from({ length: (counts[at] ?? 0) * amount }, () => serves));
  const places = needs.flatMap((need, at) => Array.from({ length: need }, () => at));
  const holder = units.map(() => -1);
  const give = (place: number, seen: Set<number>): boolean =>
    units.some((serves, unit) => {
      if (seen.has(unit) || !serves.includes(places[place] ?? -1)) return false;
      seen.add(unit);
      if (holder[unit] !== -1 && !give(holder[unit] ?? 0, seen)) return false;
      holder[unit] = place;
      return true;
    });
  return places.every((_, place) => give(place, new Set()));
}

/** The least of every number of every pack tried. */
function tried(needs: readonly number[], packs: readonly SharedPack[]): readonly number[] | null {
  const total = needs.reduce((sum, need) => sum + need, 0);
  let best: readonly number[] | null = null;
  const search = (at: number, counts: readonly number[]): void => {
    const one = packs[at];
    if (one) {
      const { amount, minimum = 1 } = one;
      for (let count = 0; count <= Math.max(minimum, Math.ceil(total / amount)); count += 1) {
        if (count === 0 || count >= minimum) search(at + 1, [...counts, count]);
      }
      return;
    }
    const sum = (of: (pack: SharedPack) => number): number =>
      packs.reduce((all, each, nth) => all + (counts[nth] ?? 0) * of(each), 0);
    const worth = [sum(({ price }) => price ?? 0), sum(({ amount }) => amount), sum(() => 1)];
    const by = best === null ? -1 : worth.map((value, nth) => value - (best?.[nth] ?? 0)).find((difference) => difference !== 0);
    if ((by ?? 0) < 0 && goesRound(needs, packs, counts)) best = worth;
  };
  search(0, []);
  return best;
}

test('several needs of one material together cost the least there is: against every number of every pack, shared out unit by unit', () => {
  fc.assert(
    fc.property(instance, ({ needs, packs }) => {
      const cover = sharedCover(needs, packs);
      expect(cover ? [cover.cost, cover.quantity, cover.packs] : null).toEqual(tried(needs, packs));
      const low = packs.filter(({ minimum = 1 }, at) => (cover?.counts[at] ?? 0) > 0 && (cover?.counts[at] ?? 0) < minimum);
      expect(low).toEqual([]);
    }),
    { numRuns: cases(100) },
  );
});

test('one need is what one need is, with and without prices', () => {
  const one = fc.record({
    need: fc.integer({ min: 1, max: 60 }),
    packs: fc.array(pack([0]), { minLength: 1, maxLength: 4 }),
    priced: fc.boolean(),
  });
  fc.assert(
    fc.property(one, ({ need, packs, priced }) => {
      const all = packs.map((each) => (priced ? each : { ...each, price: null }));
      const [shared, least] = [sharedCover([need], all), leastCover(need, all)];
      expect([shared?.cost, shared?.quantity, shared?.packs]).toEqual([least?.cost, least?.quantity, least?.packs]);
    }),
    { numRuns: cases(100) },
  );
});

test('what serves none, or five needs at once, is not covered together', () => {
  expect(sharedCover([1, 1], [{ amount: 5, price: 1, serves: [0] }])).toBeNull();
  expect(sharedCover([1, 1, 1, 1, 1], [{ amount: 5, price: 1, serves: [0, 1, 2, 3, 4] }])).toBeNull();
});
