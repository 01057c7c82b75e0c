import { describe, expect, test } from 'vitest';
import type { PlanInput } from '../../src/core/plan/input.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { RunEntry } from '../../src/core/run/entry.ts';
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
const labels = ['b-b', 'b-2'];
/** b needed: 10/0.8 + 5/0.8. */
const NEED = 18.75;

function after(grams: number, left = 0, crops: readonly number[] = [grams], shelf?: PlanInput['shelf']) {
  const base = sheetOf();
  const sheet = {
    ...base,
    step: 'ab',
    product: {
      ...base.product,
      material: 'b',
      holds: chain.materials['b'] ?? base.product.holds,
      grams: NEED / (left + 1),
      molarMass: 78.114,
      yieldPercent: 80,
    },
  };
  const state = foldRun(
    sheet,
    recorded(sheet, [
      { kind: 'started', by },
      taken('benzoin', 10, { moles: 0.3 }),
      ...crops.map((each, at): RunEntry => {
        const bottle = each > 0 ? (labels[at] ?? null) : null;
        return { kind: 'product', by, crop: at + 1, grams: each, wet: false, assayPercent: null, place: '', text: '', bottle };
      }),
    ]),
  );
  const input: PlanInput = {
    route: chain,
    ask: { name: 'p', draws },
    shelf:
      shelf ?? shelfOf(chain, [...crops.map((each, at) => ({ ...bottle('b', each), id: labels[at] ?? '' })), bottle('a', 500)]),
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

test('a run that gave nothing: the step again for all of it; no draw can be lowered to nothing', () => {
  const { got } = after(0);
  expect(got.difference.value).toBe(-NEED);
  expect(got.proposals[0]?.again.value).toBeCloseTo(NEED, 6);
  expect(got.proposals[0]?.changes.find((line) => line.section === 'starts')).toMatchObject({ differs: true });
  expect(got.proposals.map((each) => each.kind)).toEqual(['keep']);
});

test('two crops in two bottles: what is over is taken out of both when it is held against the plan', () => {
  const { got } = after(NEED + 4, 0, [3, NEED + 1]);
  expect(got.difference.value).toBeCloseTo(4, 9);
  // By hand: 4 g more b give 3.2 g more c or d.
  expect(got.proposals.slice(1).map((each) => amounts(each.ask))).toEqual([
    [13.2, 5],
    [10, 8.2],
  ]);
  // Against the batch as planned nothing changes where every draw stays.
  expect(got.proposals[0]?.changes.filter((line) => line.section === 'starts')).toEqual([]);
});

test('a batch that gave more: one draw may be raised, or it stays on the shelf', () => {
  const { got } = after(NEED + 2.5);
  expect(got.proposals.map((each) => [each.kind, amounts(each.ask)])).toEqual([
    ['keep', undefined],
    ['raise', [12, 5]],
    ['raise', [10, 7]],
  ]);
});

test('what was made is exact in a search, near enough in what is asked: by hand with a ledger', () => {
  const at = '2027-02-25T09:00:00.000Z';
  const withLedger = (grams: number) => {
    const { input } = after(grams);
    const made = (one: (typeof input.shelf.bottles)[number]) =>
      one.material === 'b' ? { ...one, ledger: [{ kind: 'made' as const, change: grams, reason: '', at }] } : one;
    const shelf = { ...input.shelf, bottles: input.shelf.bottles.map(made) };
    return after(grams, 0, [grams], shelf).got;
  };
  // 15 of 18.75 g is 80 % of every draw, and not what 37.5 mg more would give.
  expect(amounts(withLedger(15).proposals[1]?.ask)).toEqual([8, 4]);
  // 20 mg of 18.73 g are less than a sheet shows: nothing is made again.
  const near = withLedger(NEED - 0.02);
  expect(near.proposals.map((each) => each.kind)).toEqual(['keep']);
  expect(near.proposals[0]?.again.value).toBe(0);
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
