import { describe, expect, test } from 'vitest';
import { highestOfSynthesis } from '../../src/core/heat/adiabatic.ts';
import { heatOfMoles, heatOfRise, heatPerMole } from '../../src/core/heat/calorimetry.ts';
import { severityOf } from '../../src/core/heat/criticality.ts';
import { enthalpyOf } from '../../src/core/heat/hess.ts';
import { ASSUMED, kindOf, specificHeat } from '../../src/core/heat/specific-heat.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { riseOf } from '../../src/core/matter/heat-capacity.ts';
import { limitingOf } from '../../src/core/procedure/limiting.ts';
import { entered, type Figure, marksOf } from '../../src/core/quantity/figure.ts';
import { amountOf } from '../../src/core/plan/amounts.ts';
import { caseById } from './cases.ts';
import { near, solution } from './amounts.ts';
import { reference } from './tables.ts';

// Topic f: heat. Sources of the cases: cases.json; of the other figures, beside each.

interface Value {
  readonly value: number;
}
function input(id: string, ...path: readonly string[]): number {
  const found = path.reduce<unknown>((of, key) => (of as Record<string, unknown>)[key], caseById(id).inputs);
  const value = typeof found === 'number' ? found : (found as Value).value;
  if (typeof value !== 'number') throw new Error(`${id} has no ${path.join('.')}`);
  return value;
}
const given = <U extends Figure['unit']>(value: number, unit: U): Figure<U> => entered('given', value, unit, 'the case');
const facts = (formula: string) => factsOf({ name: formula, formula }, reference);
/** Heat given off by one mole of an equation, from heats of formation. */
function hess(uses: Record<string, number>, makes: Record<string, number>, formation: Record<string, number>): number {
  const terms = (side: Record<string, number>) =>
    Object.entries(side).map(([material, coefficient]) => ({ material, coefficient }));
  const keys = [...Object.keys(uses), ...Object.keys(makes)];
  const found = enthalpyOf({ uses: terms(uses), makes: terms(makes) }, formation, new Map(keys.map((key) => [key, facts(key)])));
  if (!found.ok) throw new Error(found.why.code);
  return found.figure.value;
}
const rise = (kilojoules: number, grams: number, capacity: number): number =>
  riseOf(given(kilojoules, 'kJ'), given(grams, 'g'), given(capacity, 'J/(g·K)')).value;

describe('cases from outside sources', () => {
  test('f01: heat and enthalpy from a calorimeter', () => {
    const warmed = given(input('f01', 'T1') - input('f01', 'T0'), 'K');
    const grams = given(input('f01', 'V') * input('f01', 'density'), 'g');
    const heat = heatOfRise(warmed, grams, given(input('f01', 'cp'), 'J/(g·K)'));
    near('f01', 'Q', heat.value);
    // The example mixes 50.0 mL of 1.00 mol/L acid with as much base.
    near('f01', 'deltaH per mol HCl', -heatPerMole(heat, given(0.05, 'mol')).value);
  });

  test('f03: heat of a precipitation from its rise', () => {
    const heat = heatOfRise(given(input('f03', 'dT'), 'K'), given(input('f03', 'V'), 'g'), given(input('f03', 'cp'), 'J/(g·K)'));
    near('f03', 'Q', heat.value);
  });

  test('f04: the reagent that runs out decides the moles', () => {
    const zinc = amountOf(facts('Zn'), { kind: 'neat' }, { by: 'g', figure: given(input('f04', 'Zn'), 'g') }, reference).moles;
    const litre = given(input('f04', 'HCl', 'V'), 'mL');
    const acid = amountOf(
      facts('HCl'),
      solution(input('f04', 'HCl', 'c'), 'mol/L'),
      { by: 'mL', figure: litre },
      reference,
    ).moles;
    const equation = {
      uses: [
        { material: 'Zn', coefficient: 1 },
        { material: 'HCl', coefficient: 2 },
      ],
      makes: [{ material: 'ZnCl2', coefficient: 1 }],
    };
    const moles = (key: string) => (key === 'Zn' ? (zinc.ok ? zinc.figure : null) : acid.ok ? acid.figure : null);
    const limiting = limitingOf({ equation, basis: 'HCl' }, moles, (key) => key);
    expect(limiting?.first.material).toBe(caseById('f04').outputs.find((one) => one.name === 'limiting')?.value);
    if (!limiting) throw new Error('nothing limits');
    near('f04', 'deltaH', -heatPerMole(given(input('f04', 'Q'), 'kJ'), limiting.first.turnover).value);
  });

  test('f06: energies per kilogram as rises', () => {
    const [target = 0, decomposition = 0] = (caseById('f06').inputs.energies as readonly Value[]).map((one) => one.value);
    near('f06', 'deltaTad target reaction', rise(target, 1000, input('f06', 'cp')));
    near('f06', 'deltaTad decomposition', rise(decomposition, 1000, input('f06', 'cp')));
  });

  test('f07: a word for each rise', () => {
    const rises = caseById('f07').inputs.deltaTad as readonly number[];
    expect(rises.map((one) => severityOf(one, false))).toEqual(caseById('f07').outputs[0]?.value as unknown as readonly string[]);
  });

  test('f09: MTSR with what is held back, and with all of it', () => {
    const process = given(input('f09', 'Tp'), '°C');
    const whole = given(input('f09', 'deltaTad'), 'K');
    // No mass is given: what is added is taken as nothing against the rest.
    const feed = { before: given(1, 'g'), added: given(0, 'g') };
    const accumulation = given(input('f09', 'accumulation'), '%');
    near('f09', 'MTSR', highestOfSynthesis({ process, rise: whole, accumulation, feed }).value);
    const unknown = highestOfSynthesis({ process, rise: whole, accumulation: null, feed });
    near('f09', 'MTSR at full batch accumulation', unknown.value);
  });

  test('f10, f16: rise from a molar enthalpy and a concentration', () => {
    const f10 = heatOfMoles(given(input('f10', 'b'), 'mol'), given(-input('f10', 'deltaH'), 'kJ/mol'));
    near('f10', 'deltaTad', rise(f10.value, 1000, input('f10', 'cp')));
    // One litre of acid with one of base, 1 g/mL.
    const f16 = heatOfMoles(given(input('f16', 'c'), 'mol'), given(-input('f16', 'deltaH'), 'kJ/mol'));
    near('f16', 'deltaTad', rise(f16.value, 2000 * input('f16', 'density'), input('f16', 'cp')));
  });

  test('f12: hydrogenation of nitrobenzene; hydrogen counts as zero', () => {
    const found = hess(
      { C6H5NO2: 1, H2: 3 },
      { C6H7N: 1, H2O: 2 },
      { C6H5NO2: input('f12', 'nitrobenzene(l)'), C6H7N: input('f12', 'aniline(l)'), H2O: input('f12', 'H2O(l)') },
    );
    near('f12', 'deltaH', found);
    near('f12', 'agreement with the typical -560', found);
    const row = reference.typicalHeat.get('hydrogenation of a nitro group');
    expect(row && -found >= row.least && -found <= row.most).toBe(true);
  });

  test('f13: hydrolysis of acetic anhydride', () => {
    const formation = { C4H6O3: input('f13', 'Ac2O(l)'), C2H4O2: input('f13', 'AcOH(l)'), H2O: input('f13', 'H2O(l)') };
    const found = hess({ C4H6O3: 1, H2O: 1 }, { C2H4O2: 2 }, formation);
    near('f13', 'deltaH', found);
    const row = reference.typicalHeat.get('hydrolysis of acetic anhydride');
    expect(row && -found >= row.least && -found <= row.most).toBe(true);
  });

  test('f15: esterification', () => {
    const formation = {
      C2H4O2: input('f15', 'AcOH'),
      C2H6O: input('f15', 'EtOH'),
      C4H8O2: input('f15', 'EtOAc'),
      H2O: input('f15', 'H2O'),
    };
    const found = hess({ C2H4O2: 1, C2H6O: 1 }, { C4H8O2: 1, H2O: 1 }, formation);
    near('f15', 'deltaH', found);
    near('f15', 'deltaTad at 5 mol/kg, cp 2', rise(-found * 5, 1000, 2));
  });
});

describe('tables against other sources', () => {
  test('the neutralisation of sulfuric acid in 100 mol of water gives more than twice that of hydrochloric acid', () => {
    // CRC heats of formation, kJ/mol: H₂SO₄(l) −813.99, Na₂SO₄(aq) −1390.5, NaOH(aq) −469.15, H₂O −285.83; Felder and
    // Rousseau, Table B.11: H₂SO₄ in 100 H₂O −73.97 (from memory).
    const found = -1390.5 + 2 * -285.83 - (-813.99 - 73.97 + 2 * -469.15);
    const row = reference.typicalHeat.get('neutralisation of sulfuric acid, both protons');
    expect(row && row.least <= -found && Math.abs(row.most - -found) < 3).toBe(true);
  });

  test('specific heats: Perry 8th ed., Table 2-153 at 25 °C, within 4 %', () => {
    // J/(mol·K): methanol 81.2, acetone 126.3, toluene 156.5, chlorobenzene 150.1, water 75.4.
    const book: readonly (readonly [cas: string, molar: number, mass: number])[] = [
      ['67-56-1', 81.2, 32.042],
      ['67-64-1', 126.3, 58.08],
      ['108-88-3', 156.5, 92.141],
      ['108-90-7', 150.1, 112.556],
      ['7732-18-5', 75.4, 18.015],
    ];
    for (const [cas, molar, mass] of book) {
      const row = reference.specificHeat.get(cas);
      expect(Math.abs((row?.value ?? 0) / (molar / mass) - 1), cas).toBeLessThan(0.04);
    }
  });

  test('what is assumed lies below nine in ten of the table’s rows of the same kind', () => {
    const byKind = new Map<string, number[]>();
    for (const row of reference.rows.specificHeats) {
      const material = reference.material.get(row.cas);
      const kind = kindOf({ formula: material?.formula ?? null, state: row.phase }, reference);
      byKind.set(kind, [...(byKind.get(kind) ?? []), row.value]);
    }
    for (const [kind, values] of byKind) {
      const below = values.filter((value) => value < ASSUMED[kind as keyof typeof ASSUMED]).length;
      expect(below / values.length, `${kind}: ${below} of ${values.length}`).toBeLessThanOrEqual(0.1);
    }
    expect(byKind.size).toBe(4);
  });

  test('heat capacities of what is charged: by table, by model, by parts, or assumed and marked so', () => {
    const of = (name: string, cas: string, form = solution(96, '% v/v')) =>
      specificHeat(factsOf({ name, cas }, reference), form, reference);
    // 92.4 % w/w: its parts give 0.924 × 2.438 + 0.076 × 4.18 = 2.57 (CRC), and mixing adds some per cent.
    expect(of('ethanol', '64-17-5').figure.value / 2.57).toBeGreaterThan(1);
    expect(of('ethanol', '64-17-5').figure.value / 2.57).toBeLessThan(1.05);
    expect(of('ethanol', '64-17-5').estimated).toBe(false);
    // 15 % lye: Laliberté 2009 gives 3.6; Perry 3.6 (from memory).
    expect(Math.abs(of('sodium hydroxide', '1310-73-2', solution(15, '% w/w')).figure.value - 3.6)).toBeLessThan(0.1);
    const own = specificHeat(
      factsOf({ name: 'something', formula: 'C9H12O3', state: 'solid' }, reference),
      { kind: 'neat' },
      reference,
    );
    expect([own.figure.value, own.estimated, marksOf(own.figure)]).toEqual([1, true, ['estimate']]);
  });
});
