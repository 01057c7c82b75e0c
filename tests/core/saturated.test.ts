import { describe, expect, test } from 'vitest';
import { strengthBefore } from '../../src/core/procedure/line-strength.ts';
import { materialChoices } from '../../src/core/route/choose-material.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { solutionOrder } from '../../src/core/bench/solution-order.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { makeSolution } from '../../src/core/matter/make-solution.ts';
import { readSolution } from '../../src/core/matter/read-solution.ts';
import { saturatedInWater } from '../../src/core/matter/saturated.ts';
import { makeUpPaper } from '../../src/core/paper/make-up-paper.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { bottle, chargeOf, draw, planOf, route, settings, step, stepOf } from './build.ts';
import { demoContext } from './demo-fixture.ts';

const materials = {
  a: 'C14H12O2',
  b: 'C14H10O2',
  bicarbonate: { name: 'sodium bicarbonate', cas: '144-55-8' },
  own: { name: 'a salt of my own', formula: 'C19H15NaO3', state: 'solid' as const },
  sulfate: { name: 'silver sulfate', formula: 'Ag2SO4', state: 'solid' as const },
  ether: { name: 'diethyl ether', cas: '60-29-7' },
};

function said(material: keyof typeof materials, note = 'saturated'): readonly string[] {
  const charge = {
    do: 'charge' as const,
    id: 'x',
    stage: 'quench' as const,
    material,
    rule: { kind: 'volumes' as const, millilitresPerGram: 5 },
    form: { kind: 'unknown' as const },
    note,
  };
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: [charge] })]);
  const { notices } = stepOf(planOf(one, [draw('b', 10)]), '1');
  return notices.filter(({ code }) => code.startsWith('saturated')).map(sentence);
}

describe('a saturated solution', () => {
  // CRC Handbook, aqueous solubility: 9.565 g per 100 g of water at 20 °C; × 0.9982 g/mL of water.
  test('of what the table knows: how much solid water dissolves at 20 °C', () => {
    expect(said('bicarbonate')).toEqual([
      expect.stringMatching(/At 20 °C 100 g of water dissolve 9\.5[67] g of it \(CRC Handbook.*\), 0\.0955 g per mL/),
    ]);
  });
  test('of what it does not know: not known', () => expect(said('own')).toEqual([expect.stringMatching(/is not known here/)]));
  test('nothing is said of a liquid, nor where nothing is called saturated', () => {
    expect(said('ether')).toEqual([]);
    expect(said('bicarbonate', 'cold')).toEqual([]);
  });
});

const charge = (material: keyof typeof materials, note = 'saturated') => ({
  do: 'charge' as const,
  id: 'x',
  stage: 'quench' as const,
  material,
  rule: { kind: 'volumes' as const, millilitresPerGram: 5 },
  form: { kind: 'unknown' as const },
  note,
});
/** 14.1 g of a: 70.6 mL of the solution. */
const planned = (material: keyof typeof materials, grams: number, note?: string) => {
  const one = route(materials, [step({ id: '1', basis: 'a', product: 'b', more: [charge(material, note)] })]);
  const result = planOf(one, [draw('b', 14)], [bottle('a', 100), bottle(material, grams)]);
  return { result, made: result.makeUps[0], line: result.fetch.find((line) => line.material === material) };
};

describe('a saturated solution made up from the solid on the shelf', () => {
  // By hand: 9.565 g per 100 g of water is 8.730 % w/w; 1.0627 g/mL is the model of Laliberté 2009 scaled to the table's end.
  test('of what has a density: solid and water for the volume asked for, with a surplus that stays undissolved', () => {
    const { result, made, line } = planned('bicarbonate', 100);
    expect(line).toMatchObject({ status: 'make up', short: null, formWords: '8.73 % w/w, saturated at 20 °C' });
    if (!made?.millilitres) throw new Error('no make-up');
    const asked = chargeOf(result, '1', 'bicarbonate').millilitres;
    expect(made.millilitres.value / (asked?.value ?? 0)).toBeCloseTo(1.05, 9);
    const density = made.grams.value / made.millilitres.value;
    expect(density).toBeGreaterThan(1.055);
    expect(density).toBeLessThan(1.07);
    const solid = made.parts[0]?.takeGrams.value ?? 0;
    // What dissolves is 5 % less than what goes in, and fills the water.
    expect((100 * solid) / 1.05 / made.waterGrams.value).toBeCloseTo(9.565, 3);
    expect(solid / 1.05 + made.waterGrams.value).toBeCloseTo(made.grams.value, 9);
    const told = made.before.map(sentence).join(' ');
    expect(told).toMatch(
      /100 g of water dissolve 9\.565 g of sodium (bicarbonate|hydrogen carbonate) \(CRC.*5 % more stays undissolved/,
    );
    expect(told).not.toContain('not checked');
  });

  test('counted against the bottle: too little of the solid is short, and just enough is not', () => {
    const whole = planned('bicarbonate', 100).made?.parts[0]?.takeGrams.value ?? 0;
    expect(planned('bicarbonate', whole / 1.05 + 1e-6).line?.status).toBe('make up');
    expect(planned('bicarbonate', whole / 1.05 - 0.01).line?.status).toBe('short');
  });

  test('of what has no density: by mass, with as much water as the volume, and so said', () => {
    const { result, made } = planned('sulfate', 500);
    const asked = chargeOf(result, '1', 'sulfate').millilitres;
    if (!made || !asked) throw new Error('no make-up');
    expect(made.millilitres).toBeNull();
    expect(made.waterGrams.value).toBeCloseTo(asked.value * 1.05 * 0.9982, 2);
    expect(made.before.map(sentence).join(' ')).toMatch(/made by mass: as much water as the volume/);
  });

  test('what is not known, or is another saturation, stays of unknown strength and is not made up', () => {
    for (const { made, line } of [planned('own', 100), planned('bicarbonate', 100, 'half-saturated')]) {
      expect(made).toBeUndefined();
      expect(line?.status ?? 'none').not.toBe('make up');
    }
  });

  test('on the fetch list: what is taken of the solid, and how it is made', () => {
    const { result } = planned('bicarbonate', 100);
    const paper = fetchPaper([{ step: '1', batch: 1 }], { ...demoContext, result });
    const text = JSON.stringify(paper).replaceAll('\u00a0', ' ');
    expect(text).toContain('saturated at 20 °C');
    expect(paper.makeUps[0]?.parts.map((part) => part.material)).toEqual(['water', expect.stringContaining('neat')]);
    expect(text).toMatch(/5 % more stays undissolved/);
  });
});

describe('a strength before a name, as it is typed', () => {
  test.each([
    ['5 % w/w sodium bicarbonate', 'sodium hydrogen carbonate'],
    ['5% sodium bicarbonate', 'sodium hydrogen carbonate'],
    ['2 M aqueous sodium bicarbonate', 'sodium hydrogen carbonate'],
    ['10 wt% aq. sodium bicarbonate solution', 'sodium hydrogen carbonate'],
    ['15 % w/w solution of caustic soda', 'sodium hydroxide'],
  ])('%s finds %s', (typed, name) => {
    const [first] = materialChoices(typed.slice(strengthBefore(typed).length), null, reference);
    expect(first?.name).toBe(name);
  });
  test.each(['2-butanone', '1,4-dioxane 5 mL', '4 Å molecular sieves', '5 % w/w', 'sodium bicarbonate'])(
    'none in %s',
    (typed) => {
      expect(strengthBefore(typed)).toBe('');
    },
  );
});

describe('a saturated solution made on the shelf', () => {
  const solution = (name: string, formula: string, millilitres: number, cas?: string) => {
    const solute = factsOf({ name, formula, state: 'solid', ...(cas === undefined ? {} : { cas }) }, reference);
    const saturated = saturatedInWater(solute, reference);
    if (!saturated) throw new Error(`how much ${name} dissolves is not known`);
    const amount = { by: 'mL', figure: entered('wanted', millilitres, 'mL', 'test') } as const;
    const source = { facts: solute, form: { kind: 'neat' } } as const;
    return makeSolution({ solute, form: saturated.form, amount, saturated, source, weaker: null, celsius: 20 }, reference);
  };

  // By hand: 35.89 g per 100 g of water is 26.41 % w/w; 1.2008 g/mL there; 120.08 g of solution, 31.71 g in it, 88.37 g of water.
  test('100 mL of sodium chloride: 33.3 g of solid, of which 31.7 g dissolve, in 88.4 g of water', () => {
    const made = solution('sodium chloride', 'NaCl', 100, '7647-14-5');
    const grams = (one: typeof made.grams) => (one.ok ? one.figure.value : Number.NaN);
    expect(grams(made.rest.grams)).toBeCloseTo(88.37, 1);
    expect(grams(made.source.grams)).toBeCloseTo(31.71 * 1.05, 1);
    expect(grams(made.solute)).toBeCloseTo(31.71, 1);
    const paper = makeUpPaper({
      plan: made,
      reference,
      settings,
      mark: '.',
      asOf: '2027-02-25',
      sources: { source: 'lot 1', weaker: '' },
      purpose: '',
      planName: '',
    });
    expect(paper.title).toContain('26.41 % w/w, saturated at 20 °C');
    expect(paper.label.strength).toContain('saturated at 20 °C');
    const before = paper.lines.flatMap((line) => line.before.map((one) => one.words)).join(' ');
    expect(before).toMatch(/100 g of water dissolve 35\.89 g of sodium chloride \(CRC.*5 % more stays undissolved/);
  });

  test('of what has no density by mass: its volume is not known, and more than was asked for', () => {
    const made = solution('silver sulfate', 'Ag2SO4', 100);
    expect([made.problem, made.millilitres.ok]).toEqual([null, false]);
    expect(made.rest.grams.ok && made.rest.grams.figure.value).toBeCloseTo(99.82, 1);
    expect(solutionOrder(made, reference).flatMap((one) => one.before.map(({ code }) => code))).toContain(
      'saturated: no density',
    );
  });

  test('is read as it is typed', () => {
    const amount = { by: 'mL', value: 250 };
    for (const text of ['250 mL of saturated', '250 mL of a saturated solution'])
      expect(readSolution(text)).toEqual({ ok: true, amount, strength: 'saturated' });
    expect(readSolution('250 mL of half saturated').ok).toBe(false);
  });
});
