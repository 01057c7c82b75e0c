import { describe, expect, test } from 'vitest';
import { makeRunSheet } from '../../src/core/run/make-run-sheet.ts';
import { nextAct } from '../../src/core/run/next-act.ts';
import { RunSheet } from '../../src/core/run/run-sheet.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { contentsOf } from '../../src/core/run/weighed.ts';
import { reference } from '../reference/tables.ts';
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

  test('weighed from a bottle that is kept in mL: by its density; moles by its own strength', () => {
    const got = contentsOf(asked, 70.67, 'g', { form, unit: 'mL' }, nitric, reference);
    // 70 % w/w nitric acid, 1.4134 g/mL at 20 °C: 70.67 g are 50.0 mL and 0.7 · 70.67 / 63.012 mol.
    expect(got.taken).toBeCloseTo(50, 1);
    expect(got.moles).toBeCloseTo((0.7 * 70.67) / 63.012, 4);
  });
  test('a neat bottle by its assay', () => {
    const neat = { form: { kind: 'neat', assayPercent: 98.5 }, unit: 'g' } as const;
    const got = contentsOf(charge({ id: 'b' }), 10.613, 'g', neat, { name: 'benzoin', formula: 'C14H12O2' }, reference);
    expect(got).toEqual({ taken: 10.613, moles: expect.closeTo(0.0492528, 6) as number });
  });
  test('without a bottle as the plan reckoned it; what cannot be told is null', () => {
    expect(contentsOf(asked, 50, 'mL', null, nitric, reference)).toEqual({ taken: null, moles: 50 * 0.0155 });
    const lost = { ...asked, gramsPerMillilitre: null };
    expect(contentsOf(lost, 50, 'g', { form: { kind: 'unknown' }, unit: 'mL' }, nitric, reference)).toEqual({
      taken: null,
      moles: null,
    });
  });
});
