import { describe, expect, test } from 'vitest';
import { densityCurve, densityOn, liquidDensityAt } from '../../src/core/matter/density.ts';
import { ethanolWaterDensity } from '../../src/core/matter/ethanol-water.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { apparentDensity, modelDensity, modelHeatCapacity, soluteHeatCapacity } from '../../src/core/matter/laliberte.ts';
import { gramsPerMillilitre, strengthOn } from '../../src/core/matter/solution.ts';
import { waterDensity } from '../../src/core/matter/water.ts';
import { solution } from './amounts.ts';
import { reference } from './tables.ts';

const { water, ethanolWater } = reference.rows;
const row = (cas: string) => {
  const found = reference.laliberte.get(cas);
  if (!found) throw new Error(`the model needs ${cas}`);
  return found;
};
const NACL = row('7647-14-5');
const facts = (cas: string) => factsOf({ name: cas, cas }, reference);
const density = (cas: string, percent: number, celsius = 20) =>
  gramsPerMillilitre(facts(cas), solution(percent, '% w/w'), reference, celsius);
const value = (found: ReturnType<typeof density>): number => (found.ok ? found.figure.value : Number.NaN);

describe('water and the model of Laliberté: check values of the unit tests of the open library thermo', () => {
  test.each<[string, () => number | null, number]>([
    ['water at 25 °C', () => waterDensity(25, water), 0.9970448954179155],
    ['water at 50 °C', () => waterDensity(50, water), 0.9880362916114763],
    ['sodium chloride, apparent, 0 °C, w 0.0037838838', () => apparentDensity(NACL, 0.0037838838, 0), 3.76189175857],
    [
      'heat the sodium chloride brings, 1.5 °C, w 0.00398447',
      () => (NACL.heat ? soluteHeatCapacity(NACL.heat.coefficients, 0.00398447, 1.5) : null),
      -2.93073539458805,
    ],
  ])('%s', (_, found, expected) => expect(Math.abs((found() ?? Number.NaN) / expected - 1)).toBeLessThan(1e-9));

  test('a solution of sodium chloride at 0 °C, where the fitted range allows it', () => {
    // 1002.6250120185854 kg/m³ in the source; the mixing rule, without the range check.
    const w = 0.0037838838;
    const pure = waterDensity(0, water) ?? Number.NaN;
    expect(1 / ((1 - w) / pure + w / apparentDensity(NACL, w, 0))).toBeCloseTo(1.00262501201859, 12);
  });

  test('heat capacity of 20 % sodium chloride at 25 °C is about 3.4 J/(g·K) (CRC Handbook gives 3.39 at 20 %, from memory)', () => {
    expect(modelHeatCapacity(NACL, 0.2, 25, water)).toBeCloseTo(3.39, 1);
  });
});

describe('ethanol and water: OIML R 22 (1975), Table I values', () => {
  test.each([
    [0, 20, 0.9982012],
    [1, 20, 0.7892391],
    [0.5, 20, 0.9137706],
    [1, 15, 0.7935057],
    [0, 15, 0.9990957],
  ])('w = %d at %d °C', (fraction, celsius, expected) => {
    expect(ethanolWaterDensity(fraction, celsius, ethanolWater)).toBeCloseTo(expected, 6);
  });
  test('outside −20 … 40 °C there is none', () => {
    expect(ethanolWaterDensity(0.5, 41, ethanolWater)).toBeNull();
    expect(density('64-17-5', 50, 60)).toMatchObject({ ok: false });
  });
  test('50 % v/v is 42.43 % w/w (OIML R 22, from memory)', () => {
    const found = strengthOn('% w/w', facts('64-17-5'), solution(50, '% v/v'), reference);
    expect(found.ok && found.figure.value).toBeCloseTo(42.43, 1);
  });
});

describe('tables at 20 °C: CRC Handbook 102nd ed., Concentrative Properties', () => {
  test.each([
    ['7647-14-5', 10, 1.0707],
    ['7664-93-9', 10, 1.0661],
    ['7664-93-9', 50, 1.3952],
    ['7697-37-2', 20, 1.115],
    ['56-81-5', 40, 1.0984],
    ['10043-52-4', 30, 1.2816],
    ['67-64-1', 10, 0.985],
  ])('%s at %d %% w/w is %d g/mL', (cas, percent, expected) => expect(value(density(cas, percent))).toBeCloseTo(expected, 3));
});

describe('which source answers', () => {
  const source = (found: ReturnType<typeof density>): string =>
    found.ok && found.figure.from.kind === 'source' ? `${found.figure.from.source}|${found.figure.from.mark ?? ''}` : 'none';
  test('the table at 20 °C, the model at another temperature, and neither outside both', () => {
    expect(source(density('7647-14-5', 10))).toBe('table at 20 °C, CRC102|');
    expect(source(density('7647-14-5', 10, 50))).toContain('Laliberté 2009|model');
    expect(density('7647-14-5', 40)).toMatchObject({ ok: false, why: { code: 'outside density table' } });
    expect(density('7664-93-9', 96, 60)).toMatchObject({ ok: false });
  });
  test('at a table end there is a value, just beyond it none or another source, never a guess', () => {
    for (const [key, table] of reference.densities) {
      const cas = key.split(' ')[0] ?? '';
      const end = table.percents.at(-1) ?? 0;
      expect(value(density(cas, end)), `${key} at ${end}`).toBeCloseTo(table.densities.at(-1) ?? Number.NaN, 9);
      const beyond = end >= 100 ? null : density(cas, end + 0.01);
      if (beyond?.ok) expect(source(beyond), key).toContain('model');
    }
  });
  test('a bottle that was measured is believed first', () => {
    const found = gramsPerMillilitre(facts('7647-14-5'), solution(10, '% w/w', 1.08), reference);
    expect(found.ok && found.figure.value).toBe(1.08);
  });
});

describe('where two sources reach', () => {
  test('table and model agree within 1.5 % (Sr and concentrated Na salts are the worst), most within 0.3 %', () => {
    const steps: number[] = [];
    for (const [key, table] of reference.densities) {
      const model = reference.laliberte.get(key.split(' ')[0] ?? '');
      if (!model || table.rows.some((one) => one.source === 'LAL2009')) continue;
      table.percents.forEach((percent, i) => {
        const found = modelDensity(model, percent / 100, 20, water);
        if (found !== null) steps.push(Math.abs(found / (table.densities[i] ?? Number.NaN) - 1));
      });
    }
    steps.sort((a, b) => a - b);
    expect(steps.length).toBeGreaterThan(500);
    expect(steps.at(-1)).toBeLessThan(0.015);
    expect(steps[Math.floor(steps.length * 0.9)]).toBeLessThan(0.003);
  });
  test('grams of solute in a millilitre grow with strength, which the solver of volume strengths rests on', () => {
    for (const key of reference.densities.keys()) {
      const curve = densityCurve(facts(key.split(' ')[0] ?? ''), 'water', 20, reference);
      if (!curve) throw new Error(`${key} needs a curve`);
      let before = -1;
      for (let percent = curve.from; percent <= curve.to; percent += 0.25) {
        const content = percent * (densityOn(curve, percent)?.value ?? Number.NaN);
        expect(content, `${key} at ${percent}`).toBeGreaterThan(before);
        before = content;
      }
    }
  });
});

describe('pure liquids away from 20 °C', () => {
  test('methanol at 25 °C is 0.7866 g/mL (CRC Handbook, from memory), through its expansion', () => {
    expect(liquidDensityAt(facts('67-56-1'), 25)?.value).toBeCloseTo(0.7866, 3);
  });
  test('far from 20 °C, or without an expansion, nothing is said', () => {
    expect(liquidDensityAt(facts('67-56-1'), 60)).toBeNull();
    expect(
      liquidDensityAt(factsOf({ name: 'oil', formula: 'C10H8', density: { gramsPerMillilitre: 1.1 } }, reference), 30),
    ).toBeNull();
  });
});
