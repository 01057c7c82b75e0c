import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { leastCost } from '../../src/core/plan/solve/linear-program.ts';
import { shortNotices } from '../../src/core/plan/solve/left-short.ts';
import { setUp } from '../../src/core/plan/set-up.ts';
import { startSteps } from '../../src/core/plan/solve/starts.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { cases } from '../cases.ts';
import { draw, route, settings, shelfOf, step, TODAY } from './build.ts';
import { allMade, twoMakers } from './two-makers-fixture.ts';

describe('a draw of 1 µmol beside 100 t, with two makers of one material', () => {
  test('is met to 1e-9 of itself', () => {
    const solved = leastCost({
      rows: [
        [0.5, 0, 0],
        [-0.7, 0.8, 1],
      ],
      floors: [1e-8, 1e6],
      scale: [1e-8, 1e6],
      costs: [[5], [1], [5]],
    });
    if (!solved.ok) throw new Error('not reached');
    expect(Math.abs(0.5 * (solved.x[0] ?? 0) - 1e-8)).toBeLessThan(1e-17);
    expect(solved.x[1]).toBeCloseTo(1.25e6, 6);
  });

  test('every material of any network is made, to what a sum of doubles can hold, and none is called short', () => {
    fc.assert(fc.property(twoMakers(5), allMade), { numRuns: cases(1000) });
  });
});

test('a plan that leaves a draw or a step short says so, with the material and how much', () => {
  const one = route({ a: 'C6H12', b: 'C6H12', c: 'C6H12' }, [
    step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
    step({ id: '2', basis: 'b', product: 'c', yieldPercent: 50 }),
  ]);
  const ask = { name: 'a plan', draws: [draw('c', 84.162)] };
  const { input, network, facts, reading } = setUp({
    route: one,
    ask,
    shelf: shelfOf(one, []),
    settings,
    reference,
    asOf: TODAY,
  });
  if (!network.ok) throw new Error('no network');
  const solved = startSteps(input, network.network, facts, reading.wants, []);
  if (!solved.ok) throw new Error(solved.notice.code);
  const { steps, handovers } = solved.starts;
  // A hundredth of what the first step hands on is taken away.
  const fewer = handovers.map((each) => (each.material === 'b' ? { ...each, moles: each.moles * 0.99 } : each));
  const all = { network: network.network, facts, steps, wants: reading.wants, batches: [1, 1] };
  expect(shortNotices({ ...all, handovers })).toEqual([]);
  const [short] = shortNotices({ ...all, handovers: fewer });
  // 2 mol of b are asked for; 1 % of that is 1.683 g.
  expect(short).toMatchObject({ code: 'left short', at: { step: '2', material: 'b' } });
  expect(short?.values.amount).toBeCloseTo(1.68324, 5);
  expect(short && sentence(short)).toContain('1.683 g too little b (1.00 % of what is asked');
});
