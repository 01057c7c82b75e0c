import { describe, expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import type { Form, StrengthBasis } from '../../src/core/matter/form.ts';
import { makeSolution } from '../../src/core/matter/make-solution.ts';
import { readPresented, readSolution } from '../../src/core/matter/read-solution.ts';
import { makeUpPaper } from '../../src/core/paper/make-up-paper.ts';
import { Paper } from '../../src/core/paper/paper.ts';
import type { Settings } from '../../src/core/plan/settings.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import laboratory from '../../resources/tables/laboratory.json' with { type: 'json' };
import { reference } from '../reference/tables.ts';

const settings = laboratory as unknown as Settings;
const solution = (value: number, basis: StrengthBasis): Form & { kind: 'solution' } => ({
  kind: 'solution',
  strength: { value, basis },
});

function paper(name: string, cas: string, from: Form, form: Form & { kind: 'solution' }, grams: number) {
  const facts = factsOf({ name, cas }, reference);
  const amount = { by: 'g', figure: entered('wanted', grams, 'g', 'test') } as const;
  const ask = { solute: facts, form, amount, source: { facts, form: from }, weaker: null, celsius: 20 };
  return makeUpPaper({
    plan: makeSolution(ask, reference),
    reference,
    settings,
    mark: '.',
    asOf: '2027-02-25',
    sources: { source: 'lot S-98 · acids 2', weaker: '' },
    purpose: '',
    planName: '',
  });
}

describe('a make-up on paper', () => {
  test('says what it gives, how warm it gets and on what that rests, and is a paper', () => {
    const made = paper('sulfuric acid', '7664-93-9', solution(98, '% w/w'), solution(70, '% w/w'), 1000);
    expect(Paper.parse(JSON.parse(JSON.stringify(made)))).toEqual(made);
    const text = JSON.stringify(made).replaceAll('\u00a0', ' ');
    expect(text).toContain('gives 1000 g, 621 mL');
    expect(text).toContain(
      'Gives off 291 kJ when made in one go; would reach 165 °C (largest value). Rests on figures from memory, a model.',
    );
    expect(made.hazards.map((one) => one.codes)).toEqual(['H314', 'H314']);
    expect(made.statements).toEqual([{ code: 'H314', words: 'Causes severe skin burns and eye damage.' }]);
  });

  // CLP Annex VI, hydrochloric acid: H314 from 25 %, H315, H319 and H335 from 10 %. 1 mol/L is 3.6 % w/w.
  test('its label has the signal word of its own statements, and below the limits neither a word nor the look of safety', () => {
    const acid = (form: Form & { kind: 'solution' }) =>
      paper('hydrogen chloride', '7647-01-0', solution(37, '% w/w'), form, 500).label;
    const weak = acid(solution(1, 'mol/L'));
    expect([weak.signal, weak.lines[0]]).toEqual([
      '',
      'no hazard statement listed here holds at this strength: read the safety sheet',
    ]);
    const middle = acid(solution(12, '% w/w'));
    expect([middle.signal, middle.lines[0]]).toEqual(['Warning', 'H315 H319 H335']);
  });

  test('what is less than the balances weigh is said before it, with how much of the solution would be enough', () => {
    // 2 g of 1 % from 98 %: 20.4 mg of acid; 2 · 0.41 · 1 mg ÷ 2 % = 41 mg is the least (USP ⟨41⟩ with that tolerance).
    const made = paper('sulfuric acid', '7664-93-9', solution(98, '% w/w'), solution(1, '% w/w'), 2);
    const said = made.lines.map((line) => line.before.map((warning) => warning.words.replaceAll('\u00a0', ' ')).join(' '));
    expect(said[0]).not.toContain('less than');
    expect(said[1]).toContain('sulfuric acid 98 % w/w: 20.4 mg is less than the analytical balance weighs');
    expect(said[1]).toMatch(/Make 4\.02 g of the solution or more/);
  });

  test('each operation once, in order, its cautions before it, its target as the balance shows it', () => {
    const made = paper('sulfuric acid', '7664-93-9', solution(98, '% w/w'), solution(70, '% w/w'), 1000);
    expect(made.lines.map((line) => [line.number, line.what, line.record])).toEqual([
      [1, 'water', 'weighing'],
      [2, 'sulfuric acid', 'weighing'],
      [3, 'Let it come to 20\u00a0°C', 'temperature'],
      [4, 'Mix well and label', 'none'],
    ]);
    expect(made.lines.map((line) => line.before.length)).toEqual([0, 2, 0, 0]);
    const [water, acid] = made.lines;
    const target = (text: string | undefined) => Number(text?.replace(/[^\d.]/g, ''));
    expect(Math.abs(target(water?.target) - 285.71)).toBeLessThanOrEqual(0.5);
    expect(Math.abs(target(acid?.target) - 714.29)).toBeLessThanOrEqual(0.5);
    // Both decide the strength: both have the range of a reagent.
    const spread = (text: string | undefined, around: number) => {
      const [low = 0, high = 0] = (text ?? '').split('–').map(Number);
      return (high - low) / (2 * around);
    };
    const tolerance = settings.tolerance.reagentPercent / 100;
    expect(spread(water?.accepted, 285.71)).toBeCloseTo(tolerance, 2);
    expect(spread(acid?.accepted, 714.29)).toBeCloseTo(tolerance, 2);
  });

  test('a heat that is not known is said so, never left out', () => {
    const made = paper('potassium hydroxide', '1310-58-3', { kind: 'neat', assayPercent: 85 }, solution(20, '% w/w'), 500);
    expect(made.heat).toMatch(/^Heat not known\. For potassium hydroxide only the heat at great dilution is known/);
    expect(made.lines[1]?.before.map((one) => one.words).join(' ')).toMatch(/gets hot when it dissolves.*not known/);
  });

  test('a solution that cannot be made has no paper', () => {
    expect(() => paper('sulfuric acid', '7664-93-9', solution(50, '% w/w'), solution(70, '% w/w'), 100)).toThrow(
      'a make-up paper needs a solution that can be made (got source too weak)',
    );
  });
});

describe('a solution as typed', () => {
  test.each([
    ['250 mL of 3 mol/L', { by: 'mL', value: 250 }, { value: 3, basis: 'mol/L' }],
    ['1 kg of 70 % w/w', { by: 'g', value: 1000 }, { value: 70, basis: '% w/w' }],
    ['0,5 mol of 2 M', { by: 'mol', value: 0.5 }, { value: 2, basis: 'mol/L' }],
    ['3 × 40 mL of 5 % w/v', { by: 'mL', value: 120 }, { value: 5, basis: '% w/v' }],
    ['1 L of 2 eq/L (2 per mol)', { by: 'mL', value: 1000 }, { value: 2, basis: 'eq/L', equivalentsPerMole: 2 }],
  ])('%s', (text, amount, strength) => expect(readSolution(text)).toEqual({ ok: true, amount, strength }));

  test.each([
    ['250 mL', 6, /a strength is expected here too/],
    ['3 mol/L', 7, /an amount is expected before the strength/],
    ['3 mol/L of 250 mL', 0, /an amount is expected here/],
    ['250 mL of 70 %', 13, /a percentage needs its basis/],
    ['250 mL of 5 g', 10, /a strength with its basis is expected here/],
    ['250 xL of 3 mol/L', 4, /not a unit known here/],
    ['250 mL of 2 eq/L', 16, /how many equivalents has a mole/],
    ['0 mL of 3 mol/L', 0, /more than 0/],
    ['250 mL of 0 mol/L', 10, /more than 0/],
    ['', 0, /a number is expected here/],
  ])('“%s” is wrong at %d', (text, at, words) => {
    const read = readSolution(text);
    expect(read).toMatchObject({ ok: false, at });
    expect(read.ok ? '' : read.words).toMatch(words);
  });

  test.each([
    ['neat', { kind: 'neat' }],
    ['assay 95 %', { kind: 'neat', assayPercent: 95 }],
    ['assay 99.5 % w/w', { kind: 'neat', assayPercent: 99.5 }],
    ['98 % w/w', { kind: 'solution', strength: { value: 98, basis: '% w/w' } }],
  ])('a bottle typed as %s', (text, form) => expect(readPresented(text, undefined)).toEqual({ ok: true, form }));

  test('an assay above 100 % and a percentage without basis are refused', () => {
    expect(readPresented('assay 120 %', undefined)).toMatchObject({ ok: false, at: 6 });
    expect(readPresented('98 %', 'ethanol')).toMatchObject({ ok: false });
  });
});
