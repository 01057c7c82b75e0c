import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { leastCost } from '../../src/core/plan/solve/linear-program.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Route, Step } from '../../src/core/route/route.ts';
import type { Pack } from '../../src/core/shelf/pack.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, planOf, route, settings, shelfOf, step, stepOf, TODAY } from './build.ts';

// Molar masses from CIAAW 2021 conventional weights: C6H6 78.114, C6H12 84.162.
const materials = { a: 'C6H6', b: 'C6H12', c: 'C6H6', d: 'C6H6', e: 'C6H6' };
const MASS = 78.114;

const pack = (material: string, price: number): Pack => ({ material, amount: 100, unit: 'g', price });

function priced(
  one: Route,
  draws: Parameters<typeof planOf>[1],
  packs: readonly Pack[],
  leaveOut: readonly string[] = [],
): PlanResult {
  return plan({
    route: one,
    ask: { name: 'a plan', draws: [...draws], leaveOut: [...leaveOut] },
    shelf: { ...shelfOf(one, []), packs: [...packs] },
    settings,
    reference,
    asOf: TODAY,
  });
}

const twoProducts = (yieldPercent?: number): Partial<Step> => ({
  equation: {
    uses: [{ material: 'a', coefficient: 1 }],
    makes: [
      { material: 'b', coefficient: 1 },
      { material: 'c', coefficient: 1, ...(yieldPercent === undefined ? {} : { yieldPercent }) },
    ],
  },
});

describe('two makers of one material', () => {
  const one = route(materials, [
    step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50 }),
    step({ id: '2', basis: 'c', product: 'b', yieldPercent: 80 }),
  ]);

  test('without prices the lighter way runs, and the plan says what the other would take', () => {
    const result = planOf(one, [draw('b', 1, 'mol')]);
    expect(stepOf(result, '2').basis.moles.value).toBeCloseTo(1.25, 12);
    expect(stepOf(result, '1')).toMatchObject({ active: false, whyIdle: 'another makes it' });
    expect(result.choices).toHaveLength(1);
    expect(result.choices[0]).toMatchObject({ material: 'b', by: 'mass', makers: [{ runs: false }, { runs: true }] });
    const costs = result.choices[0]?.makers.map((maker) => maker.cost ?? 0) ?? [];
    expect(costs[0]).toBeCloseTo(2 * MASS, 9);
    expect(costs[1]).toBeCloseTo(1.25 * MASS, 9);
    expect(result.notices.map((notice) => notice.code)).toContain('maker chosen');
  });

  test('with prices the cheaper way runs: 2 mol at 1 a gram against 1.25 mol at 2', () => {
    const result = priced(one, [draw('b', 1, 'mol')], [pack('a', 100), pack('c', 200)]);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo(2, 12);
    expect(result.choices[0]?.by).toBe('price');
    expect(result.choices[0]?.makers.map((maker) => maker.cost ?? 0)).toEqual([
      expect.closeTo(2 * MASS, 9),
      expect.closeTo(2.5 * MASS, 9),
    ]);
  });

  test('a step left out by hand stays out; where it was the only maker its product is bought', () => {
    const other = priced(one, [draw('b', 1, 'mol')], [pack('a', 100), pack('c', 200)], ['1']);
    expect(stepOf(other, '1').whyIdle).toBe('left out');
    expect(stepOf(other, '2').basis.moles.value).toBeCloseTo(1.25, 12);
    const chain = route(materials, [step({ id: '1', basis: 'a', product: 'b' }), step({ id: '2', basis: 'b', product: 'c' })]);
    const bought = planOf(chain, [draw('c', 1, 'mol')], [], { ask: { leaveOut: ['1'] } });
    expect(bought.solved).toBe(true);
    expect(bought.fetch.map((line) => [line.material, Math.round(line.need.value * 1000) / 1000])).toEqual([['b', 84.162]]);
  });

  test('stock of the material comes first', () => {
    const result = planOf(one, [draw('b', 1, 'mol')], [bottle('b', 84.162 / 2)]);
    expect(stepOf(result, '2').basis.moles.value).toBeCloseTo(0.625, 9);
  });

  test('a way round a loop without end is taken', () => {
    const loop = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', equivalents: { b: 1 } }),
      step({ id: '2', basis: 'c', product: 'b' }),
    ]);
    expect(stepOf(planOf(loop, [draw('b', 1, 'mol')]), '2').basis.moles.value).toBeCloseTo(1, 12);
    const hopeless = planOf(loop, [draw('b', 1, 'mol')], [], { ask: { leaveOut: ['2'] } });
    expect(hopeless.solved).toBe(false);
  });
});

describe('a step with two wanted products', () => {
  test('the greater need decides, the rest of the other is left over', () => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50, extra: twoProducts(40) })]);
    const result = planOf(one, [draw('b', 1, 'mol'), draw('c', 1, 'mol')]);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo(2.5, 12);
    expect(stepOf(result, '1').product.moles.value).toBeCloseTo(1.25, 12);
    expect(stepOf(result, '1').seconds).toMatchObject([{ material: 'c' }]);
    const left = result.flow.bands.filter((band) => band.to.kind === 'left over');
    expect(left.map((band) => [band.material, Number(band.moles.value.toFixed(9))])).toEqual([['b', 0.25]]);
  });

  test('without a yield of its own a drawn by-product has the step’s, and that is said', () => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50, extra: twoProducts() })]);
    const result = planOf(one, [draw('c', 1, 'mol')]);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo(2, 12);
    expect(result.notices.map((notice) => notice.code)).toContain('second at the same yield');
  });

  test('what is left over of one is not worked up for nothing, even where that would cost nothing', () => {
    // Both rows tie: b comes beside the c that is drawn, and the step from b to d buys nothing.
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50, extra: twoProducts() }),
      step({ id: '2', basis: 'b', product: 'd', yieldPercent: 90 }),
    ]);
    const result = planOf(one, [draw('b', 1e-6), draw('c', 1, 'mol')]);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo(2, 12);
    expect(stepOf(result, '2').active).toBe(false);
  });

  test('a by-product that is not isolated is no source of what another step charges', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', extra: twoProducts() }),
      step({ id: '2', basis: 'b', product: 'd', equivalents: { c: 3 } }),
    ]);
    expect(planOf(one, [draw('d', 1, 'mol')]).fetch.map((line) => line.material)).toContain('c');
  });

  test('an isolated by-product serves a later step; what is missing of it is made by its own maker', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', extra: twoProducts(100) }),
      step({ id: '2', basis: 'b', product: 'd', equivalents: { c: 3 } }),
      step({ id: '3', basis: 'e', product: 'c', yieldPercent: 50 }),
    ]);
    // Where the other maker costs little, it makes the rest; where it costs much, more of the first step is run for it.
    const cheap = priced(one, [draw('d', 1, 'mol')], [pack('a', 1000), pack('e', 1)]);
    expect(stepOf(cheap, '1').basis.moles.value).toBeCloseTo(1, 12);
    expect(stepOf(cheap, '3').basis.moles.value).toBeCloseTo(4, 12);
    const dear = priced(one, [draw('d', 1, 'mol')], [pack('a', 1), pack('e', 1000)]);
    expect(stepOf(dear, '1').basis.moles.value).toBeCloseTo(3, 12);
    expect(stepOf(dear, '3').active).toBe(false);
  });

  test('a made material that comes back in larger amount than was taken counts as made', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b' }),
      step({ id: '2', basis: 'b', product: 'c', recovers: [{ material: 'd', molesPerMoleBasis: 0.5 }] }),
      step({ id: '3', basis: 'e', product: 'd', yieldPercent: 50 }),
    ]);
    const result = planOf(one, [draw('c', 1, 'mol'), draw('d', 1, 'mol')]);
    expect(stepOf(result, '3').basis.moles.value).toBeCloseTo(1, 12);
  });
});

/** Random choices: every material has one to three makers, each from a bought basis and from earlier materials. */
const hundredths = (max: number) => fc.integer({ min: 0, max }).map((value) => value / 100);
const networks = fc.integer({ min: 1, max: 4 }).chain((count) =>
  fc.record({
    draws: fc.array(hundredths(500), { minLength: count, maxLength: count }),
    makers: fc.array(
      fc.array(
        fc.record({
          yieldPercent: fc.integer({ min: 10, max: 100 }),
          price: fc.integer({ min: 1, max: 1000 }),
          uses: fc.array(hundredths(200), { minLength: count, maxLength: count }),
        }),
        { minLength: 1, maxLength: 3 },
      ),
      { minLength: count, maxLength: count },
    ),
  }),
);

type Shape = typeof networks extends fc.Arbitrary<infer T> ? T : never;

/** By trying every way of picking one maker for each material: what the whole then costs. */
function byTrying(shape: Shape): number {
  const count = shape.draws.length;
  let least = Number.POSITIVE_INFINITY;
  const pick = (material: number, chosen: readonly number[]): void => {
    if (material < count) {
      (shape.makers[material] ?? []).forEach((_, index) => pick(material + 1, [...chosen, index]));
      return;
    }
    const need = [...shape.draws];
    let cost = 0;
    for (let m = count - 1; m >= 0; m -= 1) {
      const maker = shape.makers[m]?.[chosen[m] ?? 0];
      if (!maker) continue;
      const start = (need[m] ?? 0) / (maker.yieldPercent / 100);
      cost += start * maker.price;
      for (let used = 0; used < m; used += 1) need[used] = (need[used] ?? 0) + start * (maker.uses[used] ?? 0);
    }
    least = Math.min(least, cost);
  };
  pick(0, []);
  return least;
}

test('the cheapest of all ways, against trying every one; with earlier materials only', () => {
  fc.assert(
    fc.property(networks, (shape) => {
      const columns = shape.makers.flatMap((list, material) => list.map((maker) => ({ ...maker, material })));
      const rows = shape.draws.map((_, m) =>
        columns.map((one) => (one.material === m ? one.yieldPercent / 100 : m < one.material ? -(one.uses[m] ?? 0) : 0)),
      );
      const solved = leastCost({ rows, floors: shape.draws, scale: shape.draws, costs: columns.map((one) => [one.price]) });
      expect(solved.ok).toBe(true);
      if (!solved.ok) return;
      const cost = solved.x.reduce((sum, start, j) => sum + start * (columns[j]?.price ?? 0), 0);
      const expected = byTrying(shape);
      expect(Math.abs(cost - expected)).toBeLessThanOrEqual(1e-9 * Math.max(1e-6, expected));
      rows.forEach((row, m) => {
        const made = row.reduce((sum, value, j) => sum + value * (solved.x[j] ?? 0), 0);
        expect(made).toBeGreaterThanOrEqual((shape.draws[m] ?? 0) - 1e-9 * (1 + (shape.draws[m] ?? 0)));
      });
    }),
    { numRuns: 2000 },
  );
});
