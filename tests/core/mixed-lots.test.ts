import { describe, expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import type { Operation } from '../../src/core/route/route.ts';
import { sessionOf } from '../../src/core/paper/session.ts';
import { bottle, chargeOf, draw, planOf, route, step, stepOf } from './build.ts';

const assay = (assayPercent: number): Form => ({ kind: 'neat', assayPercent });
const materials = { a: 'C6H12', b: 'C6H12', c: 'C6H12' };
const MOLAR = 84.162;

/** Step 1 makes b from a; step 2 takes it, in a form of its own, and perhaps a second time. */
function planned(charge: Form | undefined, productAssayPercent: number | undefined, again: readonly Operation[] = []) {
  const basis: Operation = {
    do: 'charge',
    id: 'basis',
    stage: 'reaction',
    material: 'b',
    rule: { kind: 'basis' },
    ...(charge ? { form: charge } : {}),
  };
  return planOf(
    route(materials, [
      step({ id: '1', basis: 'a', product: 'b', extra: productAssayPercent === undefined ? {} : { productAssayPercent } }),
      step({ id: '2', basis: 'b', product: 'c', extra: { operations: [basis, ...again] } }),
    ]),
    [draw('c', 0.5, 'mol')],
    [bottle('b', 20, 'g', assay(98))],
  );
}

describe('an intermediate from a lot and from its step', () => {
  // By hand: 42.081 g of b are wanted, 20 g of 98 % hold 19.6 g of it, so 22.481 g have to be made, at whatever assay.
  test.each([
    ['none is named', undefined, undefined, 1],
    ['the charge says 98 %, the step does not say', assay(98), undefined, 1],
    ['the step says 95 %', undefined, 95, 0.95],
    ['they differ', assay(98), 95, 0.95],
  ] as const)('what is taken is what is there, where %s', (_, charge, product, made) => {
    const result = planned(charge, product);
    const grams = chargeOf(result, '2', 'b').grams?.value ?? 0;
    const there = 20 + (stepOf(result, '1').product.moles.value * MOLAR) / made;
    expect(grams).toBeCloseTo(there, 9);
    expect(grams).toBeCloseTo(20 + (0.5 * MOLAR - 19.6) / made, 2);
  });

  test('two charges of it share what the step is handed, by what each takes', () => {
    const again: Operation = {
      do: 'charge',
      id: 'seed',
      stage: 'work-up',
      material: 'b',
      rule: { kind: 'equivalents', equivalents: 0.25 },
    };
    const result = planned(undefined, undefined, [again]);
    const charges = stepOf(result, '2').operations.filter((one) => one.kind === 'charge');
    const grams = charges.map((one) => one.grams?.value ?? 0);
    expect((grams[0] ?? 0) / (grams[1] ?? 1)).toBeCloseTo(4, 9);
    const made = stepOf(result, '1').product.moles.value;
    expect(grams.reduce((sum, one) => sum + one, 0)).toBeCloseTo(20 + made * MOLAR, 6);
    const supplies = charges.flatMap((one) => (one.supply.kind === 'step' ? [one.supply] : []));
    expect(supplies.reduce((sum, one) => sum + one.madeMoles, 0)).toBeCloseTo(made, 12);
    expect(supplies.map((one) => one.bottles[0]?.amount)).toEqual([expect.closeTo(16, 9), expect.closeTo(4, 9)]);
    const line = result.fetch.find((one) => one.material === 'b');
    expect(line?.uses.map((use) => use.amount)).toEqual([expect.closeTo(16, 9), expect.closeTo(4, 9)]);
  });
});

describe('a line that bottles of several assays cover', () => {
  // By hand: 25.782 g are wanted; 25.0 g of 97 % hold 24.25 g, the rest is 1.532 g as it is: 26.532 g are weighed.
  const wanted = 25.782;
  const result = planOf(
    route(materials, [step({ id: '1', basis: 'a', product: 'b' })]),
    [draw('b', wanted)],
    [bottle('a', 25, 'g', assay(97), { useBy: '2027-01-31' }), bottle('a', 20, 'g', assay(100), { id: 'second', lot: 'second' })],
  );
  const line = result.fetch.find((one) => one.material === 'a');

  test('is the sum to be weighed, as its charge is; it says of which assays', () => {
    const charge = chargeOf(result, '1', 'a').grams?.value ?? 0;
    expect(charge).toBeCloseTo(26.532, 3);
    expect(line?.peak.value).toBeCloseTo(charge, 9);
    expect(line?.need.value).toBeCloseTo(charge, 9);
    expect(line?.uses.map((use) => use.amount)).toEqual([expect.closeTo(charge, 9)]);
    expect(line?.bottles.reduce((sum, one) => sum + one.amount, 0)).toBeCloseTo(charge, 9);
    expect(line?.formWords).toBe('assay 97 % w/w and neat');
  });

  test('on the list that goes to the bench too: its rounded target, not what is contained', () => {
    const only = sessionOf(result, [{ step: '1', batch: 1 }]).lines.find((one) => one.line.material === 'a');
    expect(only?.take?.value).toBeCloseTo(26.53, 2);
  });
});
