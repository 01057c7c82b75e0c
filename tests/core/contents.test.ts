import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type Contents,
  type ContentsContext,
  inPhase,
  NOTHING,
  react,
  withCharge,
  withoutRemoved,
} from '../../src/core/bench/contents.ts';
import { momentsOf } from '../../src/core/bench/moments.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { type Form, NEAT } from '../../src/core/matter/form.ts';
import { parseFormula } from '../../src/core/matter/formula.ts';
import { amountOf } from '../../src/core/plan/amounts.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import type { Operation, Removal } from '../../src/core/route/route.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, step, stepOf } from './build.ts';

const materials = {
  amide: { name: 'acetanilide', cas: '103-84-4' },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  acid: { name: 'sulfuric acid', cas: '7664-93-9' },
  salt: { name: 'anilinium hydrogen sulfate', formula: 'C6H9NO4S', state: 'solid' as const },
  acetic: { name: 'acetic acid', cas: '64-19-7' },
  ether: { name: 'diethyl ether', cas: '60-29-7' },
  base: { name: 'sodium hydroxide', cas: '1310-73-2' },
};
const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
// C8H9NO + H2O + H2SO4 → C6H9NO4S + C2H4O2
const hydrolysis = step({
  id: '1',
  basis: 'amide',
  product: 'salt',
  extra: {
    equation: {
      uses: ['amide', 'water', 'acid'].map((material) => ({ material, coefficient: 1 })),
      makes: ['salt', 'acetic'].map((material) => ({ material, coefficient: 1 })),
    },
  },
  more: [
    { do: 'charge', id: 'w', stage: 'reaction', material: 'water', rule: { kind: 'volumes', millilitresPerGram: 2 } },
    {
      do: 'charge',
      id: 's',
      stage: 'reaction',
      material: 'acid',
      rule: { kind: 'equivalents', equivalents: 3 },
      form: percent(70),
    },
  ],
});
const one = route(materials, [hydrolysis]);
const facts = new Map(Object.entries(one.materials).map(([key, material]) => [key, factsOf(material, reference)]));
const context: ContentsContext = { step: hydrolysis, facts, reference };

/** mol of each element in it. */
function atomsIn(contents: Contents): Map<string, number> {
  const atoms = new Map<string, number>();
  for (const { facts: of, moles } of contents) {
    const formula = parseFormula(of.formula ?? '', reference);
    if (!formula.ok || !moles) throw new Error(`${of.name} needs a formula and moles`);
    for (const [symbol, count] of formula.atoms) atoms.set(symbol, (atoms.get(symbol) ?? 0) + count * moles.value);
  }
  return atoms;
}

function put(contents: Contents, material: string, grams: number, form: Form): Contents {
  const own = facts.get(material);
  if (!own) throw new Error(material);
  const amount = amountOf(own, form, { by: 'g', figure: entered('g', grams, 'g', 'test') }, reference);
  const moles = amount.moles.ok ? amount.moles.figure : null;
  const millilitres = amount.millilitres.ok ? amount.millilitres.figure.value : null;
  return withCharge(contents, { material, facts: own, form, moles, grams, millilitres }, context);
}

const what = fc.constantFrom(
  'liquids',
  'solids',
  'aqueous layer',
  'organic layer',
  'all but the product',
  'acid',
  'amide',
  'ether',
);
const removal = fc.record({
  how: fc.constantFrom<Removal['how']>('filter', 'separate', 'distil', 'wash away'),
  takes: fc.array(fc.record({ what, percent: fc.integer({ min: 0, max: 100 }) }), { maxLength: 3 }),
});
const charges = fc.array(
  fc.record({
    material: fc.constantFrom('amide', 'water', 'acid', 'ether', 'base'),
    grams: fc.integer({ min: 1, max: 500 }),
    strength: fc.integer({ min: 5, max: 95 }),
  }),
  { minLength: 1, maxLength: 8 },
);

test('no atom is lost or made over charges, the equation and removals', () => {
  fc.assert(
    fc.property(charges, removal, charges, (first, remove, second) => {
      let now: Contents = NOTHING;
      const charged: Contents[number][] = [];
      const go = (list: typeof first): void => {
        for (const { material, grams, strength } of list) {
          const form = material === 'acid' || material === 'base' ? percent(strength) : NEAT;
          charged.push(...put(NOTHING, material, grams, form));
          now = react(put(now, material, grams, form), context).contents;
        }
      };
      go(first);
      const removed = withoutRemoved(now, { do: 'removal', id: 'r', stage: 'work-up', ...remove }, 100, context);
      now = removed.contents;
      go(second);
      const [there, in_] = [atomsIn([...now, ...removed.taken]), atomsIn(charged)];
      for (const [symbol, moles] of in_) expect(there.get(symbol) ?? 0).toBeCloseTo(moles, 6);
      for (const each of now) expect(each.moles?.value).toBeGreaterThanOrEqual(0);
    }),
    { numRuns: 100 },
  );
});

test('nothing reacts before the last reactant is in; then all of what limits, and no more', () => {
  const before = react(put(put(NOTHING, 'amide', 13.5166, NEAT), 'acid', 9.8072, percent(50)), context);
  // 0.1 mol of amide, 0.05 mol of acid; the water of the acid (4.9 g, 0.27 mol) is the third reactant.
  expect(before.extent).toBeCloseTo(0.05, 4);
  const left = (material: string): number => before.contents.find((of) => of.material === material)?.moles?.value ?? Number.NaN;
  expect(left('amide')).toBeCloseTo(0.05, 4);
  expect(left('acid')).toBe(0);
  expect(left('acetic')).toBeCloseTo(0.05, 4);
  expect(left('water')).toBeCloseTo(4.9036 / 18.015 - 0.05, 4);
  expect(react(put(NOTHING, 'amide', 10, NEAT), context).extent).toBe(0);
});

test('of a removal by layers the acid goes with its water and the ether stays', () => {
  const both = put(put(NOTHING, 'acid', 100, percent(20)), 'ether', 50, NEAT);
  const separate: Operation = {
    do: 'removal',
    id: 'r',
    stage: 'work-up',
    how: 'separate',
    takes: [{ what: 'aqueous layer', percent: 98 }],
  };
  const { contents, taken } = withoutRemoved(both, separate as Removal, 100, context);
  expect(inPhase(contents, 'organic').map((of) => of.grams)).toEqual([50]);
  expect(inPhase(contents, 'aqueous').map((of) => of.grams)).toEqual([expect.closeTo(0.4, 9), expect.closeTo(1.6, 9)]);
  expect(taken.find((of) => of.material === 'acid')?.grams).toBeCloseTo(19.6, 9);
});

test('what is dissolved stays behind when its water is distilled off, and lies dry', () => {
  const both = put(put(NOTHING, 'base', 100, percent(20)), 'water', 50, NEAT);
  const distil: Removal = { do: 'removal', id: 'r', stage: 'work-up', how: 'distil', takes: [{ what: 'liquids', percent: 100 }] };
  const { contents } = withoutRemoved(both, distil, 100, context);
  expect(contents.find((of) => of.material === 'base')).toMatchObject({ phase: 'solid', grams: expect.closeTo(20, 9) });
  const down: Removal = { ...distil, takes: [], leavesMillilitresPerGram: 0.5 };
  const room = withoutRemoved(both, down, 100, context).contents.find((of) => of.material === 'water')?.millilitres;
  expect(room).toBeCloseTo(50, 9);
});

test('one batch of a plan: charges as planned, the acid less what the equation uses, for each batch alike', () => {
  const limited = { ...hydrolysis, batchLimit: { grams: 60, reason: 'test' } };
  const result = planOf(route(materials, [limited]), [draw('salt', 1, 'mol')]);
  const plan = stepOf(result, '1');
  expect(plan.batches.count).toBe(3);
  const moments = momentsOf({ plan, step: limited, facts, reference });
  expect(moments.map((of) => of.operation)).toEqual(['c1', 'w', 's']);
  const last = moments.at(-1);
  expect(last?.extent).toBeCloseTo(1 / 3, 9);
  expect(last?.mixed.find((of) => of.material === 'acid')?.moles?.value).toBeCloseTo(1, 9);
  expect(last?.after.find((of) => of.material === 'acid')?.moles?.value).toBeCloseTo(2 / 3, 9);
});
