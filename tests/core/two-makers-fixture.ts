import fc from 'fast-check';
import { expect } from 'vitest';
import type { Draw } from '../../src/core/plan/ask.ts';
import { shortNotices } from '../../src/core/plan/solve/left-short.ts';
import { setUp } from '../../src/core/plan/set-up.ts';
import { startSteps } from '../../src/core/plan/solve/starts.ts';
import type { Route } from '../../src/core/route/route.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, shelfOf, step, TODAY } from './build.ts';

/** C6H12, g/mol (CIAAW 2021, conventional). */
const MASS = 84.162;

/**
 * A random network with a choice: every material has one to three makers, each from something bought and from any of the
 * materials, its own product too (loops), always returning less than it takes.
 */
export interface TwoMakers {
  readonly makers: readonly (readonly {
    readonly percent: number;
    readonly weight: number;
    readonly uses: readonly number[];
  }[])[];
  /** Mol of each material. */
  readonly draws: readonly number[];
}

/** From 1 µmol to 100 t. */
const spread = fc.double({ min: -6, max: Math.log10(1e8 / MASS), noNaN: true }).map((power) => 10 ** power);

/** @param most materials at most. */
export function twoMakers(most: number): fc.Arbitrary<TwoMakers> {
  return fc.integer({ min: 1, max: most }).chain((count) => {
    const uses = fc.array(fc.oneof(fc.constant(0), fc.double({ min: 0.01, max: 1, noNaN: true })), {
      minLength: count,
      maxLength: count,
    });
    const maker = fc
      .record({
        percent: fc.integer({ min: 10, max: 100 }),
        weight: fc.integer({ min: 1, max: 20 }),
        uses,
        returns: fc.constantFrom(0.5, 0.7, 0.99),
      })
      .map(({ percent, weight, uses: all, returns }) => {
        const sum = all.reduce((total, one) => total + one, 0);
        const factor = Math.min(1, (returns * percent) / 100 / Math.max(sum, 1e-300));
        return { percent, weight, uses: all.map((one) => one * factor) };
      });
    return fc.record({
      makers: fc.array(fc.array(maker, { minLength: 1, maxLength: 3 }), { minLength: count, maxLength: count }),
      draws: fc.array(fc.oneof({ weight: 1, arbitrary: fc.constant(0) }, { weight: 3, arbitrary: spread }), {
        minLength: count,
        maxLength: count,
      }),
    });
  });
}

/** The network as a route; `weight` is how much of its bought basis a maker takes, so that makers differ in cost. */
function routeOf({ makers }: TwoMakers): Route {
  const keys = makers.map((_, m) => `m${m}`);
  const steps = makers.flatMap((list, m) =>
    list.map(({ percent, weight, uses }, at) =>
      step({
        id: `s${m}-${at}`,
        basis: `raw${m}-${at}`,
        product: `m${m}`,
        yieldPercent: percent,
        equivalents: {
          ...Object.fromEntries(uses.flatMap((value, used) => (value > 0 ? [[`m${used}`, value]] : []))),
          solvent: weight,
        },
      }),
    ),
  );
  const raws = steps.map((one) => one.basis);
  return route(Object.fromEntries([...keys, ...raws, 'solvent'].map((key) => [key, 'C6H12'])), steps);
}

/** The draws of it, in mol. */
function drawsOf({ draws }: TwoMakers): readonly Draw[] {
  return draws.map((moles, m) => draw(`m${m}`, moles, 'mol'));
}

/** By material, mol: what the starts make of it, less what they use and what is drawn; and the size of what is added up. */
function balanceOf(shape: TwoMakers, starts: readonly number[]): readonly { readonly rest: number; readonly size: number }[] {
  const columns = shape.makers.flatMap((list, material) => list.map((maker) => ({ ...maker, material })));
  return shape.draws.map((drawn, m) =>
    columns.reduce(
      ({ rest, size }, { material, percent, uses }, j) => {
        const made = material === m ? (percent / 100) * (starts[j] ?? 0) : 0;
        const used = (uses[m] ?? 0) * (starts[j] ?? 0);
        return { rest: rest + made - used, size: size + made + used };
      },
      { rest: -drawn, size: drawn },
    ),
  );
}

/** The starts of a random network, and what the plan says is short. */
function started(shape: TwoMakers) {
  const one = routeOf(shape);
  const ask = { name: 'a plan', draws: [...drawsOf(shape)] };
  const { input, network, facts, reading } = setUp({
    route: one,
    ask,
    shelf: shelfOf(one, []),
    settings,
    reference,
    asOf: TODAY,
  });
  if (!network.ok) throw new Error(network.notices.map((notice) => notice.code).join());
  const solved = startSteps(input, network.network, facts, reading.wants, []);
  if (!solved.ok) throw new Error(solved.notice.code);
  const { steps, handovers } = solved.starts;
  const batches = steps.map(() => 0);
  const short = shortNotices({ network: network.network, facts, steps, wants: reading.wants, batches, handovers });
  return { starts: steps.map((requirement) => requirement.basisMoles.value), short };
}

/** Fails where a material of the network is made less than asked by more than a sum of doubles loses, or called short. */
export function allMade(shape: TwoMakers): void {
  const { starts, short } = started(shape);
  balanceOf(shape, starts).forEach(({ rest, size }, m) => {
    const drawn = shape.draws[m] ?? 0;
    expect(rest, `material ${m}, ${drawn} mol drawn`).toBeGreaterThanOrEqual(-1e-9 * drawn - 2e-14 * size - 1e-14);
  });
  expect(short).toEqual([]);
}
