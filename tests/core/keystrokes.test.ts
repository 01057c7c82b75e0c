import fc from 'fast-check';
import { expect, test } from 'vitest';
import { amountOf, suppliedIn } from '../../src/core/plan/amounts.ts';
import type { PlanInput } from '../../src/core/plan/input.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { rememberLast } from '../../src/core/remember.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, route, settings, shelfOf, step, TODAY } from './build.ts';
import { editsOf, expectNothingStale } from './edits-fixture.ts';

const washed: Operation = { do: 'removal', id: 'w', stage: 'work-up', how: 'filter', takes: [{ what: 'liquids', percent: 90 }] };
const two = route({ a: 'C6H6O', b: 'C7H8O', c: 'C8H10O', acid: { name: 'hydrochloric acid', cas: '7647-01-0' }, salt: 'NaCl' }, [
  step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80, equivalents: { acid: 1.2, salt: 2 }, more: [washed] }),
  step({ id: '2', basis: 'b', product: 'c', yieldPercent: 70, equivalents: { salt: 1 } }),
]);
const sixMolar: Form = { kind: 'solution', strength: { value: 6, basis: 'mol/L' } };
const small: PlanInput = {
  route: two,
  ask: { name: 'a plan', draws: [draw('c', 10), draw('b', 2)] },
  shelf: shelfOf(two, [bottle('a', 50), bottle('b', 3), bottle('acid', 100, 'mL', sixMolar), bottle('salt', 40)]),
  settings,
  reference,
  asOf: TODAY,
};

test('plan after plan is what each would be by itself', () => {
  fc.assert(
    fc.property(editsOf(small), (edits) => expectNothingStale(small, edits)),
    { numRuns: 4 },
  );
});

test('of what stands beside a value only the last is remembered, lists by their members', () => {
  const key = {};
  const calls: unknown[] = [];
  const known = rememberLast((_: object, one: string, list: readonly number[]) => calls.push([one, list]));
  expect([known(key, 'a', [1, 2]), known(key, 'a', [1, 2])]).toEqual([1, 1]);
  expect([known(key, 'a', [1, 3]), known(key, 'b', [1, 3]), known(key, 'b', [1])]).toEqual([2, 3, 4]);
  expect([known({}, 'b', [1]), known(key, 'a', [1, 2])]).toEqual([5, 6]);
});

test('what is asked of the shelf as a bare number is what its figure has', () => {
  const ethanol = factsOf({ name: 'ethanol', cas: '64-17-5' }, reference);
  const salt = factsOf({ name: 'a solid', formula: 'NaCl', state: 'solid' }, reference);
  const forms: readonly Form[] = [
    { kind: 'neat' },
    { kind: 'neat', assayPercent: 97 },
    { kind: 'solution', strength: { value: 70, basis: '% v/v' } },
    { kind: 'solution', strength: { value: 2, basis: 'mol/L' } },
    { kind: 'unknown' },
  ];
  for (const facts of [ethanol, salt])
    for (const form of forms)
      for (const by of ['mol', 'g', 'mL'] as const) {
        const governed = { by, figure: entered('x', 0.37, by, 'a test') } as Parameters<typeof amountOf>[2];
        const { grams, millilitres } = amountOf(facts, form, governed, reference);
        expect(suppliedIn('g', facts, form, governed, reference)).toBe(grams.ok ? grams.figure.value : null);
        expect(suppliedIn('mL', facts, form, governed, reference)).toBe(millilitres.ok ? millilitres.figure.value : null);
      }
});
