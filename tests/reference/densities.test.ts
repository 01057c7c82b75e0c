import { describe, expect, test } from 'vitest';
import { neatDensity } from '../../src/core/matter/density.ts';
import { ethanolWaterDensity } from '../../src/core/matter/ethanol-water.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { apparentDensity, modelDensity, modelHeatCapacity, soluteHeatCapacity } from '../../src/core/matter/laliberte.ts';
import { gramsPerMillilitre, strengthOn } from '../../src/core/matter/solution.ts';
import { waterDensity, waterHeatCapacity } from '../../src/core/matter/water.ts';
import type { LaliberteRow } from '../../src/core/reference-rows.ts';
import { solution } from './amounts.ts';
import { reference } from './tables.ts';

const { water, ethanolWater } = reference.rows;
const row = (cas: string): LaliberteRow => {
  const found = reference.laliberte.get(cas);
  if (!found) throw new Error(`the model needs ${cas}`);
  return found;
};
const NACL = row('7647-14-5');
const facts = (cas: string) => factsOf({ name: cas, cas }, reference);
const density = (cas: string, percent: number, celsius?: number) =>
  gramsPerMillilitre(facts(cas), solution(percent, '% w/w'), reference, celsius);
const value = (found: ReturnType<typeof density>): number => (found.ok ? found.figure.value : Number.NaN);
const relative = (found: number | null, expected: number): number => Math.abs((found ?? Number.NaN) / expected - 1);

/** The model's mixing rule, without the check of its range: 1/ρ = w(water)/ρ(water) + Σ w/ρ(apparent). */
function mixed(celsius: number, parts: readonly { readonly of: LaliberteRow; readonly w: number }[]): number {
  const total = parts.reduce((sum, { w }) => sum + w, 0);
  const solutes = parts.reduce((sum, { of, w }) => sum + w / apparentDensity(of, total, celsius), 0);
  return 1 / ((1 - total) / (waterDensity(celsius, water) ?? Number.NaN) + solutes);
}

describe('water and the model of Laliberté: check values of the unit tests of the open library thermo', () => {
  // Its two further check values are viscosities, which the program does not compute.
  const second: LaliberteRow = {
    cas: '',
    density: {
      fromCelsius: 0,
      toCelsius: 100,
      toFraction: 1,
      coefficients: [0.967814929691928, 5.540434135986, 1.10374669742622, 0.0123340782160061, 2589.61875022366],
    },
    heat: null,
  };
  test.each<[string, () => number | null, number]>([
    ['water at 25 °C', () => waterDensity(25, water), 0.9970448954179155],
    ['water at 50 °C', () => waterDensity(50, water), 0.9880362916114763],
    ['sodium chloride, apparent, 0 °C, w 0.0037838838', () => apparentDensity(NACL, 0.0037838838, 0), 3.76189175857],
    ['its solution, 0 °C', () => modelDensity(NACL, 0.0037838838, 0, water), 1.00262501201859],
    [
      'two solutes, 5 °C',
      () =>
        mixed(5, [
          { of: NACL, w: 0.00581 },
          { of: second, w: 0.002 },
        ]),
      1.00569477272191,
    ],
    [
      'heat the sodium chloride brings, 1.5 °C, w 0.00398447',
      () => (NACL.heat ? soluteHeatCapacity(NACL.heat.coefficients, 0.00398447, 1.5) : null),
      -2.93073539458805,
    ],
  ])('%s', (_, found, expected) => expect(relative(found(), expected)).toBeLessThan(1e-9));

  test('heat capacity of the solution, 1.5 °C, 4.186566 J/(g·K): within 0.01 %, water between the points of its table', () => {
    const w = 0.00398447;
    const found = NACL.heat && soluteHeatCapacity(NACL.heat.coefficients, w, 1.5);
    const whole = (1 - w) * (waterHeatCapacity(1.5, water) ?? Number.NaN) + w * (found ?? Number.NaN);
    expect(relative(whole, 4.186566417712068)).toBeLessThan(1e-4);
  });

  test('heat capacity of 20 % sodium chloride at 25 °C is about 3.4 J/(g·K) (CRC Handbook gives 3.39 at 20 %, from memory)', () => {
    expect(modelHeatCapacity(NACL, 0.2, 25, water)).toBeCloseTo(3.39, 1);
  });
});

describe('ethanol and water: OIML R 22 (1975)', () => {
  test.each([
    [0, 20, 0.9982012],
    [1, 20, 0.7892391],
    [0.5, 20, 0.9137706],
    [1, 15, 0.7935057],
    [0, 15, 0.9990957],
  ])('w = %d at %d °C', (fraction, celsius, expected) => {
    expect(ethanolWaterDensity(fraction, celsius, ethanolWater)).toBeCloseTo(expected, 6);
  });
  test.each([
    [10, 25, 0.9804],
    [50, 25, 0.9099],
    [95, 25, 0.8001],
  ])(
    'mass percent %d at %d °C is %d g/mL (Perry, densities of ethyl alcohol and water, from memory)',
    (percent, celsius, expected) => {
      expect(value(density('64-17-5', percent, celsius))).toBeCloseTo(expected, 3);
    },
  );
  test('from −20 to 40 °C at any strength; outside there is none, or the model says so', () => {
    expect(ethanolWaterDensity(0.5, -20, ethanolWater)).not.toBeNull();
    expect(ethanolWaterDensity(0.5, -20.1, ethanolWater)).toBeNull();
    expect(ethanolWaterDensity(0.5, 40.1, ethanolWater)).toBeNull();
    expect(density('64-17-5', 50, 120)).toMatchObject({ ok: false });
  });
  test.each([
    [50, 42.43],
    [96, 93.84],
    [70, 62.39],
  ])('volume percent %d is mass percent %d (International Alcoholometric Tables, OIML R 22, from memory)', (byVolume, byMass) => {
    const found = strengthOn('% w/w', facts('64-17-5'), solution(byVolume, '% v/v'), reference);
    expect(found.ok && found.figure.value).toBeCloseTo(byMass, 1);
  });
});

describe('tables at 20 °C: CRC Handbook 102nd ed. (2021), Concentrative Properties of Aqueous Solutions', () => {
  test.each([
    ['sodium chloride', '7647-14-5', 10, 1.0707],
    ['sulfuric acid', '7664-93-9', 10, 1.0661],
    ['sulfuric acid', '7664-93-9', 50, 1.3952],
    ['sulfuric acid', '7664-93-9', 96, 1.8355],
    ['nitric acid', '7697-37-2', 20, 1.115],
    ['hydrochloric acid', '7647-01-0', 40, 1.1977],
    ['ammonia', '7664-41-7', 30, 0.892],
    ['glycerol', '56-81-5', 40, 1.0984],
    ['calcium chloride', '10043-52-4', 30, 1.2816],
    ['acetone', '67-64-1', 10, 0.9849],
    ['methanol', '67-56-1', 100, 0.7917],
    ['sodium hydroxide', '1310-73-2', 40, 1.4299],
    ['sodium acetate', '127-09-3', 30, 1.1602],
    ['potassium hydrogen carbonate', '298-14-6', 24, 1.1685],
    ['D-glucose (the handbook heads it α-D-glucose)', '50-99-7', 60, 1.2793],
  ])('%s, %s, mass percent %d: %d g/mL', (_, cas, percent, expected) =>
    expect(value(density(cas, percent))).toBeCloseTo(expected, 6),
  );
});

describe('above the range of the Handbook', () => {
  test.each([
    ['nitric acid 68 %, Perry, read on a page that quotes it', '7697-37-2', 68, 1.4048, 0.0005],
    ['nitric acid 70 %, Perry, from memory', '7697-37-2', 70, 1.4134, 0.0005],
    ['phosphoric acid 85 %, label 1.69–1.70', '7664-38-2', 85, 1.69, 0.01],
    ['hydrobromic acid 48 %, label 1.49', '10035-10-6', 48, 1.49, 0.01],
    ['sodium hydroxide 50 %, label 1.53', '1310-73-2', 50, 1.53, 0.01],
    ['potassium hydroxide 45 %, label 1.45–1.46', '1310-58-3', 45, 1.455, 0.006],
    ['hydrogen peroxide 30 %, label 1.11', '7722-84-1', 30, 1.11, 0.005],
    ['formic acid 90 %, label 1.20', '64-18-6', 90, 1.2, 0.006],
  ])('%s', (_, cas, percent, expected, within) => {
    expect(Math.abs(value(density(cas, percent)) - expected)).toBeLessThanOrEqual(within);
  });
});

describe('pure liquids away from 20 °C', () => {
  test.each([
    ['methanol', '67-56-1', 25, 0.7866],
    ['toluene', '108-88-3', 25, 0.8623],
    ['acetone', '67-64-1', 25, 0.7845],
    ['ethanol', '64-17-5', 30, 0.7807],
    ['water', '7732-18-5', 4, 0.99997],
    ['water', '7732-18-5', 80, 0.9718],
  ])('%s, %s, at %d °C is %d g/mL (CRC Handbook, from memory)', (_, cas, celsius, expected) => {
    expect(Math.abs((neatDensity(facts(cas), reference, celsius)?.value ?? Number.NaN) - expected)).toBeLessThan(0.0006);
  });
});
