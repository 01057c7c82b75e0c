import { expect, test } from 'vitest';
import type { RunRow } from '../../src/core/port/runs.ts';
import { routeUse } from '../../src/core/run/route-use.ts';
import { route, step } from './build.ts';

const two = route({ a: 'C6H12', b: 'C6H12', c: 'C6H12' }, [
  step({ id: '1', basis: 'a', product: 'b' }),
  step({ id: '2', basis: 'b', product: 'c' }),
]);

/** A finished run of a step. */
const run = (id: number, of: string, grams: number | null, yieldPercent: number | null, more: Partial<RunRow> = {}): RunRow => ({
  id,
  plan: 1,
  revision: 1,
  route: 1,
  step: of,
  batch: 1,
  sheet: '1-1',
  title: of,
  early: false,
  started: `2027-02-0${id}T09:00:00.000Z`,
  last: `2027-02-0${id}T12:00:00.000Z`,
  phase: 'finished',
  weighed: 1,
  charges: 1,
  basisFactor: 1,
  basisGrams: 10,
  productGrams: grams,
  yieldPercent,
  uncorrected: false,
  cumulativePercent: yieldPercent,
  bottles: [],
  ...more,
});

test('the mean overall yield is the product of the mean yields along the path; the largest run is one of the last step', () => {
  const rows = [run(1, '1', 40, 80), run(2, '1', 30, 60), run(3, '2', 12, 50), run(4, '2', 18, 70)];
  expect(routeUse(two, rows, '2027-02-03T10:00:00.000Z')).toEqual({
    last: '2027-02-04T12:00:00.000Z',
    runs: 4,
    largest: { run: 4, grams: 18, material: 'c' },
    meanOverallPercent: expect.closeTo(0.7 * 60, 9),
    unrun: 0,
  });
});

test('a step without a finished run: the mean is not known, and how many lack one is said', () => {
  const rows = [run(1, '1', 40, 80), run(2, '2', 12, 50, { phase: 'running' })];
  expect(routeUse(two, rows, null)).toMatchObject({ meanOverallPercent: null, unrun: 1, largest: { run: 2, grams: 12 } });
});

test('no last product yet: the largest run of any step; nothing run: nothing claimed', () => {
  expect(routeUse(two, [run(1, '1', 40, 80)], null).largest).toEqual({ run: 1, grams: 40, material: 'b' });
  expect(routeUse(two, [], null)).toEqual({ last: null, runs: 0, largest: null, meanOverallPercent: null, unrun: 0 });
  expect(routeUse(two, [], '2027-02-03T10:00:00.000Z').last).toBe('2027-02-03T10:00:00.000Z');
});

test('a yield that a later step counts needs no run of its own', () => {
  const telescoped = { ...two, steps: two.steps.map((one) => (one.id === '1' ? { ...one, yieldCountedIn: '2' } : one)) };
  expect(routeUse(telescoped, [run(1, '2', 12, 50)], null)).toMatchObject({ meanOverallPercent: 50, unrun: 0 });
});

test('a run of a step that the route no longer has is counted, and gives no largest run', () => {
  expect(routeUse(two, [run(1, 'gone', 40, 80)], null)).toMatchObject({
    runs: 1,
    largest: null,
    meanOverallPercent: null,
    unrun: 2,
  });
});
