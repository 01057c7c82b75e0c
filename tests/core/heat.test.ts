import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BenchLine, BenchSection } from '../../src/core/bench/bench-section.ts';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import { coolingPower, scaledAddition, shortestFor } from '../../src/core/heat/addition-time.ts';
import { highestOfSynthesis } from '../../src/core/heat/adiabatic.ts';
import { heatOfMoles, heatOfRise, heatPerMole } from '../../src/core/heat/calorimetry.ts';
import { criticalityClass, severityOf } from '../../src/core/heat/criticality.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { riseOf } from '../../src/core/matter/heat-capacity.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Settings } from '../../src/core/plan/settings.ts';
import { entered, type Figure, marksOf } from '../../src/core/quantity/figure.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import type { Operation, Route, Step } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { assumptionsText, lineText } from '../../src/core/words/bench-number-words.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';

const of = <U extends Figure['unit']>(value: number, unit: U): Figure<U> => entered('given', value, unit, 'the test');
const MATERIALS: Readonly<Record<string, Material>> = {
  toluene: { name: 'toluene', cas: '108-88-3' },
  acid: { name: 'nitric acid', cas: '7697-37-2' },
  acetic: { name: 'acetic acid', cas: '64-19-7' },
  nitrotoluene: { name: 'nitrotoluene', formula: 'C7H7NO2', state: 'liquid' },
  water: { name: 'water', cas: '7732-18-5' },
  gas: { name: 'nitrogen', cas: '7727-37-9' },
  ether: { name: 'diethyl ether', cas: '60-29-7' },
  sulfuric: { name: 'sulfuric acid', cas: '7664-93-9' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
};
type Heat = NonNullable<Step['heat']>;

const FEED: Operation = {
  do: 'charge',
  id: 'feed',
  stage: 'reaction',
  material: 'acid',
  form: { kind: 'neat' },
  rule: { kind: 'equivalents', equivalents: 1 },
  temperature: { from: 20, to: 30 },
  overMinutes: 60,
};
const ACETIC: Operation = {
  do: 'charge',
  id: 'acetic',
  stage: 'reaction',
  material: 'acetic',
  rule: { kind: 'mass ratio', gramsPerGram: 5 },
};

/** A nitration-like step: toluene in five times its mass of acetic acid, and one equivalent of nitric acid over an hour. */
function nitration(heat: Heat | undefined, operations: readonly Operation[] = [ACETIC, FEED], gas = false): Route {
  const built = step({ id: '1', basis: 'toluene', product: 'nitrotoluene', more: operations });
  const makes = [
    { material: 'nitrotoluene', coefficient: 1 },
    { material: 'water', coefficient: 1 },
    ...(gas ? [{ material: 'gas', coefficient: 1, gas: true }] : []),
  ];
  const uses = [
    { material: 'toluene', coefficient: 1 },
    { material: 'acid', coefficient: 1 },
  ];
  return route(MATERIALS, [{ ...built, equation: { uses, makes }, ...(heat ? { heat } : {}) }]);
}

function sections(one: Route, moles = 1, lab: Settings = settings): readonly BenchSection[] {
  const ask = { name: 'test', draws: [draw('nitrotoluene', moles, 'mol')] };
  const input = { route: one, ask, shelf: EMPTY_SHELF, settings: lab, reference, asOf: TODAY };
  return benchNumbers(input, plan(input), '1');
}
function sectionOf(kind: 'heat' | 'addition', ...made: Parameters<typeof sections>): BenchSection {
  const found = sections(...made).find((one) => one.kind === kind);
  if (!found) throw new Error(`no section ${kind}`);
  return found;
}
const lineOf = (section: BenchSection, code: string): BenchLine => {
  const found = section.lines.find((line) => line.code === code);
  if (!found) throw new Error(`no line ${code}, only ${section.lines.map((line) => line.code).join(', ')}`);
  return found;
};
const valueOf = ({ shown }: BenchLine): number => {
  if (shown.kind === 'figure') return shown.figure.value;
  if (shown.kind === 'from to') return shown.to.value;
  throw new Error(shown.kind);
};
const textOf = (section: BenchSection): string => section.lines.map((line) => lineText(section.kind, line)).join('\n');

describe('a nitration-like addition by hand', () => {
  // Toluene 92.141 g × 1.707, acetic acid 460.7 g × 2.053 (CRC), nitric acid 63.012 g, neat: a low 0.34 is assumed unless
  // the table has it; 175 kJ, the worst end of the typical values.
  const heat: Heat = { typical: 'nitration of an aromatic ring', accumulationPercent: 30 };
  const acid = reference.specificHeat.get('7697-37-2')?.value ?? 0.34;
  const capacity = 92.141 * 1.707 + 5 * 92.141 * 2.053 + 63.012 * acid;
  const rise = 175_000 / capacity;

  test('rise from → to, MTSR with 30 % held back, at its worst moment', () => {
    const section = sectionOf('heat', nitration(heat));
    const line = lineOf(section, 'rise');
    expect(line.shown.kind === 'from to' && line.shown.from.value).toBe(30);
    expect(valueOf(line)).toBeCloseTo(30 + rise, 1);
    const [before, added] = [6 * 92.141, 63.012];
    const highest = 30 + 0.3 * rise * ((before + added) / (before + 0.3 * added));
    expect(valueOf(lineOf(section, 'highest'))).toBeCloseTo(highest, 1);
    expect(textOf(section)).toContain('30.0 % held back');
    expect(textOf(section)).toContain('115 to 175 kJ per mol of nitro group');
    const reaction = lineOf(section, 'reaction').shown;
    expect(reaction.kind === 'figure' && marksOf(reaction.figure)).toContain('estimate');
  });

  test('unknown accumulation counts as all of it, and says so; so does what goes in at once', () => {
    const unknown = sectionOf('heat', nitration({ typical: 'nitration of an aromatic ring' }));
    expect(valueOf(lineOf(unknown, 'highest'))).toBeCloseTo(30 + rise, 1);
    expect(textOf(unknown)).toContain('not known and counts as all of it');
    const { overMinutes: _, ...fast } = FEED as Operation & { overMinutes: number };
    const atOnce = sectionOf('heat', nitration(heat, [ACETIC, fast]));
    expect(valueOf(lineOf(atOnce, 'highest'))).toBeCloseTo(30 + rise, 1);
    expect(textOf(atOnce)).toContain('everything in at once');
  });

  test('class only where MTT and T_D24 are known; what is missing is named', () => {
    expect(textOf(sectionOf('heat', nitration(heat)))).toMatch(/class.*not known.*MTT.*T_D24/);
    const known = { ...heat, highestCelsius: 110, dayToRunawayCelsius: 150 };
    expect(textOf(sectionOf('heat', nitration(known)))).toContain('class 1 of 5');
    const half = textOf(sectionOf('heat', nitration({ ...heat, highestCelsius: 110 })));
    expect(half).toMatch(/not known\. The temperature at which decomposition/);
  });

  test('the lowest-boiling liquid is named, and a caution once it is reached', () => {
    const inEther = [{ ...ACETIC, id: 'ether', material: 'ether' } as Operation, ACETIC, FEED];
    const line = lineOf(sectionOf('heat', nitration(heat, inEther)), 'boils');
    expect([line.level, line.values.material, Math.round(valueOf(line))]).toEqual(['caution', 'diethyl ether', 34]);
    const small = sectionOf('heat', nitration({ kilojoulesPerMole: 10 }));
    expect(lineOf(small, 'boiling').level).toBe('number');
  });

  test('a small rise is negligible only without gas', () => {
    expect(textOf(sectionOf('heat', nitration({ kilojoulesPerMole: 10 })))).toMatch(
      /Severity of a rise of 8\.\d+ K, in Stoessel’s words: negligible/,
    );
    const freed = textOf(sectionOf('heat', nitration({ kilojoulesPerMole: 10 }, [ACETIC, FEED], true)));
    expect(freed).toMatch(/: medium; gas is freed/);
  });

  test('the guessed share of the mass is printed with the value taken', () => {
    const guessed = nitration(heat);
    const unknown: Route = {
      ...guessed,
      materials: { ...guessed.materials, acetic: { name: 'a solvent', formula: 'C5H10O', state: 'liquid' } },
    };
    const text = textOf(sectionOf('heat', unknown));
    expect(text).toMatch(/for \d+ % of its mass assumed low.*a solvent 1\.6/);
  });

  test('no window: the rise stands alone, and the temperature is asked for, never assumed', () => {
    const { temperature: _, ...anywhere } = FEED as Operation & { temperature: unknown };
    const section = sectionOf('heat', nitration(heat, [ACETIC, anywhere as Operation]));
    expect(valueOf(lineOf(section, 'rise alone'))).toBeCloseTo(rise, 1);
    expect(textOf(section)).toMatch(/not known\. The procedure names no temperature/);
    expect(section.lines.some((line) => line.code === 'highest')).toBe(false);
  });
});

describe('where the heat of a reaction is from', () => {
  const each = (heat: Heat | undefined): BenchLine => lineOf(sectionOf('heat', nitration(heat)), 'reaction');

  test('nothing entered: not known, with what to enter; no rise, no class, nothing that reads as none', () => {
    const section = sectionOf('heat', nitration(undefined));
    expect(section.lines.map((line) => [line.code, line.shown.kind])).toEqual([['reaction', 'unknown']]);
    expect(textOf(section)).toMatch(/not known\. No heat of reaction is entered.*typical value/);
    expect(each({ highestCelsius: 100 }).shown.kind).toBe('unknown');
  });

  test('entered, a trial, heats of formation, typical: the first that is given, per mol of its own species', () => {
    expect(valueOf(each({ kilojoulesPerMole: 120, typical: 'sulfonation' }))).toBeCloseTo(120, 9);
    // 0.02 mol warm 100 g of 2 J/(g·K) by 12 K: 2.4 kJ.
    const trial = { moles: 0.02, grams: 100, riseKelvin: 12, joulesPerGramKelvin: 2 };
    expect(valueOf(each({ trial }))).toBeCloseTo(120, 9);
    const formation = { toluene: 12, acid: -174, nitrotoluene: 9, water: -286 };
    expect(valueOf(each({ formation }))).toBeCloseTo(-(9 - 286 - 12 + 174), 9);
    expect(valueOf(each({ typical: 'sulfonation' }))).toBeCloseTo(170, 9);
    expect(each({ formation: { toluene: 12 } }).shown).toMatchObject({ kind: 'unknown', why: { code: 'no heat of formation' } });
    expect(each({ typical: 'no such thing' }).shown).toMatchObject({ kind: 'unknown', why: { code: 'no such typical heat' } });
  });

  test('per mole of a species that comes twice: twice the heat per mole of basis', () => {
    const one = nitration({ kilojoulesPerMole: 50, per: 'acid' });
    const [only] = one.steps;
    if (!only) throw new Error('no step');
    const uses = only.equation.uses.map((term) => (term.material === 'acid' ? { ...term, coefficient: 2 } : term));
    const doubled = { ...one, steps: [{ ...only, equation: { ...only.equation, uses } }] };
    expect(valueOf(lineOf(sectionOf('heat', doubled), 'reaction'))).toBeCloseTo(100, 9);
  });

  test('heat taken up: said, without severity, and cooling does not limit the addition', () => {
    const cold = nitration({ trial: { moles: 1, grams: 1000, riseKelvin: -5, joulesPerGramKelvin: 2 } });
    const text = textOf(sectionOf('heat', cold));
    expect(text).toContain('taken up (negative)');
    expect(text).toContain('a fall of');
    expect(text).not.toContain('Severity');
    expect(textOf(sectionOf('addition', cold, 1, { ...settings, coolingWatts: 20 }))).toContain('takes heat up');
  });

  test('a route that names a species outside its equation is refused at its place', () => {
    const read = readRoute(JSON.stringify(nitration({ kilojoulesPerMole: 50, per: 'ether' })));
    expect(!read.ok && read.problems[0]).toMatchObject({ at: '/steps/0/heat/per' });
  });
});

describe('heat beside the reaction', () => {
  const charge = (id: string, material: string, percent: number | null, equivalents: number): Operation => ({
    do: 'charge',
    id,
    stage: 'quench',
    material,
    ...(percent === null ? {} : { form: { kind: 'solution', strength: { value: percent, basis: '% w/w' } } }),
    rule: { kind: 'equivalents', equivalents },
  });

  test('sulfuric acid thinned with water, by the table of heats: before its charge, one batch', () => {
    const operations = [ACETIC, FEED, charge('s', 'sulfuric', null, 1), charge('w', 'water', null, 10)];
    const line = sectionOf('heat', nitration(undefined, operations)).lines.find((one) => one.code === 'dilution');
    expect(line?.operation).toBe('w');
    // Felder and Rousseau, Table B.11: −67.03 kJ/mol in 10 mol of water; the nitric acid, neat, gives its own beside it.
    const both = line ? valueOf(line) : 0;
    const alone = nitration(undefined, [ACETIC, charge('s', 'sulfuric', null, 1), charge('w', 'water', null, 10), FEED]);
    const only = sectionOf('heat', alone).lines.find((one) => one.operation === 'w');
    expect(only && valueOf(only)).toBeCloseTo(67.03, 1);
    expect(both).toBeGreaterThan(67.03);
  });

  test('each heat is said once: where a charge neutralises, by the section of neutralisation alone', () => {
    const operations = [ACETIC, FEED, charge('s', 'sulfuric', 50, 1), charge('b', 'lye', 15, 3)];
    const heats = (materials: Route['materials']): readonly string[] =>
      sections({ ...nitration(undefined, operations), materials }, 0.5).flatMap(({ kind, lines }) =>
        lines.flatMap(({ code, operation, shown }) =>
          operation === 'b' && ['dilution', 'neutralisation', 'heat'].includes(code) && shown.kind === 'figure'
            ? [`${kind}: ${code}`]
            : [],
        ),
      );
    const neither = { name: 'nitrotoluene', formula: 'C7H7NO2', state: 'liquid' as const, acidity: { pKa: [], protons: 0 } };
    expect(heats({ ...MATERIALS, nitrotoluene: neither })).toEqual(['neutralise: heat', 'neutralise: dilution']);
    // Where the amount cannot be worked out there, what is known of the heat still stands.
    expect(heats(MATERIALS)).toEqual(['heat: dilution', 'heat: neutralisation']);
  });

  test('acid that the reaction frees meets a weak base: its heat comes with the last reactant, and the rise counts it', () => {
    const anilide: Readonly<Record<string, Material>> = {
      aniline: { name: 'aniline', cas: '62-53-3' },
      benzoyl: { name: 'benzoyl chloride', cas: '98-88-4' },
      nitrotoluene: { name: 'benzanilide', formula: 'C13H11NO', state: 'solid', acidity: { pKa: [], protons: 0 } },
      freed: { name: 'hydrogen chloride', cas: '7647-01-0' },
      base: { name: 'triethylamine', cas: '121-44-8' },
      toluene: { name: 'toluene', cas: '108-88-3' },
    };
    const more = (base: boolean): Operation[] => [
      { ...ACETIC, id: 'solvent', material: 'toluene' } as Operation,
      ...(base ? [{ ...FEED, id: 'base', material: 'base', rule: { kind: 'equivalents', equivalents: 2 } } as Operation] : []),
      { ...FEED, material: 'benzoyl' } as Operation,
    ];
    const acylation = (base: boolean): Route => {
      const built = step({ id: '1', basis: 'aniline', product: 'nitrotoluene', more: more(base) });
      const uses = ['aniline', 'benzoyl'].map((material) => ({ material, coefficient: 1 }));
      const makes = ['nitrotoluene', 'freed'].map((material) => ({ material, coefficient: 1 }));
      return route(anilide, [{ ...built, equation: { uses, makes }, heat: { kilojoulesPerMole: 130 } }]);
    };
    const section = sectionOf('heat', acylation(true));
    const line = lineOf(section, 'neutralisation');
    // 43.1 kJ/mol: heat of ionisation of triethylammonium (Goldberg et al. 2002); the aniline is used up.
    expect([line.operation, valueOf(line)]).toEqual(['feed', expect.closeTo(43.1, 1)]);
    expect(textOf(section)).toContain('dilution, hydrolysis and neutralisation counted');
    expect(sectionOf('heat', acylation(false)).lines.some((one) => one.code === 'neutralisation')).toBe(false);
  });

  test('what is charged after the last reactant takes up none of its heat', () => {
    const heat: Heat = { kilojoulesPerMole: 120 };
    const rise = (operations: readonly Operation[]): number =>
      valueOf(lineOf(sectionOf('heat', nitration(heat, operations)), 'rise'));
    const alone = rise([ACETIC, FEED]);
    const ice = { ...charge('w', 'water', null, 100), stage: 'reaction' } as Operation;
    expect(rise([ACETIC, FEED, charge('w', 'water', null, 100)])).toBeCloseTo(alone, 9);
    expect(rise([ACETIC, FEED, ice])).toBeCloseTo(alone, 9);
    // In the vessel before, it takes up most of it.
    expect(rise([ACETIC, ice, FEED])).toBeLessThan(alone - 20);
  });

  test('a strong acid whose pKa is not known makes the heat unknown; a weak one is named as not counted', () => {
    const strange: Readonly<Record<string, Material>> = {
      ...MATERIALS,
      odd: { name: 'an acid nobody knows', formula: 'C4H6O5', state: 'solid' },
    };
    const built = nitration({ kilojoulesPerMole: 10 }, [
      { ...ACETIC, id: 'odd', material: 'odd' } as Operation,
      { ...FEED, id: 'lye', material: 'lye', rule: { kind: 'equivalents', equivalents: 4 } } as Operation,
      { ...FEED, rule: { kind: 'equivalents', equivalents: 3 } } as Operation,
    ]);
    const line = lineOf(sectionOf('heat', { ...built, materials: strange }), 'neutralisation');
    // Two of the three moles of nitric acid are left and meet hydroxide.
    expect(valueOf(line)).toBeCloseTo(2 * 55.815, 0);
    expect(lineText('heat', line)).toContain('without an acid nobody knows');
  });
});

describe('addition', () => {
  const heat: Heat = { kilojoulesPerMole: 100 };
  const cooled = { ...settings, coolingWatts: 50 };

  test('100 kJ at 50 W take 33 min 20 s; doubling the cooling halves it', () => {
    const at = (watts: number): number =>
      valueOf(lineOf(sectionOf('addition', nitration(heat), 1, { ...settings, coolingWatts: watts }), 'shortest'));
    expect(at(50)).toBeCloseTo(100_000 / 50 / 60, 6);
    expect(at(100)).toBeCloseTo(at(50) / 2, 6);
  });

  test('a vessel’s own U·A·ΔT', () => {
    const cooling = { wattsPerSquareMetreKelvin: 200, squareMetres: 0.02, coolantCelsius: 5 };
    const lab = { ...settings, vessels: settings.vessels.map((one) => ({ ...one, cooling })) };
    // 200 × 0.02 × (30 − 5) = 100 W.
    expect(valueOf(lineOf(sectionOf('addition', nitration(heat), 1, lab), 'shortest by vessel'))).toBeCloseTo(1000 / 60, 6);
    const warm = { ...lab, vessels: lab.vessels.map((one) => ({ ...one, cooling: { ...cooling, coolantCelsius: 40 } })) };
    expect(textOf(sectionOf('addition', nitration(heat), 1, warm))).toContain('nothing is carried away');
  });

  test('a time shorter than a bound is a caution before its charge; no time given says the bound', () => {
    const quick = { ...FEED, overMinutes: 10 } as Operation;
    const line = lineOf(sectionOf('addition', nitration(heat, [ACETIC, quick]), 1, cooled), 'too short');
    expect([line.operation, line.level]).toEqual(['feed', 'caution']);
    const long = sectionOf('addition', nitration(heat), 1, cooled);
    expect(long.lines.some((one) => one.operation !== null)).toBe(false);
    const { overMinutes: _, ...timeless } = FEED as Operation & { overMinutes: number };
    expect(
      lineOf(sectionOf('addition', nitration(heat, [ACETIC, timeless as Operation]), 1, cooled), 'no time given').operation,
    ).toBe('feed');
  });

  test('a known addition, eight times as large: twice as long at least, said to be a lower bound', () => {
    const known = { ...FEED, knownAddition: { minutes: 30, basisGrams: 92.141 / 8 } } as Operation;
    const section = sectionOf('addition', nitration(heat, [ACETIC, known]));
    expect(valueOf(lineOf(section, 'scaled'))).toBeCloseTo(60, 2);
    expect(textOf(section)).toContain('a lower bound, not a time to aim for');
    expect(assumptionsText(section)).toContain('same U and ΔT');
  });

  test('nothing known says so; zero volume, power and difference are refused or unknown, never zero', () => {
    expect(textOf(sectionOf('addition', nitration(undefined)))).toMatch(/not known\. No heat of reaction/);
    const minutes = of(30, 'min');
    expect(scaledAddition(of(0, 'g'), { minutes, grams: of(10, 'g') })).toMatchObject({ ok: false });
    expect(scaledAddition(of(10, 'g'), { minutes, grams: of(0, 'g') })).toMatchObject({ ok: false });
    expect(() => shortestFor(of(10, 'kJ'), of(0, 'W'))).toThrow('needs a cooling power above 0');
    expect(() => heatOfRise(of(1, 'K'), of(0, 'g'), of(2, 'J/(g·K)'))).toThrow('needs a mass');
    expect(() => heatPerMole(of(1, 'kJ'), of(0, 'mol'))).toThrow('needs moles above 0');
    const vessel = { transfer: of(200, 'W/(m²·K)'), area: of(1, 'm²'), coolant: of(20, '°C') };
    expect(coolingPower(vessel, of(20, '°C'))).toMatchObject({ ok: false, why: { code: 'no cooling difference' } });
  });
});

describe('classes and words', () => {
  // Stoessel 1993: the order of process, MTSR, MTT and T_D24.
  test.each([
    [1, 60, 90, 110, 150],
    [2, 60, 90, 150, 110],
    [3, 60, 120, 110, 150],
    [4, 60, 160, 110, 150],
    [5, 60, 160, 200, 150],
    [5, 60, 180, 170, 150],
  ])('class %d', (value, process, synthesis, technical, decomposition) => {
    expect(criticalityClass({ process, synthesis, technical, decomposition })).toEqual({ ok: true, value });
  });

  test('equal temperatures take the worse order; a process above T_D24 has no class', () => {
    expect(criticalityClass({ process: 60, synthesis: 110, technical: 110, decomposition: 150 })).toMatchObject({ value: 3 });
    expect(criticalityClass({ process: 60, synthesis: 150, technical: 150, decomposition: 150 })).toMatchObject({ value: 5 });
    expect(criticalityClass({ process: 160, synthesis: 170, technical: 180, decomposition: 150 })).toMatchObject({ ok: false });
  });

  test('bounds take the worse word', () => {
    expect([49.9, 50, 200, 400].map((rise) => severityOf(rise, false))).toEqual([
      'negligible',
      'medium',
      'critical',
      'catastrophic',
    ]);
    expect(severityOf(1, true)).toBe('medium');
  });
});

describe('properties', () => {
  const positive = fc.double({ min: 0.01, max: 1000, noNaN: true });

  test('the rise does not change with the scale', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.05, max: 0.5, noNaN: true }), (moles) => {
        const at = (much: number): number =>
          valueOf(lineOf(sectionOf('heat', nitration({ kilojoulesPerMole: 120 }), much), 'rise'));
        expect(at(moles)).toBeCloseTo(at(0.1), 6);
      }),
      { numRuns: 15 },
    );
  });

  test('MTSR lies between the process and all of the heat at once, and grows with what is held back', () => {
    fc.assert(
      fc.property(positive, positive, positive, fc.double({ min: 0, max: 99, noNaN: true }), (kelvin, mass, fed, percent) => {
        const feed = { before: of(mass, 'g'), added: of(fed, 'g') };
        const [process, rise] = [of(20, '°C'), of(kelvin, 'K')];
        const at = (accumulation: number): number =>
          highestOfSynthesis({ process, rise, accumulation: of(accumulation, '%'), feed }).value;
        expect(at(percent)).toBeGreaterThanOrEqual(20);
        expect(at(percent)).toBeLessThanOrEqual(20 + kelvin + 1e-9);
        expect(at(percent + 1)).toBeGreaterThanOrEqual(at(percent) - 1e-9);
        expect(highestOfSynthesis({ process, rise, accumulation: null, feed }).value).toBeCloseTo(20 + kelvin, 9);
      }),
    );
  });

  test('the largest value over the addition is the one given: no moment of it is hotter', () => {
    fc.assert(
      fc.property(positive, positive, fc.integer({ min: 1, max: 100 }), (mass, fed, percent) => {
        const [rise, final] = [100, mass + fed];
        const given = highestOfSynthesis({
          process: of(0, '°C'),
          rise: of(rise, 'K'),
          accumulation: of(percent, '%'),
          feed: { before: of(mass, 'g'), added: of(fed, 'g') },
        }).value;
        for (let added = 0; added <= 100; added += 5) {
          const held = Math.min(percent, added) / 100;
          expect((held * rise * final) / (mass + (added / 100) * fed)).toBeLessThanOrEqual(given + 1e-9);
        }
      }),
    );
  });

  test('heat, moles and rise turn back into each other', () => {
    fc.assert(
      fc.property(positive, positive, positive, (kelvin, grams, moles) => {
        const capacity = of(2, 'J/(g·K)');
        const heat = heatOfRise(of(kelvin, 'K'), of(grams, 'g'), capacity);
        expect(riseOf(heat, of(grams, 'g'), capacity).value).toBeCloseTo(kelvin, 6);
        expect(heatOfMoles(of(moles, 'mol'), heatPerMole(heat, of(moles, 'mol'))).value).toBeCloseTo(heat.value, 6);
      }),
    );
  });
});

test('no sentence of these sections reads as leave to go on', () => {
  const every = [
    ...sections(nitration({ kilojoulesPerMole: 10, accumulationPercent: 0, highestCelsius: 110, dayToRunawayCelsius: 200 })),
    ...sections(nitration(undefined)),
  ];
  const said = every.map((section) => `${textOf(section)} ${assumptionsText(section)}`).join(' ');
  expect(said).not.toMatch(/\bsafe\b|\bsafely\b|\bOK\b|may be added|no risk|harmless/i);
});
