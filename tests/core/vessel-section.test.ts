import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { benchNumbers } from '../../src/core/bench/bench-numbers.ts';
import type { BenchSection } from '../../src/core/bench/bench-section.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form } from '../../src/core/matter/form.ts';
import type { Material } from '../../src/core/matter/material.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { Settings } from '../../src/core/plan/settings.ts';
import type { Operation, Step } from '../../src/core/route/route.ts';
import { EMPTY_SHELF } from '../../src/core/shelf/shelf.ts';
import { assumptionsText, lineText, sectionWords } from '../../src/core/words/bench-number-words.ts';
import { reference } from '../reference/tables.ts';
import { draw, route, settings, step, TODAY } from './build.ts';

function molar(formula: string): number {
  return factsOf({ name: formula, formula }, reference).molarMass?.value ?? Number.NaN;
}
const NEITHER = { pKa: [], protons: 0 };
const materials: Readonly<Record<string, Material>> = {
  a: { name: 'a', formula: 'C14H12O2', state: 'solid', solidDensity: 1.25, acidity: NEITHER },
  b: { name: 'b', formula: 'C14H10O2', state: 'solid', acidity: NEITHER },
  water: { name: 'water', formula: 'H2O' },
  ethyl: { name: 'ethyl acetate', cas: '141-78-6' },
  dcm: { name: 'dichloromethane', cas: '75-09-2' },
  thf: { name: 'tetrahydrofuran', cas: '109-99-9' },
  odd: { name: 'an oil', formula: 'C9H12O' },
  soda: { name: 'sodium carbonate', cas: '497-19-8' },
  acetic: { name: 'acetic acid', cas: '64-19-7' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
  gas: { name: 'carbon dioxide', cas: '124-38-9' },
  nothing: { name: 'something', state: 'solid' },
};
/** That much b comes from 10 g of a. */
const TEN = 10 * (molar('C14H10O2') / molar('C14H12O2'));
const TENTH: Form = { kind: 'solution', strength: { value: 10, basis: '% w/w' } };
const charge = (id: string, material: string, millilitresPerGram: number, more: object = {}): Operation =>
  ({
    do: 'charge',
    id,
    stage: 'work-up',
    material,
    rule: { kind: 'volumes', millilitresPerGram },
    ...more,
  }) as Operation;
const separate = (id: string, takes: readonly string[] = ['aqueous layer']): Operation => ({
  do: 'removal',
  id,
  stage: 'work-up',
  how: 'separate',
  takes: takes.map((what) => ({ what, percent: 100 })),
});

function sectionOf(more: readonly Operation[], extra: Partial<Step> = {}, lab: Settings = settings, grams = TEN) {
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more, extra })]);
  const ask = { name: 'test', draws: [draw('b', grams)], batches: { 1: 1 } };
  const input = { route: one, ask, shelf: EMPTY_SHELF, settings: lab, reference, asOf: TODAY };
  const found = benchNumbers(input, plan(input), '1').find(({ kind }) => kind === 'vessel');
  if (!found) throw new Error('the step has no vessel section');
  return found;
}
const line = (section: BenchSection, code: string, at = 0) => section.lines.filter((one) => one.code === code)[at];
const value = (section: BenchSection, code: string, at = 0): number => {
  const shown = line(section, code, at)?.shown;
  return shown?.kind === 'figure' ? shown.figure.value : Number.NaN;
};
const said = (section: BenchSection, code: string): string => {
  const found = line(section, code);
  return found ? lineText('vessel', found) : '';
};

describe('fill', () => {
  const more = [
    charge('s', 'ethyl', 5, { stage: 'reaction' }),
    charge('w', 'water', 30, { stage: 'quench' }),
    charge('e', 'water', 2),
  ];

  test('every stage, with what was taken out; the highest decides and says at which charge', () => {
    const distil: Operation = {
      do: 'removal',
      id: 'd',
      stage: 'quench',
      how: 'distil',
      takes: [{ what: 'liquids', percent: 50 }],
    };
    const section = sectionOf([...more.slice(0, 2), distil, ...more.slice(2)]);
    // 10 g of solid of 1.25 g/mL, 50 mL, 300 mL; half of the liquids gone, 20 mL more.
    const volumes = section.lines.flatMap((one) =>
      one.code === 'stage' && one.shown.kind === 'figure' ? [one.shown.figure.value] : [],
    );
    expect(volumes.map((one) => Number(one.toFixed(1)))).toEqual([58, 358, 203]);
    expect(value(section, 'decides')).toBeCloseTo(358 / (2 / 3), 0);
    expect(line(section, 'decides')?.values).toMatchObject({ stage: 'quench', with: 'water' });
    expect(value(section, 'held')).toBeCloseTo(358, 0);
  });

  test('a stage that gases decides before a fuller one that is calm', () => {
    const lively = { stages: { reaction: { lively: true } } };
    const section = sectionOf(
      [charge('s', 'ethyl', 5, { stage: 'reaction' }), charge('w', 'water', 1, { stage: 'quench' })],
      lively,
    );
    expect(line(section, 'decides')?.values).toMatchObject({ stage: 'reaction' });
    expect(value(section, 'decides')).toBeCloseTo(116, 0);
  });

  test('too full is said', () => {
    const lab = { ...settings, vessels: [{ name: '100 mL flask', nominal: 100 }] };
    expect(line(sectionOf(more, {}, lab), 'stage too full')).toMatchObject({ level: 'caution', values: { stage: 'quench' } });
  });

  test('a volume that is not known is left out and said; what is held is then a lower bound', () => {
    const unknown: Operation = {
      do: 'charge',
      id: 'u',
      stage: 'reaction',
      material: 'nothing',
      rule: { kind: 'equivalents', equivalents: 1 },
    };
    const section = sectionOf([...more, unknown]);
    expect(line(section, 'left out')).toMatchObject({ level: 'caution', operation: 'u', shown: { kind: 'unknown' } });
    expect(line(section, 'held')).toBeUndefined();
    expect(said(section, 'held at least')).toContain('more than this');
  });

  test('nothing is not zero: an amount of nothing has no volume, and no vessel decides', () => {
    const section = sectionOf([], {}, settings, 1e-300);
    expect(section.lines.every((one) => one.shown.kind !== 'figure' || one.shown.figure.value > 0)).toBe(true);
  });
});

describe('margin for foam and gas', () => {
  test('gas that carbonate and acid free, though the step says nothing', () => {
    const acid = charge('h', 'acetic', 3, { stage: 'quench' });
    const soda = {
      do: 'charge',
      id: 'n',
      stage: 'quench',
      material: 'soda',
      rule: { kind: 'mass ratio', gramsPerGram: 1 },
    } as Operation;
    const section = sectionOf([charge('w', 'water', 20, { stage: 'quench' }), acid, soda]);
    const margin = section.lines.find((one) => one.code.startsWith('margin') && one.values.stage === 'quench');
    // 8 + 200 + 30 mL and 10 g of soda: filled by half.
    const shown = margin?.shown;
    expect(shown?.kind === 'figure' ? shown.figure.value : 0).toBeCloseTo(2 * (238 + 10 / 2.54), -1);
    expect(margin && lineText('vessel', margin)).toContain('carbon dioxide comes off');
  });

  test('gas of the equation: half full, and the number of batches counts it, unless the step says it is calm', () => {
    const equation = {
      uses: [{ material: 'a', coefficient: 1 }],
      makes: [
        { material: 'b', coefficient: 1 },
        { material: 'gas', coefficient: 1, gas: true },
      ],
    };
    const lab = { ...settings, vessels: [{ name: '100 mL flask', nominal: 100 }] };
    const batches = (extra: Partial<Step>): number | undefined => {
      const one = route(materials, [
        step({ id: '1', basis: 'a', product: 'b', more: [charge('s', 'ethyl', 5.2, { stage: 'reaction' })], extra }),
      ]);
      const input = {
        route: one,
        ask: { name: 't', draws: [draw('b', TEN)] },
        shelf: EMPTY_SHELF,
        settings: lab,
        reference,
        asOf: TODAY,
      };
      return plan(input).steps[0]?.batches.count;
    };
    expect(batches({})).toBe(1);
    expect(batches({ equation })).toBe(2);
    expect(batches({ equation, stages: { reaction: { lively: false } } })).toBe(1);
    const calm = sectionOf(
      [charge('s', 'ethyl', 5.2, { stage: 'reaction' })],
      { equation, stages: { reaction: { lively: false } } },
      lab,
    );
    expect(line(calm, 'margin passed')).toMatchObject({ level: 'caution', values: { counted: 'no', gases: 'carbon dioxide' } });
  });

  test('a carbonate that neutralises, or is neutralised: the batches count half', () => {
    const lab = { ...settings, vessels: [{ name: '500 mL flask', nominal: 500 }] };
    const by = (first: string, second: string): number | undefined => {
      const more: Operation[] = [
        charge('w', 'water', 26, { stage: 'quench' }),
        charge('x', first, 1, { stage: 'quench', rule: { kind: 'mass ratio', gramsPerGram: 1 } }),
        charge('n', second, 1, { stage: 'quench', rule: { kind: 'to neutralise', endPH: 7 } }),
      ];
      const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more })]);
      const input = {
        route: one,
        ask: { name: 't', draws: [draw('b', TEN)] },
        shelf: EMPTY_SHELF,
        settings: lab,
        reference,
        asOf: TODAY,
      };
      return plan(input).steps[0]?.batches.count;
    };
    // About 290 mL: more than half of the flask and less than two thirds.
    expect(by('acetic', 'soda')).toBe(2);
    expect(by('soda', 'acetic')).toBe(2);
    expect(by('acetic', 'lye')).toBe(1);
  });

  test('heat: a rise of 50 K or more; not known is said, not taken as none', () => {
    const solvent = [charge('s', 'water', 3, { stage: 'reaction' })];
    const hot = sectionOf(solvent, { heat: { kilojoulesPerMole: 200, source: 'a test' } });
    expect(hot.lines.find((one) => one.code.startsWith('margin'))?.values.kelvin).toBeGreaterThan(50);
    // The solvent comes after the last reactant and takes up nothing.
    const mild = sectionOf(solvent, { heat: { kilojoulesPerMole: 5, source: 'a test' } });
    expect(mild.lines.filter((one) => one.code.startsWith('margin'))).toEqual([]);
    expect(line(sectionOf(solvent), 'margin unknown')).toMatchObject({ shown: { kind: 'unknown' } });
  });
});

test('the heat of a quench that is not known is not taken as none either', () => {
  const acid = charge('h', 'acetic', 1, { stage: 'quench' });
  const odd = { name: 'an odd base', formula: 'C4H11N', state: 'liquid' as const, acidity: { pKa: [10], protons: 0 } };
  const more = [charge('w', 'water', 5, { stage: 'quench' }), acid, charge('n', 'odd', 2, { stage: 'quench' })];
  const one = route({ ...materials, odd }, [step({ id: '1', basis: 'a', product: 'b', more })]);
  const input = { route: one, ask: { name: 't', draws: [draw('b', TEN)] }, shelf: EMPTY_SHELF, settings, reference, asOf: TODAY };
  const lines = benchNumbers(input, plan(input), '1').find(({ kind }) => kind === 'vessel')?.lines ?? [];
  const half = lines.filter(({ code, values }) => code.startsWith('margin') && values.unsure === 'yes');
  expect(half.map(({ values }) => values.stage)).toContain('quench');
});

describe('layers after extraction', () => {
  // Densities at 20 °C, CRC Handbook: ethyl acetate 0.9003, dichloromethane 1.3266, water 0.9982 g/mL.
  test.each([
    ['ethyl', 'organic layer', 0.9003, 'aqueous layer', 0.9982],
    ['dcm', 'aqueous layer', 0.9982, 'organic layer', 1.3266],
  ])('%s and water: %s above', (solvent, upper, light, lower, heavy) => {
    const section = sectionOf([charge('s', solvent, 12), charge('w', 'water', 8), separate('x')]);
    expect(line(section, 'upper')).toMatchObject({ operation: 'x', values: { layer: upper } });
    expect(line(section, 'lower')).toMatchObject({ operation: 'x', values: { layer: lower } });
    expect(Number(line(section, 'upper')?.values.density)).toBeCloseTo(light, 2);
    expect(Number(line(section, 'lower')?.values.density)).toBeCloseTo(heavy, 2);
    expect(value(section, upper === 'organic layer' ? 'upper' : 'lower')).toBeCloseTo(120, 6);
    expect(said(section, 'product stays')).toContain('organic layer');
    // 120 + 80 mL and 9.9 g of solid at 1.3 g/mL, two thirds full.
    expect(value(section, 'funnel')).toBeCloseTo(1.5 * (200 + TEN / 1.3), 1);
    expect(line(section, 'funnel')?.values.name).toBe('500 mL separating funnel');
  });

  test('which lies above is not said where a density is not known, or the solid can turn them over', () => {
    const odd = sectionOf([charge('s', 'odd', 12), charge('w', 'water', 8), separate('x')]);
    expect(said(odd, 'order')).toMatch(/not known.*density or the amount of an oil/);
    expect(line(odd, 'upper')).toBeUndefined();
    const much = sectionOf([charge('s', 'ethyl', 2), charge('w', 'water', 2), separate('x')]);
    expect(said(much, 'order')).toContain('where b dissolves');
  });

  test('what mixes with water is said to go into both', () => {
    const section = sectionOf([charge('t', 'thf', 5), charge('s', 'ethyl', 10), charge('w', 'water', 10), separate('x')]);
    expect(line(section, 'mixing')).toMatchObject({ level: 'caution', values: { materials: 'tetrahydrofuran' } });
  });

  test('carbon dioxide that acid drove out of a solution weighs on no layer; a solid is in none', () => {
    const acid = charge('h', 'acetic', 1.5, { stage: 'quench' });
    const soda = charge('q', 'soda', 8, { stage: 'quench', form: TENTH });
    /** What lies below the ethyl acetate, g. */
    const below = (quench: readonly Operation[]): number => {
      const section = sectionOf([charge('s', 'ethyl', 12), charge('w', 'water', 8), ...quench, separate('x')]);
      return value(section, 'lower') * Number(line(section, 'lower')?.values.density);
    };
    const [none, base, both] = [[], [soda], [soda, acid]].map(below) as [number, number, number];
    // 80 mL of 10 % soda is 8.823 g or 83.25 mmol; 15 mL of acetic acid, 262 mmol, drives 3.664 g of gas out of it.
    expect(base - none).toBeCloseTo(88.23, 1);
    expect(both - base).toBeCloseTo(15 * 1.0498 - 3.664, 1);
  });

  test('one liquid alone cannot be separated', () => {
    expect(said(sectionOf([charge('w', 'water', 8), separate('x')]), 'one layer')).toContain('nothing to separate');
  });

  test.each([[[]], [['aqueous layer', 'organic layer']], [['b']], [['water']]])(
    'taking %j does not say where the product is',
    (takes) => {
      const section = sectionOf([charge('s', 'ethyl', 12), charge('w', 'water', 8), separate('x', takes)]);
      expect(line(section, 'product')).toMatchObject({ level: 'caution', shown: { kind: 'unknown' } });
      expect(line(section, 'product stays')).toBeUndefined();
    },
  );

  test('no funnel large enough: in portions; a list without one says so; a funnel is never the vessel', () => {
    const more = [charge('s', 'ethyl', 12), charge('w', 'water', 8), separate('x')];
    const flask = { name: '1 L flask', nominal: 1000 };
    const small = { ...settings, vessels: [flask, { name: '100 mL separating funnel', nominal: 100 }] };
    expect(line(sectionOf(more, {}, small), 'funnel too small')?.values.portions).toBe(4);
    expect(line(sectionOf(more, {}, { ...settings, vessels: [flask] }), 'no funnel')).toMatchObject({ level: 'caution' });
    const large = {
      ...settings,
      vessels: [
        { name: '2 L separating funnel', nominal: 2000 },
        { name: '100 mL flask', nominal: 100 },
      ],
    };
    expect(line(sectionOf(more, {}, large), 'stage too full')?.values.vessel).toBe('100 mL flask');
  });

  test('volumes of both layers and what is loose are what was charged, whatever is charged', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 50, noNaN: true }),
        fc.double({ min: 0.5, max: 50, noNaN: true }),
        (organic, aqueous) => {
          const section = sectionOf([charge('s', 'ethyl', organic), charge('w', 'water', aqueous), separate('x')]);
          const layers = ['upper', 'lower', 'layer'].flatMap((code) => section.lines.filter((one) => one.code === code));
          const sum = layers.reduce((all, { shown }) => all + (shown.kind === 'figure' ? shown.figure.value : Number.NaN), 0);
          expect(layers).toHaveLength(2);
          expect(sum).toBeCloseTo(10 * (organic + aqueous), 4);
        },
      ),
      { numRuns: 50 },
    );
  });
});

test('a filter flask that holds more than the vessel is the largest volume', () => {
  const filter: Operation = {
    do: 'removal',
    id: 'f',
    stage: 'work-up',
    how: 'filter',
    takes: [{ what: 'liquids', percent: 100 }],
  };
  const section = sectionOf([charge('s', 'ethyl', 3), filter, charge('w', 'water', 35), { ...filter, id: 'f2' }]);
  expect(value(section, 'on the filter')).toBeCloseTo(350, 6);
  expect(value(section, 'filter flask')).toBeCloseTo(380, 6);
  expect(line(section, 'held')?.values.where).toBe('filter flask');
  expect(value(section, 'stage', 1)).toBeCloseTo(38, 0);
});

test('every line has words, every assumption a sentence, and none reads as leave to go on', () => {
  const filter: Operation = {
    do: 'removal',
    id: 'f',
    stage: 'work-up',
    how: 'filter',
    takes: [{ what: 'liquids', percent: 100 }],
  };
  const section = sectionOf([charge('s', 'ethyl', 12), charge('w', 'water', 8), separate('x'), filter, charge('w2', 'water', 5)]);
  const words = sectionWords('vessel');
  for (const one of section.lines) expect(Object.keys(words.lines)).toContain(one.code);
  for (const one of section.assumptions) expect(Object.keys(words.assumptions)).toContain(one);
  const all = [...section.lines.map((one) => lineText('vessel', one)), assumptionsText(section)].join(' ');
  expect(all).not.toMatch(/\b(safe|safely|ok|okay|fine|allowed|permitted|may be|can be used|no danger|harmless)\b/i);
  expect(all).not.toContain('undefined');
});
