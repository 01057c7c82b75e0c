import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { leastSolution } from '../../src/core/plan/solve/solve.ts';
import type { Route } from '../../src/core/route/route.ts';
import { usableStock } from '../../src/core/plan/stock/route-stock.ts';
import { setUp } from '../../src/core/plan/set-up.ts';
import { type Starts, startSteps } from '../../src/core/plan/solve/starts.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, route, settings, shelfOf, step, TODAY } from '../core/build.ts';

/** Networks tried for each invariant. */
const RUNS = 1000;

/** A random network as plain numbers: step i makes material m_i from a bought basis or from other products. */
interface Shape {
  readonly yields: readonly number[];
  readonly ratios: readonly number[];
  /** equivalents[i][j]: mol of product j charged per mol of basis of step i; j may come later (a loop). */
  readonly equivalents: readonly (readonly number[])[];
  readonly draws: readonly number[];
  readonly stock: readonly number[];
}

const shapes = (loops: boolean): fc.Arbitrary<Shape> =>
  fc
    .oneof({ weight: 19, arbitrary: fc.integer({ min: 1, max: 12 }) }, { weight: 1, arbitrary: fc.integer({ min: 13, max: 60 }) })
    .chain((count) => {
      const list = (arbitrary: fc.Arbitrary<number>): fc.Arbitrary<number[]> =>
        fc.array(arbitrary, { minLength: count, maxLength: count });
      const amount = fc.oneof(
        { weight: 2, arbitrary: fc.constant(0) },
        { weight: 1, arbitrary: fc.double({ min: 0.01, max: 10, noNaN: true }) },
      );
      const shape = fc.record({
        yields: list(fc.integer({ min: 20, max: 100 })),
        ratios: list(fc.constantFrom(0.5, 1, 2)),
        equivalents: fc.array(list(amount), { minLength: count, maxLength: count }),
        draws: list(amount),
        stock: list(amount),
      });
      if (!loops)
        return shape.map((one) => ({
          ...one,
          equivalents: one.equivalents.map((row, i) => row.map((value, j) => (j < i ? value : 0))),
        }));
      return fc.tuple(shape, fc.double({ min: 0.1, max: 0.99, noNaN: true })).map(([one, radius]) => withRadius(one, radius));
    });

/** Scales what the steps use of each other so that the whole returns a part `radius` of what it takes, or less. */
function withRadius(shape: Shape, radius: number): Shape {
  const made = shape.yields.map((percent, i) => (percent / 100) * (shape.ratios[i] ?? 1));
  let vector = shape.yields.map(() => 1);
  let growth = 0;
  // Power iteration on A + 1, which has no period: its largest eigenvalue is that of A plus one.
  for (let round = 0; round < 500; round += 1) {
    const next = vector.map(
      (value, i) =>
        value + vector.reduce((sum, start, j) => sum + (start * (shape.equivalents[j]?.[i] ?? 0)) / (made[i] ?? 1), 0),
    );
    growth = Math.max(...next);
    vector = next.map((value) => value / growth);
  }
  const factor = Math.min(1, radius / Math.max(1e-9, growth - 1));
  return { ...shape, equivalents: shape.equivalents.map((row) => row.map((value) => value * factor)) };
}

const FORMULA = 'C6H12';
const MASS = 84.162;

function routeOf(shape: Shape): Route {
  const keys = shape.yields.map((_, i) => `m${i}`);
  const materials = Object.fromEntries([...keys, ...keys.map((key) => `raw-${key}`)].map((key) => [key, FORMULA]));
  return route(
    materials,
    keys.map((key, i) =>
      step({
        id: `s${i}`,
        basis: `raw-${key}`,
        product: key,
        yieldPercent: shape.yields[i] ?? 100,
        basisCoefficient: 1 / (shape.ratios[i] ?? 1),
        equivalents: Object.fromEntries(
          keys.flatMap((other, j): [string, number][] =>
            (shape.equivalents[i]?.[j] ?? 0) > 0 ? [[other, shape.equivalents[i]?.[j] ?? 0]] : [],
          ),
        ),
      }),
    ),
  );
}

const drawsOf = (shape: Shape, scale = 1) => shape.draws.map((moles, i) => draw(`m${i}`, moles * scale, 'mol'));
const bottlesOf = (shape: Shape, scale = 1) =>
  shape.stock.flatMap((moles, i) => (moles > 0 ? [bottle(`m${i}`, moles * MASS * scale)] : []));

function started(shape: Shape, scale = 1): Starts {
  const { input, network, facts, bottles, reading } = setUp({
    route: routeOf(shape),
    ask: { name: 'a plan', draws: drawsOf(shape, scale) },
    shelf: shelfOf(routeOf(shape), bottlesOf(shape, scale)),
    settings,
    reference,
    asOf: TODAY,
  });
  if (!network.ok) throw new Error(network.notices.map((notice) => notice.code).join());
  const solved = startSteps(input, network.network, facts, reading.wants, usableStock(input, network.network, facts, bottles));
  if (!solved.ok) throw new Error(solved.notice.code);
  return solved.starts;
}

const starts = (shape: Shape, scale = 1): readonly number[] => started(shape, scale).steps.map((one) => one.basisMoles.value);

/** The naive second implementation: repeat "start what is short" until nothing changes. */
function byRepetition(shape: Shape): readonly number[] {
  const made = shape.yields.map((percent, i) => (percent / 100) * (shape.ratios[i] ?? 1));
  let x = shape.yields.map(() => 0);
  for (let round = 0; round < 20_000; round += 1) {
    const next = x.map((_, i) => {
      const used = x.reduce((sum, start, j) => sum + start * (shape.equivalents[j]?.[i] ?? 0), 0);
      return Math.max(0, ((shape.draws[i] ?? 0) + used - (shape.stock[i] ?? 0)) / (made[i] ?? 1));
    });
    const moved = next.some((value, i) => Math.abs(value - (x[i] ?? 0)) > 1e-15 * Math.max(1, value));
    x = next;
    if (!moved) break;
  }
  return x;
}

const close = (one: number, other: number, relative = 1e-9): boolean =>
  Math.abs(one - other) <= 1e-10 + relative * Math.max(Math.abs(one), Math.abs(other));

describe.each([
  ['without loops', false],
  ['with loops', true],
])('any network %s', (_, loops) => {
  test('agrees with plain repetition to 1e-9', () => {
    fc.assert(
      fc.property(shapes(loops), (shape) => {
        const expected = byRepetition(shape);
        starts(shape).forEach((value, i) => expect(close(value, expected[i] ?? 0), `${value} against ${expected[i]}`).toBe(true));
      }),
      { numRuns: RUNS },
    );
  });

  test('draws and stock times k give starts times k', () => {
    fc.assert(
      fc.property(shapes(loops), fc.double({ min: 0.01, max: 100, noNaN: true }), (shape, k) => {
        const scaled = starts(shape, k);
        starts(shape).forEach((value, i) => expect(close(scaled[i] ?? 0, value * k)).toBe(true));
      }),
      { numRuns: RUNS },
    );
  });

  test('forward again, every draw is met, and just met where something is started', () => {
    fc.assert(
      fc.property(shapes(loops), (shape) => {
        const x = starts(shape);
        x.forEach((start, i) => {
          const made = (start * (shape.yields[i] ?? 0) * (shape.ratios[i] ?? 1)) / 100;
          const used = x.reduce((sum, other, j) => sum + other * (shape.equivalents[j]?.[i] ?? 0), 0);
          const left = made + (shape.stock[i] ?? 0) - used - (shape.draws[i] ?? 0);
          expect(left).toBeGreaterThan(-1e-9 * Math.max(1, made));
          if (start > 0) expect(Math.abs(left)).toBeLessThan(1e-9 * Math.max(1, made));
        });
      }),
      { numRuns: RUNS },
    );
  });

  test('more stock never raises a start; a better yield never raises one', () => {
    fc.assert(
      fc.property(shapes(loops), fc.nat(), (shape, at) => {
        const i = at % shape.yields.length;
        const before = starts(shape);
        const stock = shape.stock.map((moles, index) => (index === i ? moles + 1 : moles));
        const yields = shape.yields.map((percent, index) => (index === i ? Math.min(100, percent + 5) : percent));
        for (const after of [starts({ ...shape, stock }), starts({ ...shape, yields })]) {
          after.forEach((value, index) => expect(value).toBeLessThanOrEqual((before[index] ?? 0) * (1 + 1e-9) + 1e-12));
        }
      }),
      { numRuns: RUNS },
    );
  });
});

test('after any first part of the work went exactly as planned, planning the rest changes nothing', () => {
  fc.assert(
    fc.property(shapes(false), fc.nat(), (shape, at) => {
      const before = starts(shape);
      // Without loops the file's order is a working order: the first steps are run, what they made and used is on the shelf.
      const run = at % (before.length + 1);
      const stock = shape.stock.map((moles, i) => {
        const made = i < run ? ((before[i] ?? 0) * (shape.yields[i] ?? 0) * (shape.ratios[i] ?? 1)) / 100 : 0;
        const used = before.slice(0, run).reduce((sum, start, j) => sum + start * (shape.equivalents[j]?.[i] ?? 0), 0);
        return Math.max(0, moles + made - used);
      });
      const size = Math.max(1, ...before, ...stock);
      starts({ ...shape, stock }).forEach((after, i) => {
        expect(Math.abs(after - (i < run ? 0 : (before[i] ?? 0)))).toBeLessThan(1e-9 * size);
      });
    }),
    { numRuns: RUNS },
  );
});

describe('handing out', () => {
  test('moles are conserved: what bands bring to a material is what bands take from it', () => {
    fc.assert(
      fc.property(shapes(true), (shape) => {
        const { steps, handovers } = started(shape);
        steps.forEach(({ productMoles }, i) => {
          const made = productMoles.value;
          const given = handovers
            .filter(({ from }) => from.kind === 'step' && from.step === i)
            .reduce((sum, one) => sum + one.moles, 0);
          expect(Math.abs(made - given)).toBeLessThan(1e-8 * Math.max(1, made));
        });
      }),
      { numRuns: RUNS },
    );
  });

  test('the same input gives the same plan to the last digit', () => {
    fc.assert(
      fc.property(shapes(true), (shape) => {
        const again = (): string => JSON.stringify(starts(shape));
        expect(again()).toBe(again());
      }),
      { numRuns: RUNS },
    );
  });
});

describe('the least solution', () => {
  test('a loop near its limit is solved, past it refused', () => {
    expect(leastSolution([[0.99]], [1], [0])?.[0]).toBeCloseTo(100, 6);
    expect(leastSolution([[1]], [1], [0])).toBeNull();
    expect(
      leastSolution(
        [
          [0, 2],
          [0.51, 0],
        ],
        [1, 0],
        [0, 0],
      ),
    ).toBeNull();
    expect(
      leastSolution(
        [
          [0, 2],
          [0.49, 0],
        ],
        [1, 0],
        [0, 0],
      )?.[0],
    ).toBeCloseTo(1 / (1 - 0.98), 9);
  });
});
