import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Operation } from '../../src/core/route/route.ts';
import { bottle, draw, planOf, route, settings, step, stepOf } from '../core/build.ts';

/** C6H12, g/mol (CIAAW 2021, conventional). */
const M = 84.162;
/** One vessel that takes everything, so that only the limits of the steps ask for batches. */
const roomy = { ...settings, vessels: [{ name: 'a tank', nominal: 1e12 }] };

/** A step of a random network; amounts in g, `uses[j]` in mol of product j per mol of basis. */
interface Shape {
  readonly percent: number;
  readonly coefficient: number;
  /** Product it starts from, if there is one of that number before it. */
  readonly from: number;
  readonly uses: readonly number[];
  /** % of what it charges of its basis that comes back. */
  readonly back: number;
  readonly film: number;
  readonly limit: number;
  /** Charged once a batch, of product `seed`. */
  readonly seed: number;
  readonly seeded: number;
  readonly drawn: number;
  readonly stock: number;
  readonly assay: number;
  readonly leastAssay: number;
}

const rarely = <T>(of: fc.Arbitrary<T>, none: T, weight = 3): fc.Arbitrary<T> =>
  fc.oneof({ weight, arbitrary: fc.constant(none) }, { weight: 1, arbitrary: of });
/** g, spread evenly over powers of ten. */
const spread = (from: number, to: number): fc.Arbitrary<number> =>
  fc.double({ min: from, max: to, noNaN: true }).map((power) => 10 ** power);

const nearly = (one: number, other: number): boolean => Math.abs(one - other) < 1e-9 * other;

const networks = fc.integer({ min: 1, max: 8 }).chain((count) => {
  const one: fc.Arbitrary<Shape> = fc.record({
    percent: fc.integer({ min: 1, max: 100 }),
    coefficient: fc.constantFrom(1, 2, 0.5),
    from: fc.integer({ min: -2, max: count - 1 }),
    uses: fc.array(rarely(fc.double({ min: 0.05, max: 3, noNaN: true }), 0), { minLength: count, maxLength: count }),
    back: rarely(fc.constantFrom(10, 50, 99), 0),
    film: rarely(spread(-3, 0), 0),
    limit: rarely(spread(0.5, 3), 0),
    seed: fc.nat(count - 1),
    seeded: rarely(spread(-3, 0.5), 0),
    drawn: fc.oneof(fc.constantFrom(0, 0, 1, 10), spread(-6, 6)),
    stock: rarely(spread(-3, 3), 0),
    assay: fc.constantFrom(100, 90),
    leastAssay: rarely(fc.constant(95), 0, 9),
  });
  return fc.array(one, { minLength: count, maxLength: count }).map((list) =>
    list.map((shape, i) => ({
      ...shape,
      from: shape.from < i ? shape.from : -1,
      // So near that only the rounding of doubles tells whether a batch is needed: then it is the stock itself.
      drawn: nearly(shape.drawn, (shape.stock * shape.assay) / 100) ? (shape.stock * shape.assay) / 100 : shape.drawn,
      uses: shape.uses.map((value, j) => (j < i && j !== shape.from ? value : 0)),
      seeded: shape.seed < i ? shape.seeded : 0,
      // Where the film takes most of a batch, a thousand batches are not enough, and that is said.
      film: shape.limit > 0 ? Math.min(shape.film, (0.002 * shape.limit * shape.percent) / shape.coefficient) : shape.film,
    })),
  );
});

function planned(shapes: readonly Shape[]) {
  const steps = shapes.map((one, i) =>
    step({
      id: `s${i}`,
      basis: one.from >= 0 ? `m${one.from}` : `raw${i}`,
      product: `m${i}`,
      yieldPercent: one.percent,
      basisCoefficient: one.coefficient,
      equivalents: Object.fromEntries(one.uses.flatMap((value, j) => (value > 0 ? [[`m${j}`, value]] : []))),
      recovers: one.back > 0 && one.from >= 0 ? [{ material: `m${one.from}`, percentOfCharge: one.back }] : [],
      more: one.seeded > 0 ? [seedOf(one)] : [],
      extra: {
        ...(one.film > 0 ? { lossPerBatch: { grams: one.film, reason: 'film' } } : {}),
        ...(one.limit > 0 ? { batchLimit: { grams: one.limit, reason: 'flask' } } : {}),
      },
    }),
  );
  const materials = Object.fromEntries(steps.flatMap((one) => [one.basis, one.product]).map((key) => [key, 'C6H12']));
  const draws = shapes.flatMap((one, i) =>
    one.drawn > 0 ? [draw(`m${i}`, one.drawn, 'g', { leastAssayPercent: one.leastAssay })] : [],
  );
  const bottles = shapes.flatMap((one, i) =>
    one.stock > 0 ? [bottle(`m${i}`, one.stock, 'g', { kind: 'neat', assayPercent: one.assay })] : [],
  );
  return { draws, result: planOf(route(materials, steps), draws, bottles, { settings: roomy }) };
}

const seedOf = (one: Shape): Operation => ({
  do: 'charge',
  id: 'seed',
  stage: 'work-up',
  material: `m${one.seed}`,
  rule: { kind: 'per batch', amount: one.seeded, unit: 'g' },
});

/** The naive second implementation: from the last step to the first, and again while batches still grow. */
function byHand(shapes: readonly Shape[]): { readonly starts: readonly number[]; readonly batches: readonly number[] } {
  let batches = shapes.map(() => 0);
  for (;;) {
    const starts = shapes.map(() => 0);
    for (let j = shapes.length - 1; j >= 0; j -= 1) {
      const one = shapes[j] as Shape;
      const pure = (one.stock * one.assay) / 100;
      const film = (batches[j] ?? 0) * one.film;
      const used = shapes.reduce((sum, user, i) => {
        const basis = user.from === j ? 1 - user.back / 100 : 0;
        const seeds = user.seed === j ? user.seeded * (batches[i] ?? 0) : 0;
        return sum + (starts[i] ?? 0) * M * (basis + (user.uses[j] ?? 0)) + seeds;
      }, 0);
      const strict = one.leastAssay > 0 ? one.drawn - (one.assay >= one.leastAssay ? pure : 0) : 0;
      const grams = Math.max(0, one.drawn + used - pure + film, strict + film, film);
      starts[j] = (grams / M / (one.percent / 100)) * one.coefficient;
    }
    const next = starts.map((start, i) => {
      const { limit } = shapes[i] as Shape;
      // A difference of doubles that is rounding starts nothing.
      if (start * M < 1e-11) return 0;
      return Math.min(1000, Math.max(batches[i] ?? 0, 1, limit > 0 ? Math.ceil((start * M) / limit - 1e-9) : 1));
    });
    if (next.every((count, i) => count === batches[i])) return { starts, batches };
    batches = next;
  }
}

test('films, seeds, limits, recovered basis, stock of a purity: starts and batches as worked out by hand', () => {
  fc.assert(
    fc.property(networks, (shapes) => {
      const { draws, result } = planned(shapes);
      expect(result.solved).toBe(true);
      const { starts, batches } = byHand(shapes);
      shapes.forEach((_, i) => {
        const { basis, batches: planned, active } = stepOf(result, `s${i}`);
        const expected = starts[i] ?? 0;
        expect(Math.abs(basis.moles.value - expected)).toBeLessThanOrEqual(1e-9 * expected + 1e-12);
        if (active && expected * M > 1e-9) expect(planned.count).toBe(batches[i]);
      });
      // Beside tonnes of a material a sum of doubles keeps no nanogram of a draw.
      const most = Math.max(0, ...starts) * M;
      for (const one of draws) {
        const got = result.flow.bands.reduce(
          (sum, { to, grams }) => (to.kind === 'draw' && to.draw === one.id ? sum + grams.value : sum),
          0,
        );
        expect(Math.abs(got - one.amount)).toBeLessThanOrEqual(1e-9 * one.amount + 1e-14 * most + 1e-12);
      }
    }),
    { numRuns: 1000 },
  );
}, 120_000);
