import { describe, expect, test } from 'vitest';
import type { PlanInput } from '../../src/core/plan/input.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { planAgain } from '../../src/core/run/plan-again.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, route, settings, shelfOf, step, TODAY } from './build.ts';
import { by, recorded, sheetOf, taken } from './run-fixture.ts';

// a → b → c and b → d, every yield 80 %: the draws are 10 g of c and 5 g of d; all molar masses are alike.
const FORMULA = 'C6H6';
const materials = { a: FORMULA, b: FORMULA, c: FORMULA, d: FORMULA };
const one = (id: string, uses: string, makes: string) => step({ id, basis: uses, product: makes, yieldPercent: 80 });
const chain = route(materials, [one('ab', 'a', 'b'), one('bc', 'b', 'c'), one('bd', 'b', 'd')]);
const draws = [draw('c', 10), draw('d', 5)];
/** b needed: 10/0.8 + 5/0.8. */
const NEED = 18.75;

function after(grams: number, left = 0) {
  const base = sheetOf();
  const sheet = {
    ...base,
    step: 'ab',
    product: { ...base.product, material: 'b', grams: NEED / (left + 1), molarMass: 78.114, yieldPercent: 80 },
  };
  const state = foldRun(
    sheet,
    recorded(sheet, [
      { kind: 'started', by },
      taken('benzoin', 10, { moles: 0.3 }),
      { kind: 'product', by, crop: 1, grams, wet: false, assayPercent: null, place: '', text: '', bottle: 'b-b' },
    ]),
  );
  const input: PlanInput = {
    route: chain,
    ask: { name: 'p', draws },
    shelf: shelfOf(chain, [bottle('b', grams), bottle('a', 500)]),
    settings,
    reference,
    asOf: TODAY,
  };
  const got = planAgain(input, sheet, state, left);
  if (!got) throw new Error('a product was weighed');
  return { got, input };
}
const amounts = (ask: PlanInput['ask'] | null | undefined) => ask?.draws.map((each) => Number(each.amount.toFixed(2)));

describe('a batch that gave less than planned', () => {
  const { got, input } = after(15);

  test('by how much', () => expect(got.difference.value).toBeCloseTo(15 - NEED, 9));

  test('the step again for what lacks; everything scaled; one draw lowered: by hand', () => {
    expect(got.proposals.map((each) => [each.kind, each.draw])).toEqual([
      ['keep', null],
      ['scale', null],
      ['lower', 'draw-c'],
      ['lower', 'draw-d'],
    ]);
    const [keep, scale, lowerC, lowerD] = got.proposals;
    expect(keep?.again.value).toBeCloseTo(3.75, 6);
    expect(keep?.ask).toBeNull();
    // 15/18.75 of both; 10 − 3.75·0.8; 5 − 3.75·0.8.
    expect([amounts(scale?.ask), amounts(lowerC?.ask), amounts(lowerD?.ask)]).toEqual([
      [8, 4],
      [7, 5],
      [10, 2],
    ]);
  });

  test('each leaves nothing to make again, and says what it changes', () => {
    for (const each of got.proposals.slice(1)) {
      expect(each.again.value).toBe(0);
      expect(each.changes.map((line) => line.section)).toContain('draws');
      expect(plan({ ...input, ask: each.ask ?? input.ask }).steps.find((one) => one.id === 'ab')?.active).toBe(false);
    }
    expect(got.proposals[0]?.changes.map((line) => line.section)).toEqual(expect.arrayContaining(['starts']));
    expect(got.proposals[0]?.changes.some((line) => line.section === 'draws')).toBe(false);
  });

  test('nothing is changed by asking', () => expect(amounts(input.ask)).toEqual([10, 5]));
});

test('a batch that gave more: one draw may be raised, or it stays on the shelf', () => {
  const { got } = after(NEED + 2.5);
  expect(got.proposals.map((each) => [each.kind, amounts(each.ask)])).toEqual([
    ['keep', undefined],
    ['raise', [12, 5]],
    ['raise', [10, 7]],
  ]);
});

test('a batch as planned asks nothing', () => {
  const { got } = after(NEED);
  expect(got.proposals.map((each) => [each.kind, each.changes])).toEqual([['keep', []]]);
});

test('batches that are still to be run are not counted as a shortfall', () => {
  // Half of it was this batch's share; the other half is still planned.
  const { got } = after(NEED / 2, 1);
  expect(got.proposals.map((each) => each.kind)).toEqual(['keep']);
});
