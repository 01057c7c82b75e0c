import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plan } from '../../src/core/plan/plan.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Operation, Route, Step } from '../../src/core/route/route.ts';
import type { Pack } from '../../src/core/shelf/pack.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, shelfOf, step, stepOf, TODAY } from './build.ts';

/** C6H12, g/mol (CIAAW 2021, conventional). */
const M = 84.162;
/** One vessel that takes everything, so that only the limits of the steps ask for batches. */
const roomy = { ...settings, vessels: [{ name: 'a tank', nominal: 1e9 }] };

interface Maker {
  readonly price: number;
  readonly percent: number;
  /** g of product that stays behind in every batch; g of basis a batch at most; price of what rinses every batch. */
  readonly lost: number;
  readonly limit: number;
  readonly rinse: number;
  /** Mol of each earlier material per mol of basis. */
  readonly uses: readonly number[];
}

interface Shape {
  readonly makers: readonly (readonly Maker[])[];
  /** g of each material. */
  readonly draws: readonly number[];
}

const rinseWith = (material: string): Operation => ({
  do: 'charge',
  id: 'r',
  stage: 'work-up',
  material,
  rule: { kind: 'per batch', amount: 1, unit: 'g' },
});

function stepsOf({ makers }: Shape): readonly Step[] {
  return makers.flatMap((list, m) =>
    list.map((one, at) =>
      step({
        id: `s${m}-${at}`,
        basis: `raw${m}-${at}`,
        product: `m${m}`,
        yieldPercent: one.percent,
        equivalents: Object.fromEntries(one.uses.flatMap((value, used) => (value > 0 ? [[`m${used}`, value]] : []))),
        more: one.rinse > 0 ? [rinseWith(`rinse${m}-${at}`)] : [],
        extra: {
          ...(one.lost > 0 ? { lossPerBatch: { grams: one.lost, reason: 'film' } } : {}),
          batchLimit: { grams: one.limit, reason: 'flask' },
        },
      }),
    ),
  );
}

function planned(shape: Shape): PlanResult {
  const steps = stepsOf(shape);
  const names = new Set([
    ...steps.flatMap((one) => [one.basis, one.product]),
    ...steps.flatMap((one) => one.operations.flatMap((operation) => (operation.do === 'charge' ? [operation.material] : []))),
  ]);
  const one: Route = route(Object.fromEntries([...names].map((name) => [name, 'C6H12'])), steps);
  const packs = shape.makers.flatMap((list, m) =>
    list.flatMap(({ price, rinse: each }, at): readonly Pack[] => [
      { material: `raw${m}-${at}`, amount: 1, unit: 'g', price },
      ...(each > 0 ? [{ material: `rinse${m}-${at}`, amount: 1, unit: 'g', price: each } as const] : []),
    ]),
  );
  const draws = shape.draws.flatMap((grams, m) => (grams > 0 ? [draw(`m${m}`, grams)] : []));
  return plan({
    route: one,
    ask: { name: 'a plan', draws },
    shelf: { ...shelfOf(one, []), packs },
    settings: roomy,
    reference,
    asOf: TODAY,
  });
}

/** What a plan's running steps cost, by hand: basis and rinses. */
function costOf(shape: Shape, result: PlanResult): number {
  return shape.makers.reduce(
    (sum, list, m) =>
      list.reduce((all, one, at) => {
        const { active, basis, batches } = stepOf(result, `s${m}-${at}`);
        return active ? all + basis.moles.value * M * one.price + batches.count * one.rinse : all;
      }, sum),
    0,
  );
}

/** The least cost over every choice of one maker for each material, each worked out from the last material to the first. */
function byTrying({ makers, draws }: Shape): number {
  let least = Number.POSITIVE_INFINITY;
  const pick = (m: number, need: readonly number[], cost: number): void => {
    if (m < 0) {
      least = Math.min(least, cost);
      return;
    }
    const wanted = need[m] ?? 0;
    if (wanted <= 0) return pick(m - 1, need, cost);
    for (const one of makers[m] ?? []) {
      let batches = 1;
      const start = (): number => (wanted + (batches * one.lost) / M) / (one.percent / 100);
      while (Math.ceil((start() * M) / one.limit - 1e-9) > batches) batches = Math.ceil((start() * M) / one.limit - 1e-9);
      const next = need.map((value, used) => (used < m ? value + start() * (one.uses[used] ?? 0) : value));
      pick(m - 1, next, cost + start() * M * one.price + batches * one.rinse);
    }
  };
  pick(
    makers.length - 1,
    draws.map((grams) => grams / M),
    0,
  );
  return least;
}

describe('the maker of least cost, with what stays behind and what is charged once a batch', () => {
  const film: Shape = {
    makers: [
      [
        { price: 1, percent: 100, lost: 2, limit: 1e6, rinse: 0, uses: [] },
        { price: 3, percent: 100, lost: 0, limit: 1e6, rinse: 0, uses: [] },
      ],
    ],
    draws: [0.5],
  };

  test('0.5 g: 2.5 g at 1 a gram with a film of 2 g is dearer than 0.5 g at 3; for 50 g it is not', () => {
    const tiny = planned(film);
    expect(stepOf(tiny, 's0-0').active).toBe(false);
    expect(stepOf(tiny, 's0-1').basis.grams.value).toBeCloseTo(0.5, 9);
    expect(tiny.choices[0]?.makers.map((one) => one.cost)).toEqual([expect.closeTo(2.5, 9), expect.closeTo(1.5, 9)]);
    expect(stepOf(tiny, 's0-0').whyIdle).toBe('another makes it');
    const large = planned({ ...film, draws: [50] });
    expect(stepOf(large, 's0-0').basis.grams.value).toBeCloseTo(52, 9);
    expect(stepOf(large, 's0-1').active).toBe(false);
  });

  test('many small batches each lose their film: for 50 g at 4 g a batch the other maker is cheaper again', () => {
    const [first, other] = film.makers[0] ?? [];
    const small = planned({ makers: [[{ ...(first as Maker), limit: 3 }, other as Maker]], draws: [50] });
    expect(stepOf(small, 's0-1').active).toBe(true);
  });

  test('a rinse once a batch has its price', () => {
    const rinsed = planned({
      makers: [
        [
          { price: 1, percent: 100, lost: 0, limit: 1e6, rinse: 9, uses: [] },
          { price: 3, percent: 100, lost: 0, limit: 1e6, rinse: 0, uses: [] },
        ],
      ],
      draws: [1],
    });
    expect(stepOf(rinsed, 's0-1').active).toBe(true);
    expect(rinsed.choices[0]?.makers.map((one) => one.cost)).toEqual([expect.closeTo(10, 9), expect.closeTo(3, 9)]);
  });

  test('the cheapest of all ways, against trying every one', () => {
    const zeroOr = (arbitrary: fc.Arbitrary<number>) => fc.oneof(fc.constant(0), arbitrary);
    const shapes = fc.integer({ min: 1, max: 4 }).chain((count) => {
      const maker = fc.record({
        price: fc.integer({ min: 1, max: 10 }),
        percent: fc.integer({ min: 20, max: 100 }),
        lost: zeroOr(fc.double({ min: 0.1, max: 3, noNaN: true })),
        limit: fc.integer({ min: 50, max: 500 }),
        rinse: zeroOr(fc.integer({ min: 1, max: 50 })),
        uses: fc.array(zeroOr(fc.double({ min: 0.1, max: 1, noNaN: true })), { minLength: count, maxLength: count }),
      });
      return fc.record({
        makers: fc
          .array(fc.array(maker, { minLength: 1, maxLength: 3 }), { minLength: count, maxLength: count })
          .map((lists) =>
            lists.map((list, m) => list.map((one) => ({ ...one, uses: one.uses.map((value, used) => (used < m ? value : 0)) }))),
          ),
        draws: fc.array(fc.constantFrom(0, 0.01, 1, 30, 200), { minLength: count, maxLength: count }),
      });
    });
    fc.assert(
      fc.property(shapes, (shape) => {
        const result = planned(shape);
        expect(result.solved).toBe(true);
        const expected = byTrying(shape);
        expect(Math.abs(costOf(shape, result) - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1, expected));
      }),
      { numRuns: 25 },
    );
  });
});
