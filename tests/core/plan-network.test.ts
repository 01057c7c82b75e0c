import { describe, expect, test } from 'vitest';
import { sessionOf } from '../../src/core/paper/session.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { bottle, chargeOf, draw, planOf, route, step, stepOf } from './build.ts';

// Molar masses used by hand below, from CIAAW 2021 conventional weights: C6H6 78.114, C6H12 84.162, H2O 18.015.
const materials = { a: 'C6H6', b: 'C6H12', c: 'C7H8', d: 'C8H10', e: 'C9H12' };
const M = { a: 78.114, b: 84.162, c: 92.141, d: 106.168, e: 120.195 };

describe('backward through a network', () => {
  test('a chain divides by the yields, with coefficients', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', basisCoefficient: 2, yieldPercent: 50 }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80 }),
    ]);
    const result = planOf(one, [draw('c', M.c)]);
    expect(stepOf(result, '2').basis.moles.value).toBeCloseTo(1 / 0.8, 12);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo((2 * (1 / 0.8)) / 0.5, 12);
    expect(chargeOf(result, '1', 'a').grams?.value).toBeCloseTo(5 * M.a, 9);
  });

  test('steps are numbered in working order, whatever the order of the file', () => {
    const one = route(materials, [
      step({ id: 'last', basis: 'b', product: 'c' }),
      step({ id: 'first', basis: 'a', product: 'b' }),
    ]);
    expect(planOf(one, [draw('c', 1)]).steps.map((found) => [found.number, found.id])).toEqual([
      [1, 'first'],
      [2, 'last'],
    ]);
  });

  test('two branches of one intermediate add up, and a kept sample', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b' }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 50 }),
      step({ id: '3', basis: 'b', product: 'd', yieldPercent: 25 }),
    ]);
    const result = planOf(one, [draw('c', 1, 'mol'), draw('d', 1, 'mol'), draw('b', 0.5, 'mol', { kept: true })]);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo(2 + 4 + 0.5, 12);
  });

  test('an intermediate that is also a reagent three steps later is made for both', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 50 }),
      step({ id: '3', basis: 'c', product: 'd', yieldPercent: 50 }),
      step({ id: '4', basis: 'd', product: 'e', yieldPercent: 50, equivalents: { b: 1.5 } }),
    ]);
    const result = planOf(one, [draw('e', 1, 'mol')]);
    // 2 d, of which 4 c, of which 8 b; and 1.5 × 2 = 3 b beside them.
    expect(stepOf(result, '1').product.moles.value).toBeCloseTo(8 + 3, 12);
  });

  test('stock covers a branch: its steps drop out with a start of zero, and no more is taken than needed', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b' }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 50 }),
    ]);
    const result = planOf(one, [draw('c', 1, 'mol')], [bottle('b', 1000)]);
    expect(stepOf(result, '1').active).toBe(false);
    expect(stepOf(result, '1').basis.moles.value).toBe(0);
    expect(chargeOf(result, '2', 'b').supply).toMatchObject({ kind: 'bottles', bottles: [{ bottle: 'b-b', unit: 'g' }] });
    expect(result.fetch.find((line) => line.material === 'b')?.need.value).toBeCloseTo(2 * M.b, 9);
    expect(result.fetch.some((line) => line.material === 'a')).toBe(false);
  });

  test('stock of the target nets too, at its assay', () => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50 })]);
    const result = planOf(one, [draw('b', 100)], [bottle('b', 50, 'g', { kind: 'neat', assayPercent: 90 })]);
    expect(stepOf(result, '1').product.grams.value).toBeCloseTo(100 - 45, 9);
  });

  test('a draw that asks for a purity is not met from worse stock, which still serves the next step', () => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b' }), step({ id: '2', basis: 'b', product: 'c' })]);
    const poor = bottle('b', 1000, 'g', { kind: 'neat', assayPercent: 90 });
    const result = planOf(one, [draw('b', 10, 'g', { leastAssayPercent: 98 }), draw('c', 1, 'mol')], [poor]);
    expect(stepOf(result, '1').product.grams.value).toBeCloseTo(10, 9);
  });

  test('expired, held back and unknown bottles are not counted on', () => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b' })]);
    const bottles = [
      bottle('b', 10, 'g', { kind: 'neat' }, { id: 'old', useBy: '2026-11-24' }),
      bottle('b', 10, 'g', { kind: 'neat' }, { id: 'kept', heldBack: true }),
      bottle('b', 10, 'g', { kind: 'unknown' }, { id: 'what' }),
      bottle('b', 10, 'g', { kind: 'neat' }, { id: 'today', useBy: '2026-11-25' }),
    ];
    expect(stepOf(planOf(one, [draw('b', 25)], bottles), '1').product.grams.value).toBeCloseTo(15, 9);
    expect(stepOf(planOf(one, [draw('b', 25)], bottles, { ask: { holdBack: ['today'] } }), '1').product.grams.value).toBeCloseTo(
      25,
      9,
    );
  });
});

describe('loops', () => {
  test('a product that feeds an earlier step is a steady state', () => {
    // b = 0.8·x1; step 2 needs 1 mol b per mol basis, makes 0.9 c, and step 1 takes 0.2 c per mol a.
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80, equivalents: { c: 0.2 } }),
      step({ id: '2', basis: 'b', product: 'c', yieldPercent: 90 }),
    ]);
    const result = planOf(one, [draw('c', 1, 'mol')]);
    const x2 = 1 / (0.9 - 0.2 / 0.8);
    expect(stepOf(result, '2').basis.moles.value).toBeCloseTo(x2, 12);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo(x2 / 0.8, 12);
    expect(result.flow.bands.filter((band) => band.recycle)).toHaveLength(1);
    expect(result.notices.map((notice) => notice.code)).toContain('steady loop');
  });

  test('recovered basis lowers the need; at 99 % return it is a hundredth', () => {
    const recovering = (percentOfCharge: number): number => {
      const one = route(materials, [
        step({ id: '1', basis: 'a', product: 'b' }),
        step({ id: '2', basis: 'b', product: 'c', yieldPercent: 1, recovers: [{ material: 'b', percentOfCharge }] }),
      ]);
      return stepOf(planOf(one, [draw('c', 1, 'mol')]), '1').product.moles.value;
    };
    expect(recovering(50)).toBeCloseTo(50, 9);
    expect(recovering(99)).toBeCloseTo(1, 9);
  });

  test('a bought material that comes back is fetched gross and used up net', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', equivalents: { d: 3 }, recovers: [{ material: 'd', percentOfCharge: 80 }] }),
    ]);
    const line = planOf(one, [draw('b', 1, 'mol')]).fetch.find((found) => found.material === 'd');
    expect(line?.peak.value).toBeCloseTo(3 * M.d, 9);
    expect(line?.need.value).toBeCloseTo(0.6 * M.d, 9);
  });

  test('a loop that returns as much as it takes is refused with its name', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', equivalents: { c: 1 } }),
      step({ id: '2', basis: 'b', product: 'c' }),
    ]);
    const result = planOf(one, [draw('c', 1, 'mol')]);
    expect(result.solved).toBe(false);
    expect(result.notices).toMatchObject([{ level: 'error', code: 'impossible loop', values: { steps: 'Step 1 → Step 2' } }]);
  });

  test('stock can make an otherwise impossible loop unnecessary', () => {
    const one = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', equivalents: { c: 1 } }),
      step({ id: '2', basis: 'b', product: 'c' }),
    ]);
    expect(planOf(one, [draw('c', 1, 'mol')], [bottle('c', 1000)]).solved).toBe(true);
  });
});

describe('what is refused in words', () => {
  test.each([
    ['not made', [step({ id: '1', basis: 'a', product: 'b' })], 'a'],
    ['zero yield', [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 0 })], 'b'],
  ] as const)('%s', (code, steps, wanted) => {
    const result = planOf(route(materials, steps), [draw(wanted, 1)]);
    expect(result.solved).toBe(false);
    expect(result.notices.map((notice) => notice.code)).toContain(code);
  });
});

describe('extremes', () => {
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 60, equivalents: { c: 1.1 } })]);
  test.each([[0], [1e-6], [1e8]])('a draw of %d g', (grams) => {
    const result = planOf(one, [draw('b', grams)]);
    expect(result.solved).toBe(true);
    expect(stepOf(result, '1').basis.moles.value).toBeCloseTo(grams / M.b / 0.6, 12);
    expect(stepOf(result, '1').active).toBe(grams > 0);
  });
});

test('a loop at 99 % says how much of what comes back must be in hand before the first batch, and which steps it joins', () => {
  // T 10 g ÷ 0.95 = 10.526 g of P; of P made, 0.8019 ÷ 0.9 ÷ 0.9 = 0.99 goes into Q: 10.526 ÷ 0.01 = 1052.6 g of P,
  // 1052.6 ÷ 0.9 = 1169.6 g of S, × 0.8019 = 937.9 g of Q.
  const steps = [
    step({ id: 'make', basis: 'S', product: 'P', yieldPercent: 90, equivalents: { Q: 0.8019 } }),
    step({ id: 'turn', basis: 'P', product: 'Q', yieldPercent: 90 }),
    step({ id: 'end', basis: 'P', product: 'T', yieldPercent: 95 }),
  ];
  const materials = { S: 'C6H12', P: 'C6H12', Q: 'C6H12', T: 'C6H12' };
  const said = (stocked: number) =>
    planOf(route(materials, steps), [draw('T', 10)], stocked > 0 ? [bottle('Q', stocked)] : []).notices.find(
      ({ code }) => code === 'steady loop',
    );
  expect(said(0)).toMatchObject({ level: 'caution', values: { back: '938 g of Q, from step 2 into step 1' } });
  // P too goes on from step 1 into step 2, which is no way back.
  expect(String(said(0)?.values.back)).not.toContain('of P');
  // The same stands on the fetch list and with what is to be bought: in one batch all of it at once, none of it used up.
  const { fetch } = planOf(route(materials, steps), [draw('T', 10)]);
  const inHand = fetch.filter((line) => line.material === 'Q');
  expect(inHand.map((line) => [line.peak.value, line.need.value, line.short?.value, line.status])).toEqual([
    [expect.closeTo(937.9, 1), 0, expect.closeTo(937.9, 1), 'short'],
  ]);
  expect(inHand[0]?.uses).toEqual([{ step: 'make', operation: 'c2', amount: expect.closeTo(937.9, 1) }]);
  // What stands on the shelf of it is taken first, and less has to come back: 5 g of the 9.38 g that would do without.
  // x = 10.526 ÷ 0.9 + …: P made 0.9 x = 10.526 + (0.8019 x − 5) ÷ 0.9, so that x = 552.3 and 442.9 − 5 g come back.
  const some = planOf(route(materials, steps), [draw('T', 10)], [bottle('Q', 5)]).fetch.filter((line) => line.material === 'Q');
  expect(some.map((line) => [line.status, line.peak.value])).toEqual([
    ['enough', expect.closeTo(5, 9)],
    ['short', expect.closeTo(437.9, 1)],
  ]);
  // 10.526 ÷ 0.9 × 0.8019 = 9.38 g of Q is all that is taken where it stands on the shelf: nothing has to come back.
  expect(said(500)).toBeUndefined();
});

test('a session of the first batch of a loop asks for its share of what must be in hand, once, beside what the shelf gives', () => {
  const batchLimit = { grams: 400, reason: 'small flask' };
  const loop = route({ S: 'C6H12', P: 'C6H12', Q: 'C6H12', T: 'C6H12' }, [
    step({ id: 'make', basis: 'S', product: 'P', yieldPercent: 90, equivalents: { Q: 0.8019 }, extra: { batchLimit } }),
    step({ id: 'turn', basis: 'P', product: 'Q', yieldPercent: 90 }),
    step({ id: 'end', basis: 'P', product: 'T', yieldPercent: 95 }),
  ]);
  // Three batches of 389.9 g of S, each with 312.6 g of Q; with 5 g on the shelf two, each with 221.5 g.
  const listed = (stocked: readonly Bottle[]) =>
    sessionOf(planOf(loop, [draw('T', 10)], stocked), [{ step: 'make', batch: 1 }])
      .lines.filter(({ line }) => line.material === 'Q')
      .map(({ line, status, peakPart }) => [status, line.peak.value * peakPart]);
  expect(listed([])).toEqual([['short', expect.closeTo(312.6, 1)]]);
  expect(listed([bottle('Q', 5)])).toEqual([
    ['enough', expect.closeTo(2.5, 9)],
    ['short', expect.closeTo(218.9, 1)],
  ]);
  const both = planOf(loop, [draw('T', 10)], [bottle('Q', 5)]);
  const session = sessionOf(both, [{ step: 'make', batch: 1 }]);
  // What the bottle gives the charge is not lost beside it.
  expect(session.taken(chargeOf(both, 'make', 'Q'), stepOf(both, 'make'), 1).bottles[0]?.amount).toBeCloseTo(2.5, 9);
});
