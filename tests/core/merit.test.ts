import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Merit, meritOf } from '../../src/core/outcome/merit.ts';
import { comparePlans } from '../../src/core/plan/compare.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Route } from '../../src/core/route/route.ts';
import type { Pack } from '../../src/core/shelf/pack.ts';
import { changeOf } from '../../src/core/words/merit-words.ts';
import { reference } from '../reference/tables.ts';
import { cases } from '../cases.ts';
import { bottle, draw, planOf, route, step } from './build.ts';

const WATER = { name: 'water', formula: 'H2O', cas: '7732-18-5', utility: true, state: 'liquid' as const };
const solvent = (material: string, millilitresPerGram: number) => ({
  do: 'charge' as const,
  id: `v-${material}`,
  stage: 'work-up' as const,
  material,
  rule: { kind: 'volumes' as const, millilitresPerGram },
});

/** C6H12 → C6H10 → C12H20, the second two for one, washed with water. */
const two: Route = route({ a: 'C6H12', b: 'C6H10', c: 'C12H20', water: WATER }, [
  step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80, more: [solvent('water', 10)] }),
  step({ id: '2', basis: 'b', product: 'c', basisCoefficient: 2, yieldPercent: 50 }),
]);

const merit = (one: Route, result: PlanResult, packs: readonly Pack[] = []): Merit =>
  meritOf({ result, route: one, reference, shelf: { materials: one.materials, packs: [...packs] } });

describe('the use of material of a plan', () => {
  const result = planOf(two, [draw('c', 10)]);
  const found = merit(two, result);
  const a = 10 / 164.292 / 0.5 / 0.8 / 0.5;
  test('overall yield along the path', () => {
    expect(found.overall['c']?.longest.percent.value).toBeCloseTo(40, 10);
    expect(found.overall['c']?.longest.start).toBe('a');
  });
  test('mass in per gram out, with and without water; E is one less', () => {
    const start = a * 84.162;
    expect(found.whole?.intensityWithoutWater?.value).toBeCloseTo(start / 10, 3);
    expect((found.whole?.intensity?.value ?? 0) / (start / 10)).toBeCloseTo(1 + 10 * 0.9982, 2);
    expect(found.whole?.waste?.value).toBeCloseTo((found.whole?.intensity?.value ?? 0) - 1, 12);
  });
  test('an intermediate handed on is an input of its step, not of the whole', () => {
    expect(found.steps[1]?.intensity?.value).toBeCloseTo(2, 10);
    expect(found.steps[1]?.massEfficiency?.value).toBeCloseTo(50, 10);
    expect(found.steps[1]?.atomEconomy?.value).toBeCloseTo(100, 10);
  });
  test('cost: of what is used, from the cheapest pack; what has no price is named, never counted as nothing', () => {
    expect(found.whole?.cost).toMatchObject({ unpriced: ['a'] });
    expect(found.whole?.costPerGram).toBeNull();
    const priced = merit(two, result, [
      { material: 'a', amount: 100, unit: 'g', price: 30 },
      { material: 'a', amount: 1000, unit: 'g', price: 100 },
      { material: 'a', amount: 1, unit: 'g' },
    ]);
    expect(priced.whole?.cost.known.value).toBeCloseTo(a * 84.162 * 0.1, 4);
    expect(priced.whole?.costPerGram?.value).toBeCloseTo((a * 84.162 * 0.1) / 10, 5);
  });
  test('what comes back is taken off', () => {
    const back = route({ a: 'C6H12', b: 'C6H10', aid: 'C7H8' }, [
      step({ id: '1', basis: 'a', product: 'b', equivalents: { aid: 2 }, recovers: [{ material: 'aid', percentOfCharge: 75 }] }),
    ]);
    const plain = { ...back, steps: back.steps.map((one) => ({ ...one, recovers: [] })) };
    const [less, more] = [back, plain].map((one) => merit(one, planOf(one, [draw('b', 1)])).whole?.intensity?.value ?? 0);
    const aid = (2 * 92.141) / 82.146;
    expect((more ?? 0) - (less ?? 0)).toBeCloseTo(0.75 * aid, 3);
  });
  test('stock of an intermediate counts as an input', () => {
    const half = planOf(two, [draw('c', 10)], [bottle('b', 5)]);
    const all = merit(two, half).whole;
    const charged = half.steps[0]?.basis.grams.value ?? 0;
    expect(all?.intensityWithoutWater?.value).toBeCloseTo((charged + 5) / 10, 6);
  });
  test('a better yield never raises mass in per gram out; the scale never changes it', () => {
    const yields = fc.integer({ min: 20, max: 95 });
    fc.assert(
      fc.property(yields, fc.double({ min: 0.01, max: 1000, noNaN: true }), (percent, grams) => {
        const at = (value: number, size: number): number => {
          const one = { ...two, steps: two.steps.map((each) => ({ ...each, yieldPercent: value })) };
          return merit(one, planOf(one, [draw('c', size)])).whole?.intensity?.value ?? Number.NaN;
        };
        expect(at(percent + 5, 10)).toBeLessThan(at(percent, 10));
        expect(at(percent, grams) / at(percent, 10)).toBeCloseTo(1, 9);
      }),
      { numRuns: cases(1000) },
    );
  });
});

describe('two plans side by side', () => {
  test('a plan beside itself does not differ', () => {
    const result = planOf(two, [draw('c', 10)]);
    expect(comparePlans({ result }, { result }).some((line) => line.differs)).toBe(false);
  });
  test('another yield: that yield, the starts before it, their charges and what to buy are marked; the draw is not', () => {
    const one = planOf(two, [draw('c', 10)]);
    const other = planOf(two, [draw('c', 10)], [], { ask: { yields: { '2': 25 } } });
    const lines = comparePlans({ result: one }, { result: other });
    const marked = lines.filter((line) => line.differs).map((line) => `${line.section}: ${line.of.join(', ')}`);
    expect(marked).toEqual([
      'yields: Step 2',
      'starts: Step 1, a',
      'starts: Step 2, b',
      'charges: Step 1, water',
      'to buy: a, neat',
    ]);
    expect(
      lines
        .filter((line) => line.differs)
        .map(changeOf)
        .slice(0, 2),
    ).toEqual(['−25.0 points', '+100 %']);
    expect(lines.find((line) => line.section === 'starts' && line.differs)?.change).toBeCloseTo(100, 9);
    // The water is ten volumes of the basis: it changes only as the start of its step.
    expect(lines.filter((line) => line.follows && line.differs).map((line) => line.of.join(', '))).toEqual(['Step 1, water']);
  });
  test('a yield with the same likeliest value but another range, or none, differs', () => {
    const ranged = (lowest: number) =>
      planOf(two, [draw('c', 10)], [], { ask: { yields: { '2': { lowest, likeliest: 50, highest: 60 } } } });
    const marked = (one: PlanResult, other: PlanResult) =>
      comparePlans({ result: one }, { result: other })
        .filter((line) => line.differs)
        .map((line) => [line.section, ...line.of, line.one?.value, line.other?.value]);
    expect(marked(ranged(30), ranged(45))).toEqual([['yields', 'Step 2', 'lowest', 30, 45]]);
    expect(marked(planOf(two, [draw('c', 10)]), ranged(30))).toEqual([
      ['yields', 'Step 2', 'lowest', undefined, 30],
      ['yields', 'Step 2', 'highest', undefined, 60],
    ]);
  });
  test('what only one of them has stands against nothing', () => {
    const one = planOf(two, [draw('c', 10)]);
    const lines = comparePlans({ result: one }, { result: planOf(two, [draw('c', 10)], [bottle('a', 1000)]) });
    expect(lines.find((line) => line.section === 'to buy')).toMatchObject({ other: null, differs: true, change: null });
  });
  test('a charge that changes on its own does not follow its start; two of one material are told apart', () => {
    const one = route({ a: 'C6H12', b: 'C6H10', water: WATER }, [
      step({ id: '1', basis: 'a', product: 'b', more: [solvent('water', 10), { ...solvent('water', 5), id: 'rinse' }] }),
    ]);
    const drier = {
      ...one,
      steps: one.steps.map((of) => ({
        ...of,
        operations: of.operations.map((each) =>
          each.id === 'rinse' && each.do === 'charge'
            ? { ...each, rule: { kind: 'volumes' as const, millilitresPerGram: 2 } }
            : each,
        ),
      })),
    };
    const lines = comparePlans({ result: planOf(one, [draw('b', 10)]) }, { result: planOf(drier, [draw('b', 20)]) });
    const charges = lines.filter((line) => line.section === 'charges');
    expect(charges.map(({ of, follows }) => [of[1], follows])).toEqual([
      ['water', true],
      ['water (2)', false],
    ]);
    expect(charges[1]?.change).toBeCloseTo(-20, 9);
    expect(lines.find((line) => line.section === 'batches')?.one?.digits).toBe(1);
  });

  test('another start chosen is marked, and so is how material is used', () => {
    const [one, other] = [
      planOf(two, [draw('c', 10)]),
      planOf(two, [draw('c', 10)], [], { ask: { start: { multiplier: 1.5 }, yields: { '2': 25 } } }),
    ];
    const lines = comparePlans({ result: one, merit: merit(two, one) }, { result: other, merit: merit(two, other) });
    const marked = lines.filter(
      (line) => line.differs && (line.section === 'use of material' || line.of[0]?.startsWith('chosen')),
    );
    expect(marked.map((line) => line.of.join(', '))).toEqual([
      'chosen start, times what has to be made',
      'c, overall yield',
      'process mass intensity',
      'E-factor',
    ]);
  });
});
