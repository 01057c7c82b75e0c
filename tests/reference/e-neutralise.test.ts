import { describe, expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import type { BenchLine } from '../../src/core/bench/bench-section.ts';
import { gasLitres } from '../../src/core/bench/gas.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Operation, PlainRule, Step } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { chargeOf, draw, planOf, route, settings, step, TODAY } from '../core/build.ts';
import { near, solution } from './amounts.ts';
import { reference } from './tables.ts';

// Topic e through the charge rule "to neutralise" and the bench numbers of a step.

const ATM = 101.325;
const charge = (id: string, material: string, rule: PlainRule, form?: Form): Operation => ({
  do: 'charge',
  id,
  stage: 'quench',
  material,
  rule,
  ...(form ? { form } : {}),
});
const to = (endPH: number): PlainRule => ({ kind: 'to neutralise', endPH });
const each = (amount: number, unit: 'g' | 'mL'): PlainRule => ({ kind: 'per batch', amount, unit });

const MATERIALS = {
  a: { name: 'a', formula: 'C6H6', state: 'liquid' as const },
  b: { name: 'b', formula: 'C6H12', state: 'liquid' as const },
  H2SO4: 'H2SO4',
  HCl: 'HCl',
  H3PO4: 'H3PO4',
  KOH: 'KOH',
  NaOH: 'NaOH',
  lime: { name: 'calcium hydroxide', formula: 'Ca(OH)2', state: 'solid' as const },
  NaHCO3: 'NaHCO3',
  Na2CO3: 'Na2CO3',
  water: { name: 'water', formula: 'H2O', utility: true },
  chlorosulfonic: { name: 'chlorosulfonic acid', cas: '7790-94-5' },
};

/** What is charged to neutralise one charge, on an inert basis. */
function neutralised(there: readonly Operation[], agent: Operation & { do: 'charge' }) {
  const one = route(MATERIALS, [step({ id: '1', basis: 'a', product: 'b', more: [...there, agent] })]);
  return chargeOf(planOf(one, [draw('b', 0.001, 'mol')]), '1', agent.material);
}

/** The gas lines of a step that makes a gas from one material by itself, one batch. */
function gasLines(uses: Readonly<Record<string, number>>, gas: readonly [string, number], grams: number): readonly BenchLine[] {
  const [[basis = '', coefficient = 1] = []] = Object.entries(uses);
  const extra: Partial<Step> = {
    equation: {
      uses: Object.entries(uses).map(([material, count]) => ({ material, coefficient: count })),
      makes: [
        { material: 'b', coefficient: 1 },
        { material: 'gas', coefficient: gas[1], gas: true },
      ],
    },
  };
  const shape = step({ id: '1', basis, product: 'b', extra });
  const materials = { ...MATERIALS, [basis]: basis, gas: { name: gas[0], formula: gas[0], state: 'gas' as const } };
  const one = route(materials, [shape]);
  const ask = { name: 'test', draws: [draw('b', 1, 'mol')] };
  const batches = { ask: { ...ask, batches: { 1: 1 } }, shelf: EMPTY_SHELF, settings, reference, asOf: TODAY };
  const found = planOf(one, [draw('b', 1, 'mol')]);
  const perMole = found.steps[0]?.basis.grams.value ?? Number.NaN;
  const scaled = { ...batches, route: one, ask: { ...batches.ask, draws: [draw('b', grams / perMole, 'mol')] } };
  expect(coefficient).toBeGreaterThan(0);
  return benchNumbers(scaled, plan(scaled), '1').find((section) => section.kind === 'gas')?.lines ?? [];
}

function molesIn(lines: readonly BenchLine[], code: string): number {
  const shown = lines.find((line) => line.code === code)?.shown;
  const from = shown?.kind === 'figure' ? shown.figure.from : null;
  return from?.kind === 'computed' ? (from.of[0]?.value ?? Number.NaN) : Number.NaN;
}

const acid = each(10, 'mL');
const conc = solution(96, '% w/w', 1.84);
const limewater = charge('x', 'lime', each(75, 'mL'), solution(0.0122, 'mol/L'));

describe('what neutralises what', () => {
  test.each<[string, string, () => number | undefined]>([
    [
      'e01',
      'V(HCl)',
      () =>
        neutralised([charge('x', 'NaHCO3', each(2.5, 'g'))], charge('y', 'HCl', to(4), solution(0.6, 'mol/L')) as never)
          .millilitres?.value,
    ],
    [
      'e04',
      'V(KOH)',
      () =>
        neutralised(
          [charge('x', 'H3PO4', each(40, 'mL'), solution(0.0656, 'mol/L'))],
          charge('y', 'KOH', to(9.77), solution(0.15, 'mol/L')) as never,
        ).millilitres?.value,
    ],
    [
      'e12',
      'mass NaHCO3',
      () => neutralised([charge('x', 'H2SO4', acid, conc)], charge('y', 'NaHCO3', to(7)) as never).grams?.value,
    ],
    [
      'e12',
      'mass Na2CO3 instead',
      () => neutralised([charge('x', 'H2SO4', acid, conc)], charge('y', 'Na2CO3', to(7)) as never).grams?.value,
    ],
    [
      'e13',
      'mass NaOH for it',
      () =>
        neutralised(
          [charge('x', 'chlorosulfonic', each(1.490178040108587 * 116.515, 'g')), charge('w', 'water', each(500, 'mL'))],
          charge('y', 'NaOH', to(7)) as never,
        ).grams?.value,
    ],
  ])('%s %s', (id, name, found) => near(id, name, found() ?? Number.NaN));

  test('e03: 36.6 mL of 0.05 mol/L acid for 75 mL of saturated lime water', () => {
    const needed = neutralised([limewater], charge('y', 'HCl', to(7), solution(0.05, 'mol/L')) as never).millilitres?.value;
    near('e03', 'c', (0.0122 * 36.6) / (needed ?? Number.NaN));
    expect(needed).toBeCloseTo(36.6, 6);
  });
});

describe('gas of an equation', () => {
  test.each<[string, string, () => number]>([
    ['e06', 'n(H2)', () => molesIn(gasLines({ Ga: 2 }, ['H2', 3], 8.88), 'stoichiometric')],
    ['e06', 'V', () => gasLitres(molesIn(gasLines({ Ga: 2 }, ['H2', 3], 8.88), 'stoichiometric'), 27, (723 * ATM) / 760)],
    [
      'e07',
      'V',
      () => gasLitres(1000 * molesIn(gasLines({ CaCO3: 1 }, ['CO2', 1], 1000), 'stoichiometric'), 875 - 273.15, 0.966 * ATM),
    ],
    ['e10', 'V a', () => gasLitres(molesIn(gasLines({ HgO: 2 }, ['O2', 1], 5.36), 'stoichiometric'), 23, 0.975 * ATM)],
    ['e10', 'V b', () => gasLitres(molesIn(gasLines({ S: 1 }, ['SO2', 1], 1000), 'stoichiometric'), 343, 1.21 * ATM)],
    ['e10', 'V c', () => gasLitres(molesIn(gasLines({ BaO2: 2 }, ['O2', 1], 129.7), 'stoichiometric'), 423 - 273.15, 127.4)],
  ])('%s %s', (id, name, found) => near(id, name, found()));
});

describe('gas of a quench', () => {
  const linesOf = (more: readonly Operation[]): readonly BenchLine[] => {
    const one = route(MATERIALS, [step({ id: '1', basis: 'a', product: 'b', more })]);
    const input = {
      route: one,
      ask: { name: 't', draws: [draw('b', 0.001, 'mol')] },
      shelf: EMPTY_SHELF,
      settings,
      reference,
      asOf: TODAY,
    };
    return benchNumbers(input, plan(input), '1').flatMap((section) => section.lines);
  };
  const litres = (lines: readonly BenchLine[], code: string): number => {
    const shown = lines.find((line) => line.code === code)?.shown;
    return shown?.kind === 'figure' ? shown.figure.value : Number.NaN;
  };
  test.each<[string, string, () => number]>([
    [
      'e01',
      'V(CO2)',
      () =>
        litres(
          linesOf([charge('x', 'NaHCO3', each(2.5, 'g')), charge('y', 'HCl', to(4), solution(0.6, 'mol/L'))]),
          'stoichiometric',
        ),
    ],
    ['e12', 'V(CO2)', () => litres(linesOf([charge('x', 'H2SO4', acid, conc), charge('y', 'NaHCO3', to(7))]), 'largest')],
    [
      'e12',
      'V(CO2) with Na2CO3',
      () => litres(linesOf([charge('x', 'H2SO4', acid, conc), charge('y', 'Na2CO3', to(7))]), 'largest'),
    ],
    [
      'e13',
      'HCl gas at most, 25 C 1 atm',
      () =>
        litres(
          linesOf([charge('x', 'chlorosulfonic', each(1.490178040108587 * 116.515, 'g')), charge('w', 'water', each(500, 'mL'))]),
          'largest',
        ),
    ],
    [
      'e13',
      'acid equivalents after water',
      () =>
        litres(
          linesOf([
            charge('x', 'chlorosulfonic', each(1.490178040108587 * 116.515, 'g')),
            charge('w', 'water', each(500, 'mL')),
            charge('y', 'NaOH', to(7), solution(15, '% w/w')),
          ]),
          'acid there',
        ),
    ],
  ])('%s %s', (id, name, found) => near(id, name, found()));
});
