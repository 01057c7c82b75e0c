import { describe, expect, test } from 'vitest';
import { gasLitres } from '../../src/core/bench/gas.ts';
import { crystallise, leastSolvent } from '../../src/core/crystallise/crystallise.ts';
import { boundProtons } from '../../src/core/matter/acidity.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { integralHeat } from '../../src/core/matter/heat-of-dilution.ts';
import type { Operation, PlainRule } from '../../src/core/route/route.ts';
import { each, quenchCharge, quenchOf, valueOf } from '../core/quench-fixture.ts';
import { solution } from './amounts.ts';
import cases from './own-cases.json' with { type: 'json' };
import { reference } from './tables.ts';

// Cases of our own in the style of cases.json, topics e, f and g: each names what was read. Where the source is wrong the
// recomputed figure stands, and the flag says why.

const ATM = 101.325;
const MATERIALS = {
  a: { name: 'a', formula: 'C6H12', state: 'liquid' as const },
  b: { name: 'b', formula: 'C6H6', state: 'liquid' as const },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  H2SO4: { name: 'sulfuric acid', cas: '7664-93-9' },
  NaHCO3: { name: 'sodium hydrogen carbonate', cas: '144-55-8' },
  Li: { name: 'lithium', cas: '7439-93-2' },
  LiH: { name: 'lithium hydride', formula: 'LiH', state: 'solid' as const },
};

const charge = (material: keyof typeof MATERIALS, rule: PlainRule, form?: Form): Operation => quenchCharge(material, rule, form);

/** What a step says of its charges: by section and code, the figure or the end of a range. */
function said(more: readonly Operation[], section: string, code: string): number {
  const lines = quenchOf(MATERIALS, more).find((found) => found.kind === section)?.lines ?? [];
  const shown = lines.find((line) => line.code === code)?.shown;
  if (shown) return valueOf(shown);
  throw new Error(`${section} says nothing of ${code}: ${lines.map((line) => line.code).join(', ')}`);
}

const acid = (millilitres: number, strength: number): Operation =>
  charge('H2SO4', each(millilitres, 'mL'), solution(strength, 'mol/L'));
const bicarbonate = charge('NaHCO3', { kind: 'to neutralise', endPH: 7 });
const moles = (litres: number, atmospheres: number, kelvin: number): number =>
  litres / gasLitres(1, kelvin - 273.15, atmospheres * ATM);

/** mL or g of solvent, and what comes of it. */
function crops(grams: number, hot: number, cold: number, solvent = leastSolvent(grams, hot)) {
  const crop = crystallise({ grams, solvent, hot, cold });
  return {
    'minimum solvent': leastSolvent(grams, hot),
    taken: solvent,
    crystals: crop.crystals,
    undissolved: crop.undissolved,
    'left in liquor': crop.liquor,
    recovery: crop.recoveryPercent,
  };
}

const ANSWERS: Readonly<Record<string, () => Readonly<Record<string, number>>>> = {
  'own-e1': () => ({ 'mass NaHCO3': said([acid(28, 6.2), bicarbonate], 'neutralise', 'mass') }),
  'own-e2': () => ({
    'mass NaHCO3': said([acid(85, 1.5), bicarbonate], 'neutralise', 'mass'),
    'of what is needed': said([acid(85, 1.5), charge('NaHCO3', each(15, 'g'))], 'neutralise', 'too little'),
  }),
  'own-e3': () => ({ 'of two protons': (100 * (3 - boundProtons([2.15, 7.2, 12.35], 8.2))) / 2 }),
  'own-e4': () => {
    const litres = said([charge('Li', each(24.6, 'g')), charge('water', each(500, 'mL'))], 'gas', 'largest');
    return { 'V(H2)': gasLitres(moles(litres, 1, 298.15), 301 - 273.15, 1.01 * ATM) };
  },
  'own-e5': () => {
    const molarMass = factsOf(MATERIALS.LiH, reference).molarMass?.value ?? Number.NaN;
    return { 'mass LiH': moles(4.1, 0.955, 285.15) * molarMass };
  },
  'own-f1': () => ({
    temperature: said(
      [charge('water', each(100, 'g')), charge('H2SO4', each(10, 'g'), solution(98, '% w/w'))],
      'heat',
      'extra rise',
    ),
  }),
  'own-f2': () => {
    const heat = integralHeat(factsOf(MATERIALS.H2SO4, reference), Number.POSITIVE_INFINITY, reference);
    return { 'heat of solution': heat.ok ? heat.figure.value : Number.NaN };
  },
  'own-g1': () => crops(12, 5, 0.8),
  'own-g2': () => crops(0.437, 100 / 15, 100 / 460, 5),
  'own-g3': () => crops(26, 17, 3.5),
  'own-g4': () => crops(10, 100 / 13, 100 / 459, 11 * leastSolvent(10, 100 / 13)),
  'own-g5': () => crops(5.13, 100 / 4.1, 100 / 96),
};

describe('cases of our own', () => {
  test.each(cases.map((one) => [one.id, one.title, one] as const))('%s %s', (id, _, one) => {
    const answers = ANSWERS[id]?.();
    for (const output of one.outputs) {
      const found = answers?.[output.name] ?? Number.NaN;
      expect(Math.abs(found - output.value), `${output.name}: ${found} against ${output.value}`).toBeLessThanOrEqual(
        output.tolAbs,
      );
    }
  });

  test('each names its source, and a printed figure that is not taken has its reason', () => {
    for (const one of cases) {
      expect(one.source.length, one.id).toBeGreaterThan(10);
      const off = one.outputs.some(({ printed, value: taken, tolAbs }) => {
        const number = Number.parseFloat((printed ?? '').replace('about ', ''));
        return Number.isFinite(number) && Math.abs(number - taken) > Math.max(tolAbs, 0.005 * Math.abs(taken));
      });
      if (off) expect('flag' in one && one.flag, one.id).toBeTruthy();
    }
  });
});

describe('edges', () => {
  test('nothing to neutralise, nothing to crystallise, no solvent', () => {
    expect(() => said([acid(0, 1), bicarbonate], 'neutralise', 'mass')).toThrow(/nothing/);
    expect(crystallise({ grams: 0, solvent: 0, hot: 5, cold: 1 }).crystals).toBe(0);
    expect(() => leastSolvent(10, 0)).toThrow('above 0');
  });

  test('a pH above what hydrogen carbonate reaches is refused with the reason', () => {
    expect(() => said([acid(10, 1), charge('NaHCO3', { kind: 'to neutralise', endPH: 9.5 })], 'neutralise', 'mass')).toThrow();
  });

  test('an infinite amount of water per mole is the end of the table, half a mole is inside it', () => {
    const sulfuric = factsOf(MATERIALS.H2SO4, reference);
    const near = integralHeat(sulfuric, 0.5, reference);
    expect(near.ok && near.figure.value).toBeCloseTo(-15.73, 2);
  });
});
