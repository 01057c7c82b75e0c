import { describe, expect, test } from 'vitest';
import { plan } from '../../src/core/plan/plan.ts';
import { makeRunSheet } from '../../src/core/run/make-run-sheet.ts';
import { nextAct } from '../../src/core/run/next-act.ts';
import { RunSheet } from '../../src/core/run/run-sheet.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { contentsOf } from '../../src/core/run/weighed.ts';
import { reference } from '../reference/tables.ts';
import { bottle, chargeOf, draw, route, settings, shelfOf, step, TODAY } from './build.ts';
import { demoContext, demoInput, demoPlan } from './demo-fixture.ts';
import { by, charge, recorded } from './run-fixture.ts';

const result = demoPlan;
const context = demoContext;
const batches = result.steps.flatMap((step) =>
  Array.from({ length: step.active ? step.batches.count : 0 }, (_, at) => ({ step, batch: at + 1 })),
);

describe.each(batches.map(({ step, batch }) => [`${step.number}-${batch}`, step, batch] as const))(
  'sheet %s of the ready example',
  (_id, step, batch) => {
    const sheet = makeRunSheet(demoInput, context, step.id, batch);

    test('is what the port takes, and begins with something to do', () => {
      expect(RunSheet.safeParse(structuredClone(sheet)).success).toBe(true);
      const next = nextAct(sheet, foldRun(sheet, recorded(sheet, [{ kind: 'started', by }])));
      expect(next.kind).not.toBe('product');
    });

    test('its numbers are those it prints', () => {
      const printed = sheet.sheet.stages.flatMap((stage) => stage.entries).flatMap((one) => (one.do === 'charge' ? [one] : []));
      expect(printed.length).toBe(sheet.charges.length);
      for (const [at, one] of sheet.charges.entries()) {
        expect([one.id, one.target, one.unit, one.low, one.portions]).toEqual(
          [printed[at]].flatMap((entry) => [entry?.id, entry?.target, entry?.unit, entry?.low, entry?.portions]),
        );
      }
    });

    test('its basis at its target is the basis of the plan, and gives the theory it prints', () => {
      const basis = sheet.charges.filter((one) => one.isBasis);
      const moles = basis.reduce((sum, one) => sum + (one.exact ?? 0) * (one.molesPerUnit ?? 0), 0);
      expect(moles / sheet.basis.moles).toBeCloseTo(1, 6);
      expect((sheet.basis.moles * sheet.product.ratio * (sheet.product.molarMass ?? 0)) / sheet.sheet.theoryGrams).toBeCloseTo(
        1,
        6,
      );
    });
  },
);

describe('what a weighing takes out of its bottle and brings along', () => {
  const nitric = { name: 'nitric acid', formula: 'HNO3', cas: '7697-37-2' };
  const form = { kind: 'solution', strength: { value: 70, basis: '% w/w' } } as const;
  const asked = charge({ id: 'acid', unit: 'mL', by: 'volume', gramsPerMillilitre: 1.4, molesPerUnit: 0.0155 });

  test('what a dish gives beside a bottle of 98 % counts as what it is, not as the mixture of both', () => {
    const sheet = makeRunSheet(demoInput, context, 'dienone', 1);
    const basis = sheet.charges.find((one) => one.isBasis) ?? charge({ id: 'none' });
    expect(basis.bottles).toMatchObject([{ amount: 6, unit: 'g' }]);
    // Benzil, C14H10O2, 210.232 g/mol; of the dish no assay is known.
    expect(contentsOf(basis, 5.8, 'g', null, { name: 'benzil' }, reference).moles).toBeCloseTo(5.8 / 210.232, 7);
  });

  test('weighed from a bottle that is kept in mL: by its density; moles by its own strength', () => {
    const got = contentsOf(asked, 70.67, 'g', { form, unit: 'mL' }, nitric, reference);
    // 70 % w/w nitric acid, 1.4134 g/mL at 20 °C: 70.67 g are 50.0 mL and 0.7 · 70.67 / 63.012 mol.
    expect(got.taken).toBeCloseTo(50, 1);
    expect(got.moles).toBeCloseTo((0.7 * 70.67) / 63.012, 4);
  });
  test('a neat bottle by its assay', () => {
    const neat = { form: { kind: 'neat', assayPercent: 98.5 }, unit: 'g' } as const;
    const got = contentsOf(charge({ id: 'b' }), 10.613, 'g', neat, { name: 'benzoin', formula: 'C14H12O2' }, reference);
    expect(got).toEqual({ taken: 10.613, moles: expect.closeTo(0.0492528, 6) as number, density: null });
  });
  test('without a bottle as the plan reckoned it; what cannot be told is null', () => {
    expect(contentsOf(asked, 50, 'mL', null, nitric, reference)).toEqual({ taken: null, moles: 50 * 0.0155, density: null });
    const lost = { ...asked, gramsPerMillilitre: null };
    expect(contentsOf(lost, 50, 'g', { form: { kind: 'unknown' }, unit: 'mL' }, nitric, reference)).toEqual({
      taken: null,
      moles: null,
      density: null,
    });
  });
});

describe('what is too little to be weighed', () => {
  // A catalyst, C6H12, 84.162 g/mol, of which no balance of the list weighs so little within its range.
  const one = route({ a: 'C6H12', b: 'C6H12', cat: 'C6H12' }, [
    step({ id: '1', basis: 'a', product: 'b', equivalents: { cat: 0.00002 } }),
  ]);
  const input = {
    route: one,
    ask: { name: 'a plan', draws: [draw('b', 0.1, 'mol')] },
    shelf: shelfOf(one, [bottle('a', 100), bottle('cat', 5)]),
    settings,
    reference,
    asOf: TODAY,
  };
  const planned = plan(input);
  const own = { ...demoContext, result: planned, bench: () => [], cautions: () => new Map() };
  const sheet = makeRunSheet(input, own, '1', 1);
  const cat = sheet.charges.find((charge) => charge.material === 'cat') ?? expect.fail();

  test('is weighed as its stock solution: 0.1 mol · 0.00002 · 84.162 g/mol = 168 µg stand in what is taken of it', () => {
    const stock = chargeOf(planned, '1', 'cat').perBatch.stock ?? expect.fail();
    // What is dissolved is in the whole, and the same part of it in what is taken.
    expect((stock.dissolve.value * stock.take.value) / stock.total.value).toBeCloseTo(0.1 * 0.00002 * 84.162, 7);
    expect(cat).toMatchObject({ asStock: true, unit: 'g', bottles: [], name: 'stock solution of cat' });
    expect(cat.exact).toBeCloseTo(stock.take.value, 12);
    // What its bottle is short of then is told beside it.
    expect(cat.dissolves).toBe(stock.dissolve.value);
    expect(cat.target).toBeCloseTo(stock.take.value, 3);
    // ± the charge's own tolerance, as far as the balance shows it.
    expect((cat.low ?? 0) <= (cat.target ?? 0) && (cat.target ?? 0) <= (cat.high ?? 0)).toBe(true);
    expect((cat.high ?? 0) / (cat.low ?? 1)).toBeLessThan(1.1);
    expect(RunSheet.safeParse(structuredClone(sheet)).success).toBe(true);
  });
  test('and counts as the moles it brings', () => {
    const net = cat.target ?? 0;
    const { moles, taken } = contentsOf(cat, net, 'g', null, { name: 'cat' }, reference);
    expect(moles).toBeCloseTo((0.1 * 0.00002 * net) / (cat.exact ?? 1), 10);
    expect(taken).toBeNull();
  });
});
