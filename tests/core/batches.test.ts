import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Settings } from '../../src/core/plan/settings.ts';
import { batchCount, runsOf, stirrableCount } from '../../src/core/plan/batches/batches.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { runStep } from '../../src/core/plan/step/run-step.ts';
import { vesselText } from '../../src/core/paper/vessel-words.ts';
import { fullestStage, stirs } from '../../src/core/plan/batches/vessels.ts';
import { lineOf } from '../../src/core/quantity/round.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import type { Operation, Step } from '../../src/core/route/route.ts';
import { weighingSheet } from '../../src/core/paper/weighing-sheet.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { cases } from '../cases.ts';
import { chargeOf, draw, planOf, route, settings, step, stepOf } from './build.ts';

const materials = { a: 'C14H12O2', b: 'C14H10O2', water: { name: 'water', formula: 'H2O', cas: '7732-18-5', utility: true } };
const water = (id: string, millilitresPerGram: number, more: Partial<Operation> = {}): Operation =>
  ({
    do: 'charge',
    id,
    stage: 'reaction',
    material: 'water',
    rule: { kind: 'volumes', millilitresPerGram },
    ...more,
  }) as Operation;
const rinse = (amount: number): Operation => ({
  do: 'charge',
  id: 'rinse',
  stage: 'reaction',
  material: 'water',
  rule: { kind: 'per batch', amount, unit: 'mL' },
});
const hold: Operation = { do: 'hold', id: 'h', stage: 'reaction', until: 'it is done' };
const vesselsOf = (...nominal: readonly number[]): Settings => ({
  ...settings,
  vessels: nominal.map((one) => ({ name: `${one} mL`, nominal: one })),
});
const byLoss = (grams: number, extra: Partial<Step> = {}) =>
  route(materials, [
    step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80, extra: { lossPerBatch: { grams, reason: 'film' }, ...extra } }),
  ]);
const A = factsOf({ name: 'a', formula: materials.a }, reference).molarMass?.value ?? Number.NaN;
const B = factsOf({ name: 'b', formula: materials.b }, reference).molarMass?.value ?? Number.NaN;

describe('number of batches', () => {
  test('is the smallest that keeps every limit: own limit, cooling and fill', () => {
    fc.assert(
      fc.property(
        fc.record({
          grams: fc.double({ min: 1, max: 3000, noNaN: true }),
          volumes: fc.double({ min: 1, max: 20, noNaN: true }),
          rinsed: fc.double({ min: 0.1, max: 20, noNaN: true }),
          limit: fc.double({ min: 50, max: 5000, noNaN: true }),
          heat: fc.double({ min: 1, max: 300, noNaN: true }),
          vessels: fc.constantFrom([250, 2000], [100, 250, 500, 1000, 2000], [2000], [100, 2000]),
        }),
        ({ grams, volumes, rinsed, limit, heat, vessels }) => {
          const lab = { ...vesselsOf(...vessels), coolingWatts: 50 };
          const one = step({
            id: '1',
            basis: 'a',
            product: 'b',
            more: [water('w', volumes), rinse(rinsed), hold],
            extra: {
              batchLimit: { grams: limit, reason: 'mine' },
              heat: { kilojoulesPerMole: heat, longestMinutes: 60 },
            },
          });
          const facts = new Map(
            Object.entries(materials).map(([key, made]) => [
              key,
              factsOf(typeof made === 'string' ? { name: key, formula: made, state: 'solid' } : made, reference),
            ]),
          );
          const basisMoles = entered('basis', grams / A, 'mol', 'a test');
          const input = { step: one, facts, reference, basisMoles };
          const found = batchCount(input, runsOf(input), lab, 1);
          const inside = (n: number): boolean =>
            grams / n <= limit * (1 + 1e-9) &&
            (heat * basisMoles.value * 1000) / n / 3600 <= 50 * (1 + 1e-9) &&
            fullestStage(one, runStep({ ...input, batches: n }), n, lab).need <= 1 + 1e-9;
          expect(inside(found.count)).toBe(true);
          const fewer = Array.from({ length: found.count - 1 }, (_, at) => at + 1);
          expect(fewer.filter(inside)).toEqual([]);
          const stirred = stirrableCount(one, runsOf(input), found.count, lab);
          if (stirred !== null) expect(stirs(one, runStep({ ...input, batches: stirred }), stirred, lab)).toBe(true);
        },
      ),
      { numRuns: cases(1000) },
    );
  }, 60_000);

  test('where one more batch would fill a smaller vessel better, that is said and not done unasked', () => {
    const more = [water('w', 5), hold];
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more })]);
    const lab = { settings: vesselsOf(100, 1000) };
    const result = planOf(one, [draw('b', 20)], [], lab);
    expect(stepOf(result, '1').batches.count).toBe(1);
    expect(result.notices.find((notice) => notice.code === 'too little to stir')?.values).toMatchObject({ better: 2 });
    const two = planOf(one, [draw('b', 20)], [], { ...lab, ask: { batches: { '1': 2 } } });
    expect(two.notices.map((notice) => notice.code)).not.toContain('too little to stir');
  });

  test('where the least and the most need different vessels, that is said', () => {
    const more = [water('w', 1), hold, water('w2', 30, { stage: 'quench' } as Partial<Operation>)];
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more })]);
    const result = planOf(one, [draw('b', 20)]);
    expect(result.notices.find((notice) => notice.code === 'too little to stir')?.values).toMatchObject({ stage: 'reaction' });
    const apart = route(materials, [
      step({ id: '1', basis: 'a', product: 'b', more, extra: { stages: { quench: { newVessel: true } } } }),
    ]);
    expect(planOf(apart, [draw('b', 20)]).notices.map((notice) => notice.code)).not.toContain('too little to stir');
  });

  test('a filtered cake is not stirred until liquid comes in again', () => {
    const filter: Operation = {
      do: 'removal',
      id: 'f',
      stage: 'work-up',
      how: 'filter',
      takes: [{ what: 'liquids', percent: 95 }],
    };
    const late = { ...hold, id: 'h2', stage: 'work-up' as const };
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: [water('w', 10), hold, filter, late] })]);
    const stages = stepOf(planOf(one, [draw('b', 20)]), '1').batches.stages;
    expect(stages.map((stage) => [stage.stage, stage.stirred === null])).toEqual([
      ['reaction', false],
      ['work-up', true],
    ]);
  });

  test('chosen by hand it is taken, and what it breaks is said', () => {
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: [water('w', 10)] })]);
    const by = (count: number) => planOf(one, [draw('b', 2000)], [], { ask: { batches: { '1': count } } });
    expect(stepOf(by(7), '1').batches).toMatchObject({ count: 7, why: 'by hand' });
    expect(by(7).notices.map((notice) => notice.code)).not.toContain('too full');
    expect(by(1).notices.map((notice) => notice.code)).toContain('too full');
  });

  test('without a cooling power nothing is said of cooling; with it, the shortest addition', () => {
    const heat = { kilojoulesPerMole: 100, longestMinutes: 30 };
    const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', extra: { heat } })]);
    expect(stepOf(planOf(one, [draw('b', B, 'g')]), '1').batches).toMatchObject({ count: 1, shortestAddition: null });
    const cooled = stepOf(planOf(one, [draw('b', 1, 'mol')], [], { settings: { ...settings, coolingWatts: 20 } }), '1').batches;
    // 100 kJ at 20 W are 83.3 min: three batches of 27.8 min each.
    expect(cooled).toMatchObject({ count: 3, why: 'cooling' });
    expect(cooled.shortestAddition?.value).toBeCloseTo(100_000 / 20 / 60 / 3, 9);
  });
});

test('the sheet of a batch says the addition its cooling asks for, and what stays behind', () => {
  const heat = { kilojoulesPerMole: 100, longestMinutes: 30 };
  const one = byLoss(0.5, { heat });
  const result = planOf(one, [draw('b', 50)], [], { settings: { ...settings, coolingWatts: 20 } });
  const context = {
    result,
    size: 'A4',
    secondCheck: false,
    mark: '.',
    settings,
    say: sentence,
    statements: new Map(),
    bench: () => [],
    cautions: () => new Map(),
  } as const;
  const lines = weighingSheet('1', 1, context).boxes[0]?.lines ?? [];
  expect(lines.join(' ')).toMatch(/Add over \d+\smin at least.*0\.500\sg of product/);
});

describe('a fixed loss per batch', () => {
  test('is added to the need before the yield, as often as there are batches', () => {
    const result = planOf(byLoss(1, { batchLimit: { grams: 20, reason: 'mine' } }), [draw('b', 40)]);
    const one = stepOf(result, '1');
    const n = one.batches.count;
    expect(n).toBeGreaterThan(2);
    expect(one.basis.moles.value).toBeCloseTo((40 + n) / B / 0.8, 12);
    expect(one.product.grams.value).toBeCloseTo(40, 9);
    expect(one.basis.grams.value / n).toBeLessThanOrEqual(20 * (1 + 1e-9));
  });
  test('nothing is lost where nothing runs', () => {
    expect(stepOf(planOf(byLoss(1), [draw('b', 0)]), '1').active).toBe(false);
  });
  test('gives each draw exactly, whatever the loss and the limit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 500, noNaN: true }),
        fc.double({ min: 0.001, max: 5, noNaN: true }),
        fc.double({ min: 20, max: 200, noNaN: true }),
        (grams, loss, limit) => {
          const result = planOf(byLoss(loss, { batchLimit: { grams: limit, reason: 'mine' } }), [draw('b', grams)]);
          const one = stepOf(result, '1');
          const made = one.basis.moles.value * 0.8 * B;
          expect(made - one.batches.count * loss).toBeCloseTo(grams, 6);
          expect(result.flow.bands.some((band) => band.to.kind === 'left over')).toBe(false);
        },
      ),
      { numRuns: cases(1000) },
    );
  }, 60_000);
});

test('batches times one batch are the whole within the rounding of one batch', () => {
  fc.assert(
    fc.property(fc.double({ min: 1, max: 3000, noNaN: true }), fc.double({ min: 1, max: 20, noNaN: true }), (grams, volumes) => {
      const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: [water('w', volumes), rinse(5)] })]);
      const result = planOf(one, [draw('b', grams)]);
      const n = stepOf(result, '1').batches.count;
      for (const material of ['a', 'water']) {
        const { total, perBatch } = chargeOf(result, '1', material);
        const names = [...settings.balances, ...settings.measures];
        const line = lineOf(names.find((device) => device.name === perBatch.device)?.readability ?? Number.NaN);
        expect(Math.abs(perBatch.target * n - (total.exact?.value ?? 0))).toBeLessThanOrEqual((line / 2) * n * (1 + 1e-9));
        expect(total.target).toBeCloseTo(perBatch.target * n, 6);
      }
    }),
    { numRuns: cases(1000) },
  );
}, 60_000);

test('before rounding and batching, k times the draw is k times every proportional charge', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 100, noNaN: true }), fc.double({ min: 0.1, max: 50, noNaN: true }), (grams, k) => {
      const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 71, more: [water('w', 8)] })]);
      const [small, large] = [grams, grams * k].map((amount) => planOf(one, [draw('b', amount)]));
      if (!small || !large) throw new Error('two plans are needed');
      for (const material of ['a', 'water']) {
        const [a, b] = [small, large].map((result) => chargeOf(result, '1', material).moles?.value ?? Number.NaN);
        expect((b ?? 0) / ((a ?? 1) * k)).toBeCloseTo(1, 9);
      }
    }),
    { numRuns: cases(1000) },
  );
}, 60_000);

test('a volume that is not known fits no vessel, and nothing says that it does', () => {
  const one = route({ a: { name: 'a', formula: 'C6H12' }, b: { name: 'b', formula: 'C6H12' }, x: { name: 'something' } }, [
    step({
      id: '1',
      basis: 'x',
      product: 'b',
      extra: { equation: { uses: [{ material: 'x', coefficient: 1 }], makes: [{ material: 'b', coefficient: 1 }] } },
    }),
  ]);
  const [stage] = stepOf(planOf(one, [draw('b', 1, 'mol')]), '1').batches.stages;
  expect(stage).toMatchObject({ vessel: null, fill: null });
  expect(stage && vesselText(stage, false, '.')).toBe('volume not known, so no vessel is named');
});
