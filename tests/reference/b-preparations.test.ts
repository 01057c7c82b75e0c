import { describe, expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { type Amount, amountOf } from '../../src/core/plan/amounts.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { draw, planOf, route, step, stepOf } from '../core/build.ts';
import { caseById, expected } from './cases.ts';
import { reference } from './tables.ts';

// Topic b as far as a plan computes it: moles of charges, theory, what limits, volumes, vessel fill. The percent
// yields of finished runs belong to the outcomes and are checked with them. Sources stand in cases.json.

const grams = (formula: string, value: number, form: Form = { kind: 'neat' }): Amount =>
  amountOf(
    factsOf({ name: formula, formula }, reference),
    form,
    { by: 'g', figure: entered(formula, value, 'g', 'the case') },
    reference,
  );
const millilitres = (formula: string, value: number, density: number): Amount =>
  amountOf(
    factsOf({ name: formula, formula }, reference),
    { kind: 'neat', density: { gramsPerMillilitre: density, celsius: 20 } },
    { by: 'mL', figure: entered(formula, value, 'mL', 'the case') },
    reference,
  );
const molesIn = (amount: Amount): number => (amount.moles.ok ? amount.moles.figure.value : Number.NaN);

function near(id: string, name: string, value: number): void {
  const want = expected(caseById(id), name);
  expect(Math.abs(value - want.value), `${id} ${name}: ${value} against ${want.value} ± ${want.within}`).toBeLessThanOrEqual(
    want.within,
  );
}

describe('moles of what is charged', () => {
  test.each<[string, string, () => number]>([
    ['b01', 'n(benzil)', () => molesIn(grams('C14H10O2', 21))],
    ['b01', 'n(dibenzyl ketone)', () => molesIn(grams('C15H14O', 21))],
    ['b03', 'n(chlorosulfonic acid)', () => molesIn(grams('ClSO3H', 290))],
    ['b03', 'n(acetanilide)', () => molesIn(grams('C8H9NO', 67.5))],
    ['b04', 'n(HNO3)', () => molesIn(grams('HNO3', 2100, { kind: 'solution', strength: { value: 50, basis: '% w/w' } }))],
    ['b04', 'n(cyclohexanol)', () => molesIn(grams('C6H12O', 500))],
    ['b06', 'n(adipic acid)', () => molesIn(grams('C6H10O4', 200))],
    ['b07', 'n(benzoin)', () => molesIn(grams('C14H12O2', 100))],
    ['b07', 'n(SOCl2)', () => molesIn(grams('SOCl2', 75))],
    ['b09', 'n(p-nitrotoluene)', () => molesIn(grams('C7H7NO2', 230))],
    ['b09', 'n(dichromate) as dihydrate', () => molesIn(grams('Na2Cr2O7·2H2O', 680))],
    ['b09', 'n(dichromate) if taken as anhydrous', () => molesIn(grams('Na2Cr2O7', 680))],
    ['b10', 'n(acetophenone)', () => molesIn(grams('C8H8O', 520))],
    ['b10', 'n(benzaldehyde)', () => molesIn(grams('C7H6O', 460))],
    ['b10', 'n(NaOH)', () => molesIn(grams('NaOH', 218))],
    ['b12', 'n(benzaldehyde)', () => 1000 * molesIn(millilitres('C7H6O', 15.28, 1.044))],
    ['b13', 'n(acetanilide)', () => molesIn(grams('C8H9NO', 6.9))],
    ['b15', 'n(xylidine)', () => 1000 * molesIn(grams('C8H11N', 0.5))],
    ['b18', 'n(TPCP)', () => molesIn(grams('C29H20O', 0.5))],
    ['b18', 'n(diphenylacetylene)', () => molesIn(grams('C14H10', 0.5))],
    ['b19', 'n', () => molesIn(grams('C4H9Cl', 3.7))],
    ['b27', 'n(Si)', () => molesIn(grams('Si', 2))],
    ['b27', 'n(N2)', () => molesIn(grams('N2', 1.5))],
  ])('%s %s', (id, name, value) => near(id, name, value()));

  test('b04: 2100 g of 50 % w/w at 1.32 g/mL as a volume', () => {
    const amount = grams('HNO3', 2100, {
      kind: 'solution',
      strength: { value: 50, basis: '% w/w' },
      density: { gramsPerMillilitre: 1.32, celsius: 20 },
    });
    near('b04', 'volume(HNO3 50 %)', amount.millilitres.ok ? amount.millilitres.figure.value : Number.NaN);
  });
  test('b07: 50 g of pyridine as a volume, where the source misprints', () => {
    const amount = grams('C5H5N', 50, { kind: 'neat', density: { gramsPerMillilitre: 0.9819, celsius: 20 } });
    near('b07', 'volume(pyridine) at 0.9819 g/mL', amount.millilitres.ok ? amount.millilitres.figure.value : Number.NaN);
  });
});

/** A one-step plan that starts with so many grams of basis: its theory, and what limits. */
function theory(
  basis: string,
  basisGrams: number,
  product: string,
  coefficients: readonly [number, number],
  others: Readonly<Record<string, readonly [grams: number, coefficient: number]>> = {},
) {
  const materials = { basis, product, ...Object.fromEntries(Object.keys(others).map((formula) => [formula, formula])) };
  const moles = molesIn(grams(basis, basisGrams));
  const equivalents = Object.fromEntries(
    Object.entries(others).map(([formula, [mass]]) => [formula, molesIn(grams(formula, mass)) / moles]),
  );
  const uses = [
    { material: 'basis', coefficient: coefficients[0] },
    ...Object.entries(others).map(([material, [, coefficient]]) => ({ material, coefficient })),
  ];
  const one = route(materials, [
    step({
      id: '1',
      basis: 'basis',
      product: 'product',
      equivalents,
      extra: { equation: { uses, makes: [{ material: 'product', coefficient: coefficients[1] }] } },
    }),
  ]);
  const result = planOf(one, [draw('product', (moles * coefficients[1]) / coefficients[0], 'mol')]);
  return {
    grams: stepOf(result, '1').product.theory.value,
    moles: stepOf(result, '1').product.moles.value,
    notices: result.notices,
  };
}

describe('theory', () => {
  test.each<[string, string, () => number]>([
    ['b01', 'theoreticalYield', () => theory('C15H14O', 21, 'C29H20O', [1, 1]).grams],
    ['b03', 'theoreticalYield', () => theory('C8H9NO', 67.5, 'C8H8ClNO3S', [1, 1]).grams],
    ['b04', 'theoreticalYield', () => theory('C6H12O', 500, 'C6H10O4', [1, 1]).grams],
    ['b06', 'theoreticalYield', () => theory('C6H10O4', 200, 'C5H8O', [1, 1]).grams],
    ['b12', 'theoretical benzoin at 150 mmol', () => theory('C7H6O', 0.15 * 106.124, 'C14H12O2', [2, 1]).grams],
    ['b12', 'theoretical benzil at 150 mmol', () => theory('C7H6O', 0.15 * 106.124, 'C14H10O2', [2, 1]).grams],
    ['b15', 'theoretical chloroamide', () => theory('C8H11N', 0.5, 'C10H12ClNO', [1, 1]).grams],
    ['b15', 'theoretical lidocaine', () => theory('C8H11N', 0.5, 'C14H22N2O', [1, 1]).grams],
    ['b16', 'theoreticalYield', () => theory('C6H12O', 1.99, 'C6H10', [1, 1]).grams],
    ['b18', 'theoreticalYield', () => theory('C29H20O', 0.5, 'C42H30', [1, 1]).grams],
    ['b19', 'theoreticalYield', () => theory('C4H9Cl', 3.7, 'C10H14', [1, 1]).grams],
    ['b21', 'theoreticalYield', () => theory('C7H6O3', 2.08, 'C9H8O4', [1, 1]).grams],
    ['b22', 'theoreticalYield', () => theory('C7H6O3', 1.25, 'C9H8O4', [1, 1]).grams],
    ['b27', 'product from Si', () => theory('Si', 2, 'Si3N4', [3, 1]).moles],
    ['b27', 'product from N2', () => theory('N2', 1.5, 'Si3N4', [2, 1]).moles],
  ])('%s %s', (id, name, value) => near(id, name, value()));

  test('b27: nitrogen, though fewer moles, does not limit; silicon does', () => {
    expect(theory('Si', 2, 'Si3N4', [3, 1], { N2: [1.5, 2] }).notices.map((notice) => notice.code)).not.toContain(
      'another limits',
    );
    expect(theory('N2', 1.5, 'Si3N4', [2, 1], { Si: [2, 3] }).notices).toContainEqual(
      expect.objectContaining({ code: 'another limits', values: expect.objectContaining({ material: 'Si' }) }),
    );
  });

  test.each([
    ['b21', 2.08, 5.0],
    ['b22', 1.25, 3.0],
  ] as const)('%s equivalents of anhydride', (id, acid, volume) => {
    near(id, 'equivAnhydride', molesIn(millilitres('C4H6O3', volume, 1.08)) / molesIn(grams('C7H6O3', acid)));
  });
});

test('b28: how full the published flasks were, volumes additive', () => {
  const fill = (nominal: number, charges: readonly (readonly [mL: number])[]): number => {
    const materials = {
      basis: 'C6H12',
      product: 'C6H10',
      ...Object.fromEntries(charges.map((_, i) => [`l${i}`, { name: `liquid ${i}`, state: 'liquid' as const }])),
    };
    const more = charges.map(([amount], i) => ({
      do: 'charge' as const,
      id: `l${i}`,
      stage: 'reaction' as const,
      material: `l${i}`,
      rule: { kind: 'per batch' as const, amount, unit: 'mL' as const },
    }));
    const result = planOf(route(materials, [step({ id: '1', basis: 'basis', product: 'product', more })]), [
      draw('product', 1e-9, 'mol'),
    ]);
    return (100 * (stepOf(result, '1').batches.stages[0]?.volume.value ?? 0)) / nominal;
  };
  near('b28', 'fill adipic', fill(5000, [[2100 / 1.32], [500 / 0.962]]));
  near('b28', 'fill chalcone', fill(5500, [[1225], [1960], [520 / 1.028], [460 / 1.044]]));
});
