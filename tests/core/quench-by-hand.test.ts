import { describe, expect, test } from 'vitest';
import type { BenchLine } from '../../src/core/bench/bench-section.ts';
import { natureOf } from '../../src/core/bench/nature.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import type { Charge, Operation, PlainRule, ChargeRule } from '../../src/core/route/route.ts';
import { solution } from '../reference/amounts.ts';
import { reference } from '../reference/tables.ts';
import { settings } from './build.ts';
import { each, quenchCharge, quenchOf, valueOf } from './quench-fixture.ts';

// Quenches worked out by hand to four digits and held against the sections of a step. Molar masses: CIAAW 2021 abridged.

const MATERIALS = {
  a: { name: 'a', formula: 'C6H12', state: 'liquid' as const },
  b: { name: 'b', formula: 'C6H12', state: 'liquid' as const },
  water: { name: 'water', cas: '7732-18-5', utility: true },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
  nitric: { name: 'nitric acid', cas: '7697-37-2' },
  hydrochloric: { name: 'hydrochloric acid', cas: '7647-01-0' },
  phosphoric: { name: 'phosphoric acid', cas: '7664-38-2' },
  citric: { name: 'citric acid', cas: '77-92-9' },
  oxalic: { name: 'oxalic acid dihydrate', cas: '6153-56-6' },
  anhydride: { name: 'acetic anhydride', cas: '108-24-7' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
  bicarbonate: { name: 'sodium hydrogen carbonate', cas: '144-55-8' },
  ammonia: { name: 'ammonia', cas: '7664-41-7' },
  blind: { name: 'isobutylmalonic acid', formula: 'C7H12O4', smiles: 'CC(C)CC(C(=O)O)C(=O)O' },
  benzoic: { name: 'benzoic acid', cas: '65-85-0' },
  unseen: { name: 'an acid unseen', formula: 'C7H6O2', acidity: { pKa: [4.2], protons: 1 } },
  odd: { name: 'an acid chloride nobody knows', cas: '3282-30-2' },
};
type Key = keyof typeof MATERIALS;

const charge = (material: Key, rule: ChargeRule, form?: Form, more: Partial<Charge> = {}): Operation =>
  quenchCharge(material, rule, form, more);
const to = (endPH: number): PlainRule => ({ kind: 'to neutralise', endPH });

/** The figures of a quench's lines, by section and code; "from to" gives what it comes to. */
function linesOf(...more: readonly Operation[]): (section: string, code: string, operation?: Key) => BenchLine['shown'] {
  const sections = quenchOf(MATERIALS, more, { ...settings, coolingWatts: 20 });
  return (section, code, operation) => {
    const lines = sections.find((found) => found.kind === section)?.lines ?? [];
    const line = lines.find((found) => found.code === code && (operation === undefined || found.operation === operation));
    if (!line) throw new Error(`no line ${code} in ${section}: ${lines.map((found) => found.code).join(', ')}`);
    return line.shown;
  };
}
/** Within half of the fourth digit. */
const near = (shown: BenchLine['shown'], value: number): void =>
  expect(Math.abs(valueOf(shown) / value - 1), `${valueOf(shown)} against ${value}`).toBeLessThan(5e-4);

describe('10 mL of 96 % sulfuric acid in 100 mL of water, with 15 % lye over 30 min', () => {
  const found = linesOf(
    charge('water', each(100, 'mL')),
    charge('sulfuric', each(10, 'mL'), solution(96, '% w/w')),
    charge('lye', to(7), solution(15, '% w/w'), { overMinutes: 30 }),
  );

  test('acid, base, volume, rate: 18.355 g × 0.96 ÷ 98.072 g/mol, twice', () => {
    near(found('neutralise', 'acid there'), 2 * 0.179672);
    // × 39.997 ÷ 0.15 = 95.82 g; ÷ 1.164 g/mL (CRC, 15 %) = 82.32 mL; in 30 min 2.744 mL/min.
    near(found('neutralise', 'mass'), 95.82);
    near(found('neutralise', 'volume'), 82.32);
    near(found('neutralise', 'rate'), 2.744);
  });

  test('vessel: (100 + 10 + 82.32) mL, two thirds full', () => near(found('neutralise', 'vessel'), 1.5 * 192.32));

  test('heat of the acid into water: 0.1797 mol from 0.23 to 31.1 mol of water each, 65 kJ/mol; the rise by hand', () => {
    const heat = valueOf(found('heat', 'dilution', 'sulfuric'));
    // Felder and Rousseau: −72.3 at 25, −73.34 at 50; Koretsky’s differences agree; −7.6 at 0.23 by interpolation.
    expect(heat / 0.179672).toBeGreaterThan(64);
    expect(heat / 0.179672).toBeLessThan(66);
    // 99.82 + 0.73 g of water at 4.18, 17.62 g of acid at 1 J/(g·K): 437.9 J/K.
    expect(valueOf(found('heat', 'extra rise', 'sulfuric'))).toBeCloseTo(20 + (1000 * heat) / (100.55 * 4.18 + 17.62), 0);
  });

  test('heat of neutralisation: 55.815 each for the free protons, and what the hydrogen sulfate gives', () => {
    const heat = valueOf(found('neutralise', 'heat'));
    expect(heat).toBeGreaterThan(2 * 0.179672 * 55.815);
    expect(heat).toBeLessThan(0.179672 * (2 * 55.815 + 22.4));
  });
});

describe('polyprotic acids with hydrogen carbonate', () => {
  // Share of protons given by 0.1 mol at a pH, by hand from the pKa of the table.
  const given = (pKa: readonly number[], pH: number): number => {
    const forms = [1];
    for (const one of pKa) forms.push((forms.at(-1) ?? 1) * 10 ** (pH - one));
    const sum = forms.reduce((all, one) => all + one, 0);
    return forms.reduce((all, one, count) => all + (one * count) / sum, 0);
  };
  test.each([
    ['until pH 8.3', 8.3],
    ['pH 8–8.3 on paper', 8.3],
    ['pH of 4', 4],
    ['the colour changes', 7],
  ])('lye “%s”: the section works with that pH', (endPoint, pH) => {
    const until: ChargeRule = { kind: 'until', endPoint, estimate: each(20, 'mL'), atMost: 1.5 };
    const found = linesOf(
      charge('water', each(100, 'mL')),
      charge('phosphoric', each(10, 'g')),
      charge('lye', until, { kind: 'solution', strength: { value: 20, basis: '% w/w' } }),
    );
    near(found('neutralise', 'acid there'), (10 / 97.9938) * given([2.16, 7.21, 12.32], pH));
  });
  test.each<[Key, number, number, readonly number[]]>([
    ['phosphoric', 97.9938, 7, [2.16, 7.21, 12.32]],
    ['phosphoric', 97.9938, 8.3, [2.16, 7.21, 12.32]],
    ['citric', 192.123, 7, [3.13, 4.76, 6.4]],
    ['citric', 192.123, 8.3, [3.13, 4.76, 6.4]],
    ['oxalic', 126.064, 7, [1.25, 4.266]],
    ['oxalic', 126.064, 8.3, [1.25, 4.266]],
  ])('10 g of %s (%d g/mol) to pH %d', (acid, molarMass, pH, pKa) => {
    const found = linesOf(charge('water', each(100, 'mL')), charge(acid, each(10, 'g')), charge('bicarbonate', to(pH)));
    const moles = (10 / molarMass) * given(pKa, pH);
    near(found('neutralise', 'acid there'), moles);
    near(found('neutralise', 'mass'), moles * 84.006);
    // 24.465 L/mol at 25 °C and 1 atm.
    near(found('gas', 'largest', 'bicarbonate'), moles * 24.465);
  });

  test('the solid base takes the room of its own density, as in the vessel section; without an amount it has no mass to ask for', () => {
    const found = linesOf(charge('water', each(100, 'mL')), charge('citric', each(10, 'g')), charge('bicarbonate', to(7)));
    // CRC: citric acid 1.665 g/mL, sodium hydrogen carbonate 2.20 g/mL; half full, since it foams.
    near(found('neutralise', 'vessel'), 2 * (100 + 10 / 1.665 + valueOf(found('neutralise', 'mass')) / 2.2));
    near(found('neutralise', 'vessel'), valueOf(found('vessel', 'decides')));
    const blind = linesOf(charge('water', each(100, 'mL')), charge('blind', each(10, 'g')), charge('bicarbonate', to(7)));
    expect(blind('neutralise', 'mass')).toMatchObject({ kind: 'unknown', why: { code: 'no pKa' } });
    expect(blind('neutralise', 'heat')).toMatchObject({ kind: 'unknown', why: { code: 'no pKa' } });
  });

  test('phosphoric acid: the heat of dilution is known to the end of its table, and the temperature with it', () => {
    const found = linesOf(charge('water', each(100, 'mL')), charge('phosphoric', each(10, 'g')), charge('bicarbonate', to(7)));
    // Bicarbonate takes up 18.7 kJ/mol when it dissolves (CRC: −240.1 − 692.0 + 950.8): it grows colder.
    expect(valueOf(found('neutralise', 'temperature'))).toBeLessThan(20);
  });
});

describe('acetic anhydride, 10 mL, quenched', () => {
  const anhydride = 10.822 / 102.089;
  const found = linesOf(
    charge('anhydride', each(10, 'mL')),
    charge('water', each(50, 'mL')),
    charge('lye', to(7), solution(15, '% w/w')),
  );

  test('58.4 kJ/mol with water, and once more with the base: it may not be over', () => {
    near(found('heat', 'hydrolysis', 'water'), anhydride * 58.4);
    near(found('neutralise', 'hydrolysis'), anhydride * 58.4);
    // 49.91 g of water at 4.18, 10.82 g of anhydride at 1.65 (CRC): 27 K.
    expect(valueOf(found('heat', 'extra rise', 'water'))).toBeCloseTo(
      20 + (anhydride * 58_400) / (49.91 * 4.18 + 10.822 * 1.65),
      0,
    );
  });

  test('two acids of pKa 4.756 to pH 7, at 55.8 kJ each', () => {
    const acid = 2 * anhydride * (1 / (1 + 10 ** (4.756 - 7)));
    near(found('neutralise', 'acid there'), acid);
    near(found('neutralise', 'mass'), (acid * 39.997) / 0.15);
    expect(valueOf(found('neutralise', 'heat'))).toBeCloseTo(acid * (55.815 + 0.41), 1);
  });

  test('one whose heat with water is not known leaves the temperature unknown, with the reason', () => {
    const odd = linesOf(
      charge('odd', each(10, 'mL')),
      charge('water', each(50, 'mL')),
      charge('lye', to(7), solution(15, '% w/w')),
    );
    for (const code of ['heat', 'temperature', 'time by cooling'])
      expect(odd('neutralise', code)).toMatchObject({ kind: 'unknown', why: { code: 'no heat of hydrolysis' } });
  });
});

test('mixed acids: 10 mL of 65 % nitric and 10 mL of 96 % sulfuric acid', () => {
  const found = linesOf(
    charge('water', each(100, 'mL')),
    charge('nitric', each(10, 'mL'), solution(65, '% w/w')),
    charge('sulfuric', each(10, 'mL'), solution(96, '% w/w')),
    charge('lye', to(7), solution(15, '% w/w')),
  );
  // 13.913 g × 0.65 ÷ 63.012 + 2 × 0.17967 mol.
  near(found('neutralise', 'acid there'), 0.143519 + 0.359344);
});

test('25 % ammonia against 50 mL of 2 mol/L hydrochloric acid', () => {
  const found = linesOf(
    charge('hydrochloric', each(50, 'mL'), solution(2, 'mol/L')),
    charge('ammonia', to(7), solution(25, '% w/w')),
  );
  // 0.1 mol ÷ the 0.9944 that ammonia (9.25) takes up at pH 7, × 17.031 ÷ 0.25; 51.95 kJ/mol.
  near(found('neutralise', 'mass'), (0.1 / 0.994408) * (17.031 / 0.25));
  near(found('neutralise', 'heat'), 5.195);
  // The acid takes its own room now: (50 + 7.55) mL, two thirds full.
  near(found('neutralise', 'vessel'), 1.5 * 57.55);
});

describe('what is not known never counts as nothing', () => {
  const UNKNOWN: Form = { kind: 'unknown' };

  test('acid of an unknown strength into water: no heat of dilution, and why', () => {
    const found = linesOf(charge('water', each(50, 'mL')), charge('sulfuric', each(10, 'mL'), UNKNOWN));
    expect(found('heat', 'dilution', 'sulfuric')).toMatchObject({ kind: 'unknown', why: { code: 'mass not known' } });
  });

  test('nor of what goes into it later, nor a heat of neutralisation, whatever is charged', () => {
    const lye = charge('lye', each(20, 'mL'), solution(15, '% w/w'));
    const found = linesOf(charge('sulfuric', each(10, 'mL'), UNKNOWN), charge('water', each(50, 'mL')), lye);
    expect(found('heat', 'dilution', 'water').kind).toBe('unknown');
    expect(found('heat', 'dilution', 'lye').kind).toBe('unknown');
    expect(found('heat', 'neutralisation', 'lye')).toMatchObject({ kind: 'unknown', why: { code: 'amount in the vessel' } });
    expect(found('neutralise', 'mass').kind).toBe('unknown');
  });
});

describe('a carboxylic acid whose heat stands in no table beside 10 mL of 96 % sulfuric acid, neutralised by 15 % lye', () => {
  // 0.5 mol of an acid that the step makes, by its structure; and the same with the sulfuric acid alone.
  const withAcid = (acid: Key, grams: number) =>
    valueOf(
      linesOf(
        charge('water', each(100, 'mL')),
        charge('sulfuric', each(10, 'mL'), solution(96, '% w/w')),
        charge(acid, each(grams, 'g')),
        charge('lye', to(10), solution(15, '% w/w'), { overMinutes: 30 }),
      )('neutralise', 'heat'),
    );
  test('its protons count with the 55.8 kJ/mol of water, 5 at most to either side', () => {
    const alone = withAcid('benzoic', 1e-9);
    // 12.2118 g of benzoic acid (122.123 g/mol): 0.1 mol more.
    const per = (withAcid('benzoic', 12.2123) - alone) / 0.1;
    expect(per).toBeGreaterThan(50.8);
    expect(per).toBeLessThan(60.8);
  });
  test('one without a structure stays unknown', () => {
    const found = linesOf(
      charge('water', each(100, 'mL')),
      charge('unseen', each(10, 'g')),
      charge('lye', to(10), solution(15, '% w/w')),
    );
    expect(found('neutralise', 'heat').kind).toBe('unknown');
  });
});

describe('a quench whose heat is not known', () => {
  const ofAcid = (water: number, grams: number, percent: number) =>
    linesOf(
      charge('water', each(water, 'mL')),
      charge('unseen', each(grams, 'g')),
      charge('lye', to(10), solution(percent, '% w/w')),
    );

  test('both sections ask for the vessel half full where it could warm by 50 K', () => {
    // 100 g of the acid: 0.8188 mol, at most 80 kJ/mol: 65.5 kJ in 185.5 g, by 84 K even if all were water. Lye: 65.5 g at
    // 50 %, 1.525 g/mL.
    const found = ofAcid(20, 100, 50);
    const room = 20 + 100 / 1.3 + ((100 / 122.123) * 39.997) / 0.5 / 1.525;
    expect(found('neutralise', 'temperature').kind).toBe('unknown');
    near(found('neutralise', 'vessel'), 2 * room);
    near(found('vessel', 'decides'), 2 * room);
  });

  test('and not where it cannot', () => {
    // 10 g: 0.08188 mol, at most 6.55 kJ in 131.8 g, by less than 30 K even at 2 J/(g·K). Lye: 21.8 g at 15 %, 1.164 g/mL.
    const found = ofAcid(100, 10, 15);
    const room = 100 + 10 / 1.3 + ((10 / 122.123) * 39.997) / 0.15 / 1.164;
    expect(found('neutralise', 'temperature').kind).toBe('unknown');
    near(found('neutralise', 'vessel'), 1.5 * room);
    near(found('vessel', 'decides'), 1.5 * room);
  });
});

describe('what must not be neutralised', () => {
  const POISONS = {
    ...MATERIALS,
    bleach: { name: 'sodium hypochlorite', cas: '7681-52-9' },
    cyanide: { name: 'sodium cyanide', cas: '143-33-9' },
    azide: { name: 'sodium azide', cas: '26628-22-8' },
  };
  const codes = (...more: readonly Operation[]): readonly string[] =>
    quenchOf(POISONS, more).flatMap(({ kind, lines }) =>
      kind === 'neutralise'
        ? lines.map(({ code, shown }) => (shown.kind === 'unknown' ? `${code}: ${shown.why.code}` : code))
        : [],
    );
  const acid = (rule: PlainRule): Operation => charge('hydrochloric', rule, solution(37, '% w/w'));

  test('hydrochloric acid over is never said to ask for hypochlorite', () => {
    expect(codes(acid(each(20, 'mL')), quenchCharge('bleach', each(100, 'g'), solution(12, '% w/w')))).toEqual([]);
    expect(codes(acid(each(20, 'mL')), quenchCharge('bleach', to(7), solution(12, '% w/w')))).toEqual([
      'acid there',
      'mass: acid would free a poison',
      'heat: acid would free a poison',
    ]);
  });
  test.each(['cyanide', 'azide', 'bleach'])('no amount of acid is worked out for %s', (material) => {
    const poison = quenchCharge(material, each(20, 'g'));
    expect(codes(poison, acid(to(2)))).toContain('mass: acid would free a poison');
    expect(codes(poison, acid(each(20, 'mL'))).filter((code) => code === 'mass')).toEqual([]);
  });
});

test('hydrogen carbonate to pH 9 in acid: it cannot, and the acid is not said to be past it', () => {
  const sections = quenchOf(MATERIALS, [
    charge('water', each(100, 'mL')),
    charge('citric', each(10, 'g')),
    charge('bicarbonate', to(9)),
  ]);
  const lines = sections.find(({ kind }) => kind === 'neutralise')?.lines ?? [];
  expect(lines.map(({ code }) => code)).toEqual(['acid there', 'mass', 'heat']);
  expect(lines[1]?.shown).toMatchObject({ kind: 'unknown', why: { code: 'bicarbonate limit' } });
});

test('the hydrogen sulfate of ammonia that a nitrile’s hydrolysis leaves: both protons, and its heat', () => {
  const sections = quenchOf({ ...MATERIALS, ammonium: { name: 'ammonium hydrogen sulfate', cas: '7803-63-6' } }, [
    charge('water', each(100, 'mL')),
    quenchCharge('ammonium', each(11.511, 'g')),
    charge('lye', to(11.3), solution(15, '% w/w')),
  ]);
  const line = (code: string): BenchLine['shown'] => {
    const found = sections.flatMap(({ lines }) => lines).find((one) => one.code === code && one.operation === 'lye');
    if (!found) throw new Error(code);
    return found.shown;
  };
  // 0.1 mol; at pH 11.3 all but 0.9 % of the ammonium has given its proton: 0.1991 mol.
  near(line('mass'), (0.1991 * 39.997) / 0.15);
  // HSO4− 22.0 + 55.8, less what the water took off before; NH4+ 55.8 − 51.95.
  expect(valueOf(line('heat'))).toBeGreaterThan(0.1 * (55.8 + 55.8 - 51.95));
  expect(valueOf(line('heat'))).toBeLessThan(0.1 * (77.8 + 55.8 - 51.95));
});

describe('hydrogen carbonate after hydrogen peroxide', () => {
  const materials = {
    a: MATERIALS.a,
    b: MATERIALS.b,
    peroxide: { name: 'hydrogen peroxide', cas: '7722-84-1' },
    acid: { name: 'phosphoric acid', cas: '7664-38-2' },
    bicarbonate: { name: 'sodium hydrogen carbonate', cas: '144-55-8' },
    own: { name: 'a hydrogen carbonate without a number', formula: 'KHCO3' },
  };
  const form = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
  const more = [
    quenchCharge('peroxide', each(10, 'g'), form(30)),
    quenchCharge('acid', each(1, 'g'), form(85)),
    quenchCharge('bicarbonate', { kind: 'to neutralise', endPH: 7.5 }, form(8)),
  ];

  test('the peroxide (pKa 11.6) takes no base and makes no salt by its excess; the acid does', () => {
    const lines = quenchOf(materials, more).flatMap((one) => (one.kind === 'neutralise' ? one.lines : []));
    const excess = lines.flatMap(({ code, values }) => (code.startsWith('excess') ? [`${code}: ${values.material}`] : []));
    expect(excess).toEqual(['excess base', 'excess volume', 'excess salt'].map((code) => `${code}: phosphoric acid`));
  });

  test('is no organic material that an oxidiser sets on fire', () => {
    const organic = (material: Material): boolean => natureOf(factsOf(material, reference), reference).organic;
    expect([organic(materials.bicarbonate), organic(materials.own)]).toEqual([false, false]);
    expect(organic({ name: 'sodium acetate', formula: 'NaC2H3O2' })).toBe(true);
    // As sure to burn as its formula is like a carbonate's: methyl nitrate, sodium methyl carbonate.
    expect(organic({ name: 'an ester', formula: 'CH3NO3' })).toBe(true);
    expect(organic({ name: 'another', formula: 'NaC2H3O3' })).toBe(true);
  });
});

test('hydrogen carbonate to pH 7.5: the gas is all that its acid frees on the way there, not to pH 7', () => {
  // Phosphoric acid gives 3 − (2 × 0.339 + 0.661) = 1.661 protons to pH 7.5 (1.381 to pH 7); each frees one carbon dioxide.
  const more = [
    quenchCharge('phosphoric', each(10, 'g'), { kind: 'solution', strength: { value: 85, basis: '% w/w' } }),
    quenchCharge('bicarbonate', { kind: 'to neutralise', endPH: 7.5, excessPercent: 10 }),
  ];
  const gas = quenchOf(MATERIALS, more).flatMap((one) => (one.kind === 'gas' ? one.lines : []));
  const shown = gas.find(({ code }) => code === 'stoichiometric')?.shown;
  if (!shown) throw new Error('no gas');
  expect(valueOf(shown)).toBeCloseTo((8.5 / 97.994) * 1.661 * 24.465, 2);
});

describe('a charge that is not worked out from the pot: 9.2 % acid in 109 g, with bicarbonate and lye by hand', () => {
  const acid = [charge('water', each(100, 'mL')), charge('phosphoric', each(10, 'g'))];

  test('less than is needed: what it warms or cools by is that of what goes in', () => {
    // 2 g of bicarbonate is 0.02381 mol: +18.7 kJ/mol to dissolve, some 9 to 13 kJ/mol back; 109.8 g of mostly water.
    const found = linesOf(...acid, charge('bicarbonate', each(2, 'g')));
    const dilution = valueOf(found('neutralise', 'dilution'));
    const whole = valueOf(linesOf(...acid, charge('bicarbonate', to(7)))('neutralise', 'dilution'));
    // To pH 7: 0.10205 mol of acid × 1.3814 × 84.006 g = 11.843 g.
    const ofAcid = whole - (0.10205 * 1.3814 - 2 / 84.006) * -18.7;
    expect(dilution).toBeCloseTo(ofAcid, 1);
    near(found('neutralise', 'vessel'), valueOf(found('vessel', 'decides')));
  });

  test('more than is needed: vessel and rate are those of all of it, the temperature that of as much as reacts', () => {
    const lye = (rule: ChargeRule): Operation => charge('lye', rule, solution(15, '% w/w'), { overMinutes: 30 });
    const found = linesOf(...acid, lye(each(200, 'mL')));
    near(found('neutralise', 'rate'), 200 / 30);
    near(found('neutralise', 'vessel'), valueOf(found('vessel', 'decides')));
    near(found('neutralise', 'temperature'), valueOf(linesOf(...acid, lye(to(7)))('neutralise', 'temperature')));
  });
});
