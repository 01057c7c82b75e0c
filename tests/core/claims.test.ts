import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { askAfter, shelfAfter, type Started, stillToTake } from '../../src/core/buy/at-bench.ts';
import { claimsOf, plansNeeding } from '../../src/core/buy/claims.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { foldRun } from '../../src/core/run/state.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { bottle, draw, planOf, route, shelfOf, step, TODAY, settings } from './build.ts';
import { plan } from '../../src/core/plan/plan.ts';
import { reference } from '../reference/tables.ts';
import { by, charge, recorded, sheetOf, taken } from './run-fixture.ts';

const share = (id: string, amount: number, unit: 'g' | 'mL' = 'g') => ({ bottle: id, lot: '', place: '', amount, unit });
/** 10 g of benzoin from two bottles, 50 mL of acid, 10 g of a rinse that does not follow the basis. */
const sheet = sheetOf([
  charge({ id: 'benzoin', isBasis: true, bottles: [share('B1', 4), share('B2', 6)] }),
  charge({
    id: 'nitric',
    by: 'volume',
    unit: 'mL',
    exact: 50,
    target: 50,
    gramsPerMillilitre: 1.4,
    bottles: [share('B3', 50, 'mL')],
  }),
  charge({ id: 'rinse', scales: false, bottles: [share('B4', 10)] }),
]);
const started = (...entries: readonly RunEntry[]): Started => ({
  id: 7,
  sheet,
  state: foldRun(sheet, recorded(sheet, [{ kind: 'started', by }, ...entries])),
});
const open = (one: Started) => Object.fromEntries(stillToTake([one]).map(({ bottle: id, amount }) => [id, amount]));

describe('a batch that is being weighed', () => {
  test('is still to take all its sheet says, and less with every charge that is booked', () => {
    expect(open(started())).toEqual({ B1: 4, B2: 6, B3: 50, B4: 10 });
    expect(open(started(taken('benzoin', 10)))).toEqual({ B3: 50, B4: 10 });
    // 7 of 10 g in a first part: the first bottle is empty, and 3 g of the second are to come.
    expect(open(started(taken('benzoin', 7, { complete: false })))).toEqual({ B2: expect.closeTo(3, 9), B3: 50, B4: 10 });
    // 14 g of the acid are 10 mL of it.
    expect(open(started(taken('benzoin', 10), taken('nitric', 14, { complete: false }))).B3).toBeCloseTo(40, 9);
  });

  test('follows a basis that came out different, but for what is fixed', () => {
    const less = started(taken('benzoin', 8), { kind: 'rescaled', by, factor: 0.8 } as RunEntry);
    expect(open(less)).toEqual({ B3: expect.closeTo(40, 9), B4: 10 });
  });

  test('what is booked and what is still to take are the sheet together, whatever was weighed', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 9.9, noNaN: true }), (net) => {
        const { B1 = 0, B2 = 0 } = open(started(taken('benzoin', net, { complete: false })));
        expect(B1 + B2 + net).toBeCloseTo(10, 9);
        expect(B1 > 0 ? B2 : 6).toBeCloseTo(6, 9);
      }),
      { numRuns: 100 },
    );
  });

  test('is not planned a second time: the rest of the plan counts on what it will give, once', () => {
    const one = route(
      { benzoin: { name: 'benzoin', formula: 'C14H12O2' }, benzil: { name: 'benzil', formula: 'C14H10O2', cas: '134-81-6' } },
      [step({ id: 'oxidation', basis: 'benzoin', product: 'benzil', yieldPercent: 90 })],
    );
    const shelf = shelfOf(one, [bottle('benzoin', 100)]);
    const of = (runs: readonly Started[]) =>
      plan({
        route: one,
        ask: { name: 'p', draws: [draw('benzil', 18)] },
        shelf: shelfAfter(shelf, runs),
        settings,
        reference,
        asOf: TODAY,
      });
    const whole = of([]).fetch.find((line) => line.material === 'benzoin')?.need.value ?? 0;
    const rest = of([started()]).fetch.find((line) => line.material === 'benzoin')?.need.value ?? 0;
    expect(rest).toBeCloseTo(whole / 2, 6);
    const [claim] =
      claimsOf([{ id: 1, name: 'p', result: of([started()]), atBench: [{ bottle: 'b-benzoin', amount: 10, unit: 'g' }] }]).get(
        'b-benzoin',
      ) ?? [];
    expect(claim).toEqual({ plan: 1, name: 'p', unit: 'g', amount: expect.closeTo(whole / 2 + 10, 6), atBench: 10 });
    expect(shelfAfter(shelf, [])).toBe(shelf);
  });

  test('is not planned a second time by a plan that counts no stock either; what else is there stays uncounted', () => {
    const one = route(
      { benzoin: { name: 'benzoin', formula: 'C14H12O2' }, benzil: { name: 'benzil', formula: 'C14H10O2', cas: '134-81-6' } },
      [step({ id: 'oxidation', basis: 'benzoin', product: 'benzil', yieldPercent: 90 })],
    );
    const shelf = shelfOf(one, [bottle('benzoin', 100), bottle('benzil', 50)]);
    const ask = { name: 'p', draws: [draw('benzil', 18)], useStock: false };
    const input = { route: one, ask, shelf, settings, reference, asOf: TODAY };
    // 18 g of benzil (210.232 g/mol) at 90 % from benzoin (212.248 g/mol); half of it is on the bench: 9 g as its sheet says.
    const whole = ((18 / 210.232) * 212.248) / 0.9;
    const of = (runs: readonly Started[]) =>
      plan({ ...input, ask: askAfter(input, runs), shelf: shelfAfter(shelf, runs) }).fetch.find(
        (line) => line.material === 'benzoin',
      )?.need.value ?? 0;
    expect(of([])).toBeCloseTo(whole, 4);
    expect(of([started()])).toBeCloseTo(whole / 2, 4);
    expect(askAfter(input, [])).toBe(ask);
  });
});

describe('what other plans count on', () => {
  const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
  const one = route({ a: 'C6H6', b: 'C6H6', lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2' } }, [
    step({
      id: '1',
      basis: 'a',
      product: 'b',
      more: [
        {
          do: 'charge',
          id: 'l',
          stage: 'reaction',
          material: 'lye',
          rule: { kind: 'equivalents', equivalents: 1 },
          form: percent(20),
        },
        { do: 'charge', id: 's', stage: 'reaction', material: 'lye', rule: { kind: 'equivalents', equivalents: 1 } },
      ],
    }),
  ]);
  const stock: readonly Bottle[] = [bottle('lye', 500, 'g', { kind: 'neat' }, { id: 'P' }), bottle('a', 900)];
  const planned = (id: number, moles: number) => ({
    id,
    name: `plan ${id}`,
    result: planOf(one, [draw('b', moles, 'mol')], stock),
  });

  test('as it stands and for make-ups is one sum a plan: 1 mol is 39.997 g, and 41.997 g for the make-up', () => {
    const claims = claimsOf([planned(1, 1), planned(2, 2)]);
    expect(claims.get('P')).toEqual([
      { plan: 1, name: 'plan 1', unit: 'g', amount: expect.closeTo(39.99676928 * 2.05, 6), atBench: 0 },
      { plan: 2, name: 'plan 2', unit: 'g', amount: expect.closeTo(2 * 39.99676928 * 2.05, 6), atBench: 0 },
    ]);
    expect(claims.has('nobody’s')).toBe(false);
    expect(claimsOf([]).size).toBe(0);
  });

  test('who needs a material: only plans with a line of it that comes to something', () => {
    const plans = [planned(1, 1), planned(2, 0)];
    const needing = plansNeeding(plans, (_, material) => material === 'lye');
    expect(needing.map((each) => [each.plan.id, each.lines.length])).toEqual([[1, 2]]);
    expect(plansNeeding(plans, () => false)).toEqual([]);
  });
});
