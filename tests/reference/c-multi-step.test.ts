import { describe, expect, test } from 'vitest';
import { gasLitres } from '../../src/core/bench/gas.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import { chargeOf, draw, planOf, route, step, stepOf } from '../core/build.ts';
import { caseById, expected } from './cases.ts';

// Topic c: multi-step yields and backward scaling, through plan() itself. Sources stand in cases.json.
function near(id: string, name: string, value: number): void {
  const want = expected(caseById(id), name);
  expect(Math.abs(value - want.value), `${id} ${name}: ${value} against ${want.value} ± ${want.within}`).toBeLessThanOrEqual(
    want.within,
  );
}

/** A chain of steps with these yields, planned for one mole: percent of the first basis that arrives. */
function overall(yields: readonly number[]): number {
  const key = (i: number): string => `m${i}`;
  const materials = Object.fromEntries([...yields, 0].map((_, i) => [key(i), 'C6H12']));
  const steps = yields.map((yieldPercent, i) => step({ id: `s${i}`, basis: key(i), product: key(i + 1), yieldPercent }));
  const result = planOf(route(materials, steps), [draw(key(yields.length), 1, 'mol')]);
  return 100 / stepOf(result, 's0').basis.moles.value;
}

describe('overall yields', () => {
  test.each<[string, string, readonly number[]]>([
    ['c01', 'linear overall', [50, 50, 50]],
    ['c03', 'overall', [90, 90, 90, 90, 90]],
    ['c04', 'six steps', [90, 90, 90, 90, 90, 90]],
    ['c04', 'three steps', [90, 90, 90]],
    ['c06', 'branch A overall', [94.7, 47]],
    ['c06', 'limiting branch yield', [38]],
    ['c07', 'overall', [90, 85, 95, 80, 92, 75, 88, 94]],
  ])('%s %s', (id, name, yields) => near(id, name, overall(yields)));

  test('c01: a branch that joins does not multiply with the other', () => {
    const materials = { a: 'C6H12', b: 'C6H12', c: 'C6H12', d: 'C6H12', e: 'C6H12' };
    const steps = [
      step({ id: '1', basis: 'a', product: 'b', yieldPercent: 50 }),
      step({ id: '2', basis: 'c', product: 'd', yieldPercent: 50 }),
      step({ id: '3', basis: 'b', product: 'e', yieldPercent: 50, equivalents: { d: 1 } }),
    ];
    const result = planOf(route(materials, steps), [draw('e', 1, 'mol')]);
    near('c01', 'convergent overall (longest linear path)', 100 / stepOf(result, '1').basis.moles.value);
    expect(stepOf(result, '2').basis.moles.value).toBeCloseTo(stepOf(result, '1').basis.moles.value, 12);
  });
});

describe('c09: 10.0 g of hexaphenylbenzene from benzoin, converging', () => {
  const materials = {
    benzoin: 'C14H12O2',
    copper: 'Cu(CH3COO)2·H2O',
    benzil: 'C14H10O2',
    ketone: 'C15H14O',
    koh: 'KOH',
    dienone: 'C29H20O',
    tolane: 'C14H10',
    target: 'C42H30',
  };
  const steps = [
    step({ id: '1', basis: 'benzoin', product: 'benzil', yieldPercent: 90.5, equivalents: { copper: 2 } }),
    step({ id: '2', basis: 'benzil', product: 'dienone', yieldPercent: 93.5, equivalents: { ketone: 1, koh: 0.535 } }),
    step({ id: '3', basis: 'dienone', product: 'target', yieldPercent: 84.5, equivalents: { tolane: 2.157 } }),
  ];
  const result: PlanResult = planOf(route(materials, steps), [draw('target', 10)]);
  test.each([
    ['mass(TPCP)', '3', 'dienone'],
    ['mass(diphenylacetylene)', '3', 'tolane'],
    ['mass(benzil)', '2', 'benzil'],
    ['mass(dibenzyl ketone)', '2', 'ketone'],
    ['mass(KOH)', '2', 'koh'],
    ['mass(benzoin)', '1', 'benzoin'],
    ['mass(Cu(OAc)2·H2O)', '1', 'copper'],
  ] as const)('%s', (name, id, material) => near('c09', name, chargeOf(result, id, material).grams?.value ?? Number.NaN));
  test('overall yield', () =>
    near('c09', 'overallYield', (100 * (result.draws[0]?.moles?.value ?? 0)) / stepOf(result, '1').basis.moles.value));
});

test('c10: litres of ethylene for a tonne of ethanol', () => {
  const result = planOf(
    route({ ethylene: 'C2H4', ethanol: 'C2H6O' }, [step({ id: '1', basis: 'ethylene', product: 'ethanol', yieldPercent: 90.1 })]),
    [draw('ethanol', 1e6)],
  );
  near('c10', 'V(C2H4) at 0 C, 1 atm', gasLitres(stepOf(result, '1').basis.moles.value, 0));
});

test('c12: urea from carbon in two steps', () => {
  const materials = { carbon: 'C', dioxide: 'CO2', urea: 'CO(NH2)2' };
  const steps = [step({ id: '1', basis: 'carbon', product: 'dioxide' }), step({ id: '2', basis: 'dioxide', product: 'urea' })];
  const perGram = chargeOf(planOf(route(materials, steps), [draw('urea', 1)]), '1', 'carbon').grams?.value ?? Number.NaN;
  near('c12', 'mass(urea)', 1000 / perGram);
});

test('c13: theory of adipic acid from cyclohexane', () => {
  const one = route({ a: 'C6H12', b: 'C6H10O4' }, [step({ id: '1', basis: 'a', product: 'b' })]);
  const perGram = chargeOf(planOf(one, [draw('b', 1)]), '1', 'a').grams?.value ?? Number.NaN;
  near('c13', 'theoreticalYield', 25 / perGram);
});
