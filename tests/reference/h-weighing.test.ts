import { describe, expect, test } from 'vitest';
import { buretteSuits } from '../../src/core/bench/device.ts';
import { measureTolerance } from '../../src/core/bench/measure-tolerance.ts';
import { smallestNetMass } from '../../src/core/bench/smallest-mass.ts';
import { madeConcentration, rectangular, volumeUncertainty } from '../../src/core/bench/uncertainty.ts';
import type { MeasureKind } from '../../src/core/reference-rows.ts';
import { caseById, casesOf, expected } from './cases.ts';
import { reference } from './tables.ts';

/** The tolerance USP ⟨41⟩ is written for: 0.10 %. */
const USP = 0.001;
const close = (value: number, id: string, output: string): void => {
  const want = expected(caseById(id), output);
  expect(Math.abs(value - want.value), `${id} ${output}: ${value}`).toBeLessThanOrEqual(want.within);
};
const input = <T>(id: string, name: string): T => caseById(id).inputs[name] as T;
const valueOf = (id: string, name: string): number => input<{ readonly value: number }>(id, name).value;
const tolerance = (kind: MeasureKind, standard: string, grade: string, nominal: number): number => {
  const found = measureTolerance({ kind, standard, grade, nominal }, reference.rows.measureTolerances);
  if (!found) throw new Error(`no tolerance of a ${kind} of ${nominal} mL, ${standard}, class ${grade}`);
  return found.value;
};

describe('smallest net mass', () => {
  test('h01: from the repeatability', () => {
    close(smallestNetMass({ readability: 0, repeatability: valueOf('h01', 's') }, USP), 'h01', 'minWeight');
  });
  test('h03: never below 0.41 of a reading', () => {
    for (const d of input<readonly number[]>('h03', 'd')) {
      close(smallestNetMass({ readability: d / 1000 }, USP) * 1000, 'h03', `min for d ${d} mg`);
    }
  });
  test('h04: coverage factor 2 now, 3 before', () => {
    const fineness = { readability: 0, repeatability: valueOf('h04', 's') / 1000 };
    close(smallestNetMass(fineness, USP) * 1000, 'h04', 'current 2000 s');
    close(smallestNetMass(fineness, USP, 3) * 1000, 'h04', 'before 2013: 3000 s');
  });
});

test('h06: a solution made by mass and brought to a volume, with its uncertainty', () => {
  const volume = valueOf('h06', 'V');
  const ofVolume = volumeUncertainty({
    volume,
    tolerance: valueOf('h06', 'flaskTolerance'),
    kelvin: valueOf('h06', 'temperature'),
    expansion: 2.1e-4,
    repeatability: valueOf('h06', 'repeatability'),
  });
  close(ofVolume, 'h06', 'u(V)');
  const ofPurity = rectangular(valueOf('h06', 'purityHalfWidth'));
  close(ofPurity, 'h06', 'u(purity)');
  const made = madeConcentration(
    { value: valueOf('h06', 'm') / 1000, uncertainty: valueOf('h06', 'u(m)') / 1000 },
    { value: valueOf('h06', 'purity'), uncertainty: ofPurity },
    { value: volume, uncertainty: ofVolume },
  );
  // g/mL → mg/L
  close(made.value * 1e6, 'h06', 'c');
  close(made.uncertainty * 1e6, 'h06', 'u(c)');
});

describe('tolerances by standard and class', () => {
  test('h07: cylinders, ASTM E1272', () => {
    const standard = input<string>('h07', 'standard');
    for (const nominal of input<readonly number[]>('h07', 'capacity')) {
      close(tolerance('cylinder', standard, 'A', nominal), 'h07', `tol ${nominal} mL`);
    }
    close(tolerance('cylinder', standard, 'B', 100), 'h07', 'class B 100 mL');
  });
  test.each<[string, MeasureKind, string]>([
    ['pipette E969', 'transfer pipette', 'ASTM E969'],
    ['flask E288', 'volumetric flask', 'ASTM E288'],
    ['burette E287', 'burette', 'ASTM E287'],
  ])('h09: %s', (name, kind, standard) => {
    const listed = Object.entries(input<Readonly<Record<string, number>>>('h09', name));
    expect(listed.length).toBeGreaterThan(0);
    for (const [nominal, value] of listed) expect(tolerance(kind, standard, 'A', Number(nominal))).toBe(value);
  });
  test('h09: the outputs', () => {
    close(tolerance('transfer pipette', 'ASTM E969', 'A', 25), 'h09', 'pipette 25 mL');
    close(tolerance('volumetric flask', 'ASTM E288', 'A', 100), 'h09', 'flask 100 mL');
    close(tolerance('volumetric flask', 'ASTM E288', 'A', 1000), 'h09', 'flask 1000 mL');
    close(tolerance('burette', 'ASTM E287', 'A', 50), 'h09', 'burette 50 mL');
  });
  test('h10: ISO differs from ASTM', () => {
    for (const [name, kind, standard] of [
      ['ISO 1042', 'volumetric flask', 'ISO 1042'],
      ['ISO 648 (2008)', 'transfer pipette', 'ISO 648'],
    ] as const) {
      const listed = Object.entries(input<Readonly<Record<string, number>>>('h10', name));
      for (const [nominal, value] of listed) expect(tolerance(kind, standard, 'A', Number(nominal))).toBe(value);
    }
    close(tolerance('volumetric flask', 'ISO 1042', 'A', 100), 'h10', 'ISO 1042 flask 100 mL');
    close(tolerance('transfer pipette', 'ISO 648', 'A', 10), 'h10', 'ISO 648 pipette 10 mL');
    const ratio = tolerance('volumetric flask', 'ISO 1042', 'A', 100) / tolerance('volumetric flask', 'ASTM E288', 'A', 100);
    close(ratio, 'h10', 'ISO/ASTM ratio for a 100 mL flask');
  });
  test('h13: graduated pipettes', () => {
    const sizes = input<readonly number[]>('h13', 'sizes');
    const limits = sizes.map((nominal) => tolerance('graduated pipette', 'USP <31>', 'A', nominal));
    const outputs = caseById('h13').outputs as unknown as readonly { name: string; value: readonly number[] }[];
    expect(limits.map((limit) => limit * 1000)).toEqual(outputs.find((one) => one.name === 'limits')?.value);
    const relative = outputs.find((one) => one.name === 'relative')?.value ?? [];
    relative.forEach((percent, i) => expect(((limits[i] ?? 0) / (sizes[i] ?? 1)) * 100).toBeCloseTo(percent, 12));
  });
});

test('h12: a burette is at least 30 % full', () => {
  const allowed = input<readonly number[]>('h12', 'nominal').map((nominal) => buretteSuits(valueOf('h12', 'V'), nominal));
  const [output] = caseById('h12').outputs as unknown as readonly { value: readonly boolean[] }[];
  expect(allowed).toEqual(output?.value);
});

test('every case of the topic is run above', () => {
  const run = ['h01', 'h03', 'h04', 'h06', 'h07', 'h09', 'h10', 'h12', 'h13'];
  expect(casesOf('h').map((one) => one.id)).toEqual(run);
});
