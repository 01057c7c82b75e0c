import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import { Form } from '../../src/core/matter/form.ts';
import { massFraction, molPerGram } from '../../src/core/matter/solution.ts';
import { strengthDoubt } from '../../src/core/matter/strength-doubt.ts';
import { bottleState } from '../../src/core/shelf/bottle-state.ts';
import { readShelf } from '../../src/core/shelf/read-shelf.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { assayPercent, containedMoles, whyNotUsable } from '../../src/core/shelf/usable.ts';
import { withoutWater, withWater } from '../../src/core/shelf/wet-form.ts';
import { formWords } from '../../src/core/words/form-words.ts';
import { reference } from '../reference/tables.ts';
import { bottle as shelfBottle, chargeOf, draw, planOf, route, step, stepOf } from './build.ts';

const BENZIL = { name: 'benzil', formula: 'C14H10O2', cas: '134-81-6' };
const facts = factsOf(BENZIL, reference);
const dry = (assay: number): Form => ({ kind: 'neat', assayPercent: assay, assayOn: 'anhydrous' });
const bottle = (form: Form, waterPercent?: number): Bottle => ({
  id: 'B1',
  material: 'benzil',
  form: withWater(form, waterPercent),
  left: 100,
  unit: 'g',
  ...(waterPercent === undefined ? {} : { waterPercent }),
});

describe('an assay on the anhydrous basis', () => {
  // By the equation of the source: as it is = anhydrous × (100 − water) ÷ 100; 98 × 0.95 = 93.1.
  test('98 % with 5 % of water is 93.1 % of what is weighed, told from what', () => {
    const found = massFraction(facts, bottle(dry(98), 5).form, reference);
    if (!found.ok) throw new Error('not known');
    expect(found.figure.value).toBeCloseTo(0.931, 12);
    expect(JSON.stringify(found.figure)).toMatch(/anhydrous basis × \(1 − water\)/);
    expect(formWords(bottle(dry(98), 5).form)).toBe('assay 93.1 % w/w as it is (98 % anhydrous, 5 % water)');
    expect(assayPercent(bottle(dry(98), 5))).toBeCloseTo(93.1, 9);
  });

  // 100 g × 0.931 ÷ 210.232 g/mol = 442.8 mmol.
  test('contained moles are those of what is there without the water', () => {
    expect(containedMoles(bottle(dry(98), 5), facts, reference)?.value).toBeCloseTo(93.1 / 210.232, 5);
  });

  test('water that nobody found is not zero: the bottle is of unknown strength, and gives no moles', () => {
    const open = bottle(dry(98));
    expect(massFraction(facts, open.form, reference)).toMatchObject({ ok: false, why: { code: 'no water content' } });
    expect(whyNotUsable(open, '2027-01-01', new Set())).toBe('unknown strength');
    expect(containedMoles(open, facts, reference)).toBeNull();
    const state = { left: 1, form: open.form, heldBack: false, useBy: null };
    expect(bottleState({ ...state, water: null }, '2027-01-01')).toEqual({ kind: 'unknown strength' });
    expect(bottleState({ ...state, water: 0 }, '2027-01-01')).toEqual({ kind: 'good' });
  });

  test('water found in what has an assay of all that is weighed changes nothing', () => {
    const plain: Form = { kind: 'neat', assayPercent: 98 };
    expect(massFraction(facts, bottle(plain, 5).form, reference)).toEqual(massFraction(facts, plain, reference));
    expect(Form.safeParse({ ...plain, waterPercent: 5 }).success).toBe(false);
  });

  test('a hydrate, whose formula counts its water, is doubted', () => {
    const hydrate = { name: 'copper(II) sulfate pentahydrate', formula: 'CuSO4·5H2O' };
    expect(strengthDoubt(hydrate, dry(99), reference)).toEqual({ hydrate: hydrate.name });
    expect(strengthDoubt(hydrate, { kind: 'neat', assayPercent: 99 }, reference)).toBeNull();
    expect(strengthDoubt({ name: 'chloral' }, dry(99), reference)).toBeNull();
  });

  test('a shelf file without the water is refused at its place; with it the water is in the form', () => {
    const file = (more: object): string =>
      JSON.stringify({
        backweigh: 'shelf',
        version: 1,
        materials: { benzil: BENZIL },
        bottles: [{ id: 'B1', material: 'benzil', form: dry(98), left: 1, unit: 'g', ...more }],
      });
    const refused = readShelf(file({}));
    expect(refused.ok ? [] : refused.problems.map((one) => one.at)).toEqual(['/bottles/0/waterPercent']);
    const read = readShelf(file({ waterPercent: 5 }));
    expect(read.ok && read.value.bottles[0]?.form).toEqual({ ...dry(98), waterPercent: 5 });
  });

  test('more water never gives more moles, and none gives those of the assay; the form is kept without it', () => {
    const percent = fc.double({ min: 0, max: 99, noNaN: true });
    fc.assert(
      fc.property(percent, percent, fc.double({ min: 0.1, max: 100, noNaN: true }), (one, other, assay) => {
        const moles = (water: number): number => {
          const per = molPerGram(facts, withWater(dry(assay), water), reference);
          return per.ok ? per.figure.value : Number.NaN;
        };
        expect(moles(Math.max(one, other))).toBeLessThanOrEqual(moles(Math.min(one, other)));
        expect(moles(0)).toBeCloseTo(assay / 100 / (facts.molarMass?.value ?? 0), 12);
        expect(withoutWater(withWater(dry(assay), one))).toEqual(dry(assay));
      }),
    );
  });

  // 42.081 g of b are wanted; 20 g at 98 % anhydrous with 5 % of water hold 18.62 g of it, so 23.461 g have to be made.
  test('a plan counts of an intermediate what is there without the water, and takes what is weighed', () => {
    const wet: Form = { kind: 'neat', assayPercent: 98, assayOn: 'anhydrous', waterPercent: 5 };
    const result = planOf(
      route({ a: 'C6H12', b: 'C6H12', c: 'C6H12' }, [
        step({ id: '1', basis: 'a', product: 'b' }),
        step({ id: '2', basis: 'b', product: 'c' }),
      ]),
      [draw('c', 0.5, 'mol')],
      [shelfBottle('b', 20, 'g', wet)],
    );
    expect(stepOf(result, '1').product.moles.value * 84.162).toBeCloseTo(42.081 - 20 * 0.98 * 0.95, 2);
    expect(chargeOf(result, '2', 'b').grams?.value).toBeCloseTo(20 + 42.081 - 18.62, 2);
  });

  // 0.5 mol × 84.162 g/mol ÷ 0.931 = 45.2 g of what is weighed.
  test('of what is bought a charge takes so much more that what is there without the water is enough, and the list says so', () => {
    const wet: Form = { kind: 'neat', assayPercent: 98, assayOn: 'anhydrous', waterPercent: 5 };
    const result = planOf(
      route({ a: 'C6H12', b: 'C6H12' }, [step({ id: '1', basis: 'a', product: 'b' })]),
      [draw('b', 0.5, 'mol')],
      [shelfBottle('a', 100, 'g', wet)],
    );
    expect(chargeOf(result, '1', 'a').grams?.value).toBeCloseTo((0.5 * 84.162) / 0.931, 2);
    const line = result.fetch.find((one) => one.material === 'a');
    expect(line).toMatchObject({ status: 'enough' });
    expect(line?.formWords).toBe('assay 93.1 % w/w as it is (98 % anhydrous, 5 % water)');
  });
});
