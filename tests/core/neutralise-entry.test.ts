import { describe, expect, test } from 'vitest';
import { addCharge } from '../../src/core/procedure/add-charge.ts';
import { readChargeLine } from '../../src/core/procedure/charge-line.ts';
import { ratioText, readRatio } from '../../src/core/procedure/ratio-text.ts';
import { acidityText, readAcidity } from '../../src/core/route/acidity-text.ts';
import type { PlainRule } from '../../src/core/route/route.ts';
import { routesWords } from '../../src/core/words/routes-words.ts';
import { readTakes, takesText } from '../../src/core/route/takes-text.ts';
import { chargeOf, draw, planOf, route, step } from './build.ts';
import { reference } from '../reference/tables.ts';

const one = step({
  id: '1',
  basis: 'a',
  product: 'b',
  more: [{ do: 'charge', id: 'x', stage: 'reaction', material: 'acid', rule: { kind: 'equivalents', equivalents: 1 } }],
});
const materials = {
  a: { name: 'toluene', cas: '108-88-3' },
  b: { name: 'p-xylene', cas: '106-42-3' },
  acid: { name: 'sulfuric acid', cas: '7664-93-9' },
  lye: { name: 'sodium hydroxide', cas: '1310-73-2' },
};
const rule = (endPH: number, excessPercent?: number): PlainRule => ({
  kind: 'to neutralise',
  endPH,
  ...(excessPercent ? { excessPercent } : {}),
});

describe('the ratio "to neutralise"', () => {
  test.each<[string, PlainRule]>([
    ['to neutralise, to pH 7', rule(7)],
    ['neutralize to pH 8,5', rule(8.5)],
    ['to neutralise pH 4 with 10 % excess', rule(4, 10)],
    ['To neutralise, to pH 7, 5 %', rule(7, 5)],
  ])('%s', (text, made) => {
    const read = readRatio(text, one, 'lye');
    expect(read).toEqual({ ok: true, rule: made });
    expect(readRatio(ratioText(made), one, 'lye')).toEqual({ ok: true, rule: made });
  });
  test.each(['to neutralise', 'to neutralise, to pH 14', 'to neutralise, to pH', 'neutralise until dry'])(
    '%s is refused',
    (text) => {
      const read = readRatio(text, one, 'lye');
      expect(read.ok ? '' : read.words).toContain('to neutralise, to pH 7');
    },
  );
});

describe('a line of a procedure', () => {
  test('15 % w/w sodium hydroxide to neutralise, to pH 7, over 60 min', () => {
    const line = readChargeLine('15 % w/w sodium hydroxide to neutralise, to pH 7, over 60 min, dropwise');
    expect(line).toMatchObject({
      ok: true,
      name: 'sodium hydroxide',
      overMinutes: 60,
      note: 'dropwise',
      neutralises: { rule: rule(7), form: { kind: 'solution', strength: { value: 15, basis: '% w/w' } } },
    });
    if (!line.ok) return;
    const made = addCharge(route(materials, [one]), '1', { key: 'lye' }, line, reference);
    expect(made.ok).toBe(true);
    if (!made.ok) return;
    const found = chargeOf(planOf(made.route, [draw('b', 1, 'mol')]), '1', 'lye');
    expect(found).toMatchObject({ stage: 'quench', neutralises: { endPH: 7, excessPercent: 0 }, ratio: null, overMinutes: 60 });
    expect(found.grams?.value).toBeCloseTo((2 * 39.997) / 0.15, 0);
  });
  test('a base as it is, with an excess', () => {
    expect(readChargeLine('sodium hydrogen carbonate, neutralise to pH 8 with 5 % excess')).toMatchObject({
      name: 'sodium hydrogen carbonate',
      neutralises: { rule: rule(8, 5), form: null },
    });
  });
  test('beside an amount it is a note, and of the basis it is refused', () => {
    expect(readChargeLine('sodium hydroxide 10 g, neutralise')).toMatchObject({ printed: '10 g', note: 'neutralise' });
    const line = readChargeLine('toluene to neutralise, to pH 7');
    if (line.ok) expect(addCharge(route(materials, [one]), '1', { key: 'a' }, line, reference).ok).toBe(false);
    expect(line.ok).toBe(true);
  });
  test('until pH 8, at most 1.5 ×: an until-charge, its amount the estimate', () => {
    const basis = {
      do: 'charge' as const,
      id: 'c1',
      stage: 'reaction' as const,
      material: 'a',
      rule: { kind: 'basis' as const },
      printed: '92.14 g',
    };
    const printed = { ...one, operations: one.operations.map((each) => (each.id === 'c1' ? basis : each)) };
    const line = readChargeLine('20 % w/w sodium hydroxide 110 mL, until pH 8, at most 1.5 ×, quench');
    if (!line.ok) throw new Error(line.words);
    const made = addCharge(route(materials, [printed]), '1', { key: 'lye' }, line, reference);
    if (!made.ok) throw new Error(made.problems[0]?.words);
    const charge = made.route.steps[0]?.operations.find((each) => each.id === made.operation);
    // 110 mL × 1.219 g/mL × 0.20 ÷ 39.997 g/mol = 0.670 mol, for 1 mol of toluene.
    expect(charge).toMatchObject({
      stage: 'quench',
      printed: '110 mL of 20 % w/w',
      rule: {
        kind: 'until',
        endPoint: 'pH 8',
        atMost: 1.5,
        estimate: { kind: 'equivalents', equivalents: expect.closeTo(0.67, 2) },
      },
    });
    const rule = charge?.do === 'charge' ? charge.rule : null;
    expect(rule && routesWords.rule(rule)).toMatch(/^about 0\.67\d* equiv, until pH 8; at most 1\.5 × that$/);
  });
  test('no pH is asked for', () => {
    const line = readChargeLine('sodium hydroxide to neutralise');
    expect(line.ok ? '' : line.words).toContain('pH');
  });
});

describe('acidity of a material', () => {
  test.each([
    ['acid 4.8', [4.8], 1],
    ['acid 2.16; 7.21; 12.3', [2.16, 7.21, 12.3], 3],
    ['acid 2,16; 7,21', [2.16, 7.21], 2],
    ['base 10.7', [10.7], 0],
    ['acid −3; 1.99', [-3, 1.99], 2],
    ['2.35; 9.78 with 1 proton', [2.35, 9.78], 1],
    ['neither', [], 0],
  ])('%s', (text, pKa, protons) => {
    const read = readAcidity(text);
    expect(read).toEqual({ ok: true, value: { pKa, protons } });
    expect(readAcidity(acidityText({ pKa: [...pKa], protons }))).toEqual(read);
  });
  test.each(['4.8', 'acid', 'acid x', 'base 99', '2; 3 with 5 protons', 'acid 4 with 1 proton'])('%s is refused', (text) => {
    expect(readAcidity(text).ok).toBe(false);
  });
});

test('layers are written and read among what a removal takes', () => {
  const takes = [{ what: 'aqueous layer', percent: 98 }];
  expect(readTakes(takesText(takes, route(materials, [one])), route(materials, [one]))).toEqual({ ok: true, value: takes });
});
