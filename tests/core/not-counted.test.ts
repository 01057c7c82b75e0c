import { expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import { passedOverText } from '../../src/core/paper/passed-over-text.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { bottle, draw, planOf, route, step } from './build.ts';

// a → b → c, each of the same formula: 10 g of c at 100 % take 10 g of b. What stands on the shelf of b is counted, or it is said why not.
const chain = route({ a: 'C6H6', b: 'C6H6', c: 'C6H6' }, [
  step({ id: 'ab', basis: 'a', product: 'b' }),
  step({ id: 'bc', basis: 'b', product: 'c' }),
]);
const strong: Form = { kind: 'solution', strength: { value: 97, basis: '% w/w' } };
const said = (form: Form, more = {}, unit: 'g' | 'mL' = 'g', left = 5) =>
  planOf(chain, [draw('c', 10)], [bottle('b', left, unit, form, more)])
    .notices.filter(({ code }) => code === 'stock not counted')
    .map(sentence);

test('a bottle of an intermediate that is entered as a solution is not passed over in silence', () => {
  expect(said(strong)).toEqual([
    'lot lot b of b (5.00 g, 97 % w/w) is not counted, and the plan makes it anew: only a neat bottle counts as stock of what a route makes. If this is its purity, enter the bottle with it as assay.',
  ]);
});

test.each([
  ['unknown strength', { kind: 'unknown' }, {}, 'g', /its strength is not known/],
  ['past its date', { kind: 'neat' }, { useBy: '2026-11-24' }, 'g', /past its date/],
  ['a solid kept in millilitres', { kind: 'neat' }, {}, 'mL', /cannot be told in moles/],
] as const)('%s: said', (_what, form, more, unit, why) => {
  expect(said(form, more, unit)).toEqual([expect.stringMatching(why)]);
});

test('what counts, what is held back, and what this plan does not make anew is not told', () => {
  expect(said({ kind: 'neat', assayPercent: 97 })).toEqual([]);
  expect(said(strong, { heldBack: true })).toEqual([]);
  // The neat bottle beside it is enough: b is not made.
  const both = planOf(chain, [draw('c', 10)], [bottle('b', 50), bottle('b', 5, 'g', strong, { id: 'other' })]);
  expect(both.notices.filter(({ code }) => code === 'stock not counted')).toEqual([]);
});

test('a bought solid that is entered as a solution is told at the line that is short of it', () => {
  const one = planOf(chain, [draw('c', 10)], [bottle('a', 50, 'g', strong)]);
  const line = one.fetch.find(({ material }) => material === 'a');
  expect(line?.status).toBe('short');
  expect(line?.passedOver.map((each) => passedOverText(each, '.'))).toEqual([
    'entered as 97 % w/w, which cannot serve for what is asked: not counted (50.0\u00a0g)',
  ]);
});

test('a solid on the shelf beside a solution whose strength the step does not say: nothing is claimed of it', () => {
  const brine = route({ a: 'C8H8O2', b: 'C8H8O2', salt: { name: 'sodium chloride', formula: 'NaCl', cas: '7647-14-5' } }, [
    step({
      id: '1',
      basis: 'a',
      product: 'b',
      more: [
        {
          do: 'charge',
          id: 'wash',
          stage: 'work-up',
          material: 'salt',
          form: { kind: 'unknown' },
          rule: { kind: 'volumes', millilitresPerGram: 3 },
        },
      ],
    }),
  ]);
  const one = planOf(brine, [draw('b', 10)], [bottle('salt', 500)]);
  const line = one.fetch.find(({ material }) => material === 'salt');
  expect(line?.passedOver.map((each) => passedOverText(each, '.'))).toEqual([
    'entered as neat; the step does not say which strength it asks for, so that nothing is worked out from it (500\u00a0g)',
  ]);
});
