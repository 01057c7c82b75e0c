import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ExpectedBalance } from '../../src/core/outcome/mass-balance.ts';
import { meritOf, type StepMerit } from '../../src/core/outcome/merit.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import type { Route } from '../../src/core/route/route.ts';
import { meritText } from '../../src/core/words/merit-words.ts';
import { reference } from '../reference/tables.ts';
import { bottle, draw, planOf, route, step } from './build.ts';

const WATER = { name: 'water', formula: 'H2O', cas: '7732-18-5', utility: true, state: 'liquid' as const };

/**
 * Ethyl benzoate twice over: benzoic acid + ethanol → ester + water, then the ester is hydrolysed back. Both equations
 * balance; molar masses by hand from CIAAW 2021: acid 122.123, ethanol 46.069, ester 150.177, water 18.015.
 */
function esters(first: number, second: number, equivalents = 1): Route {
  return route(
    { acid: 'C7H6O2', ethanol: 'C2H6O', ester: 'C9H10O2', again: { name: 'again', formula: 'C7H6O2' }, water: WATER },
    [
      step({
        id: '1',
        basis: 'acid',
        product: 'ester',
        yieldPercent: first,
        equivalents: { ethanol: equivalents },
        extra: {
          equation: {
            uses: [
              { material: 'acid', coefficient: 1 },
              { material: 'ethanol', coefficient: 1 },
            ],
            makes: [
              { material: 'ester', coefficient: 1 },
              { material: 'water', coefficient: 1 },
            ],
          },
        },
      }),
      step({
        id: '2',
        basis: 'ester',
        product: 'again',
        yieldPercent: second,
        equivalents: { water: 1 },
        extra: {
          equation: {
            uses: [
              { material: 'ester', coefficient: 1 },
              { material: 'water', coefficient: 1 },
            ],
            makes: [
              { material: 'again', coefficient: 1 },
              { material: 'ethanol', coefficient: 1 },
            ],
          },
        },
      }),
    ],
  );
}

const meritFor = (one: Route, result: PlanResult) =>
  meritOf({ result, route: one, reference, shelf: { materials: one.materials, packs: [] } });
const balances = (one: Route, result: PlanResult): { steps: readonly ExpectedBalance[]; whole: ExpectedBalance } => {
  const merit = meritFor(one, result);
  const whole = merit.whole?.balance;
  if (!whole) throw new Error('the plan has no balance');
  return { steps: merit.steps.flatMap((of) => of.balance ?? []), whole };
};
const found = (balance: ExpectedBalance | undefined, what: string): number =>
  balance?.found.reduce((sum, one) => (one.what === what ? sum + one.grams.value : sum), 0) ?? Number.NaN;

describe('mass balance', () => {
  test('one step by hand: what the yield says has reacted is product and water, the rest is what did not', () => {
    const one = esters(80, 100);
    const { steps } = balances(one, planOf(one, [draw('ester', 150.177)]));
    const [first] = steps;
    expect(first?.charged.value).toBeCloseTo((122.123 + 46.069) / 0.8, 2);
    expect(found(first, 'product')).toBeCloseTo(150.177, 3);
    expect(found(first, 'by the equation')).toBeCloseTo(18.015, 3);
    expect(first?.rest.value).toBeCloseTo(((122.123 + 46.069) * 0.2) / 0.8, 2);
  });

  test('nothing is lost where everything reacts; else the rest is what did not, in each step and in all', () => {
    const percent = fc.integer({ min: 5, max: 100 });
    fc.assert(
      fc.property(percent, percent, fc.double({ min: 1e-6, max: 1e6, noNaN: true }), (first, second, size) => {
        const one = esters(first, second);
        const { steps, whole } = balances(one, planOf(one, [draw('again', size)]));
        steps.forEach((balance, at) => {
          const lost = (balance.charged.value * (100 - (at === 0 ? first : second))) / 100;
          expect((balance.rest.value - lost) / balance.charged.value).toBeCloseTo(0, 9);
        });
        const all = steps.reduce((sum, balance) => sum + balance.rest.value, 0);
        expect((whole.rest.value - all) / whole.charged.value).toBeCloseTo(0, 9);
      }),
      { numRuns: 200 },
    );
  });

  test('what comes back is charged, and found again; stock goes in and is not charged twice', () => {
    const one = esters(100, 100, 5);
    const back = {
      ...one,
      steps: one.steps.map((of) => (of.id === '1' ? { ...of, recovers: [{ material: 'ethanol', percentOfCharge: 60 }] } : of)),
    };
    const { steps, whole } = balances(back, planOf(back, [draw('again', 122.123)], [bottle('ester', 75.0885)]));
    // Half a mole of acid: five times as much ethanol, of which 60 % comes back; half a mole of ester from the shelf.
    expect(found(steps[0], 'comes back')).toBeCloseTo(0.6 * 2.5 * 46.069, 2);
    expect(steps[0]?.rest.value).toBeCloseTo((2.5 - 1.5 - 0.5) * 46.069, 2);
    expect(whole.charged.value).toBeCloseTo(0.5 * 122.123 + 2.5 * 46.069 + 75.0885 + 18.015, 2);
    expect(whole.rest.value).toBeCloseTo(0.5 * 46.069, 2);
  });

  test('water is told apart: the tap, and that of aqueous solutions', () => {
    const one = esters(100, 100);
    const { steps } = balances(one, planOf(one, [draw('again', 122.123)]));
    expect(steps[0]?.water.value).toBe(0);
    expect(steps[1]?.water.value).toBeCloseTo(18.015, 3);
  });

  test('an equation that does not balance says nothing of what forms beside', () => {
    const one = route({ a: 'C6H12', b: 'C6H10', h: 'H2O' }, [
      step({
        id: '1',
        basis: 'a',
        product: 'b',
        extra: {
          equation: {
            uses: [{ material: 'a', coefficient: 1 }],
            makes: [
              { material: 'b', coefficient: 1 },
              { material: 'h', coefficient: 1 },
            ],
          },
        },
      }),
    ]);
    const { steps } = balances(one, planOf(one, [draw('b', 10)]));
    expect(steps[0]?.found.map((of) => of.what)).toEqual(['product']);
  });

  test('a charge without a mass: no balance is claimed', () => {
    const one = route({ a: 'C6H12', b: 'C6H12', x: { name: 'x', state: 'liquid' } }, [
      step({
        id: '1',
        basis: 'a',
        product: 'b',
        more: [{ do: 'charge', id: 'x', stage: 'reaction', material: 'x', rule: { kind: 'volumes', millilitresPerGram: 2 } }],
      }),
    ]);
    const merit = meritFor(one, planOf(one, [draw('b', 10)]));
    expect(merit.steps[0]?.balance).toBeNull();
    expect(merit.whole?.balance).toBeNull();
  });

  test('the plan command says it as one sum', () => {
    const one = esters(80, 50);
    const result = planOf(one, [draw('ester', 150.177)]);
    expect(meritText(meritFor(one, result), result)).toContain(
      'Mass balance: 210 g charged in all = 150.2 g ester + 18.02 g water, by the equation + 42.0 g liquors, washings, waste and loss',
    );
  });
});

// A check of common practice (no source): 18.6 g of acetanilide gives 12.67 g of 4-nitroaniline over two steps, 66.66 %.
test('yields along the way: cumulative after each step, overall from each start, 66.66 % for 18.6 g → 12.67 g', () => {
  const overall = (12.67 / 138.126 / (18.6 / 135.166)) * 100;
  const [first, second] = [80, (overall / 80) * 100];
  const one = route({ acetanilide: 'C8H9NO', nitro: 'C8H8N2O3', amine: 'C6H6N2O2' }, [
    step({ id: '1', basis: 'acetanilide', product: 'nitro', yieldPercent: first }),
    step({ id: '2', basis: 'nitro', product: 'amine', yieldPercent: second }),
  ]);
  const result = planOf(one, [draw('amine', 12.67)]);
  const merit = meritFor(one, result);
  const cumulative = (of: StepMerit | undefined): number => of?.cumulative?.percent.value ?? Number.NaN;
  expect(result.steps[0]?.basis.grams.value).toBeCloseTo(18.6, 2);
  expect(merit.overall['amine']?.longest.percent.value).toBeCloseTo(66.66, 2);
  expect(cumulative(merit.steps[0])).toBeCloseTo(80, 9);
  expect(cumulative(merit.steps[1])).toBeCloseTo(66.66, 2);
});
