import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Form } from '../../src/core/matter/form.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import { Paper } from '../../src/core/paper/paper.ts';
import { sessionPapers } from '../../src/core/paper/session-papers.ts';
import { makeUpEntry } from '../../src/core/paper/make-up-entry.ts';
import { mostTarget } from '../../src/core/plan/forward/most-target.ts';
import type { MakeUp } from '../../src/core/plan/make-up-result.ts';
import type { Operation } from '../../src/core/route/route.ts';
import type { Bottle } from '../../src/core/shelf/shelf.ts';
import { reference } from '../reference/tables.ts';
import { cases } from '../cases.ts';
import { bottle, chargeOf, draw, planOf, route, settings, shelfOf, step, TODAY } from './build.ts';
import { demoContext } from './demo-fixture.ts';

// C6H6 78.114 g/mol; NaOH 39.997 g/mol (CIAAW 2021).
const percent = (value: number): Form => ({ kind: 'solution', strength: { value, basis: '% w/w' } });
// What is said of a step is tested elsewhere.
const NOTHING = { bench: () => [], cautions: () => new Map() } as const;
const LYE: Operation = {
  do: 'charge',
  id: 'lye',
  stage: 'reaction',
  material: 'lye',
  rule: { kind: 'equivalents', equivalents: 1 },
  form: percent(10),
};
const one = route(
  { a: 'C6H6', b: 'C6H6', lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2', state: 'solid' } },
  [step({ id: '1', basis: 'a', product: 'b', more: [LYE] })],
);
const lye = (id: string, left: number, form: Form): Bottle =>
  bottle('lye', left, 'g', form, { id, lot: id, place: `shelf ${id}` });
/** The first to expire of all. */
const pellets: Bottle = { ...lye('p', 20, { kind: 'neat' }), useBy: '2027-01-31' };
const planned = (bottles: readonly Bottle[], moles = 1) => planOf(one, [draw('b', moles, 'mol')], bottles);

/** Mass and what is in it balance. */
function balances(made: MakeUp, fractions: Readonly<Record<string, number>>, wanted: number): void {
  const taken = made.parts.reduce((sum, part) => sum + part.takeGrams.value, 0);
  const active = made.parts.reduce((sum, part) => sum + part.takeGrams.value * (fractions[part.from.bottle] ?? 0), 0);
  expect(Math.abs(taken + made.waterGrams.value - made.grams.value)).toBeLessThan(1e-9 * made.grams.value);
  expect(Math.abs(active - made.grams.value * wanted)).toBeLessThan(1e-9 * active);
  expect(made.waterGrams.value).toBeGreaterThan(0);
}

describe('a make-up from several stronger bottles', () => {
  test('20 g of pellets and the rest from 50 % lye: 1 mol is 39.997 g of hydroxide, 42.0 g with the excess', () => {
    const result = planned([pellets, lye('l', 100, percent(50))]);
    // 39.997 g: the lye alone holds 50 g, and one bottle suffices.
    expect(result.makeUps[0]?.parts.map((part) => part.from.bottle)).toEqual(['l']);
    const both = planned([pellets, lye('l', 60, percent(50))]);
    const [made] = both.makeUps;
    if (!made) throw new Error('no make-up');
    expect(made.parts.map((part) => part.from.bottle)).toEqual(['p', 'l']);
    expect(made.parts[0]?.takeGrams.value).toBeCloseTo(20, 9);
    expect(made.parts[1]?.takeGrams.value).toBeCloseTo((39.997 * 1.05 - 20) / 0.5, 1);
    balances(made, { p: 1, l: 0.5 }, 0.1);
    expect(both.fetch.find((line) => line.material === 'lye')).toMatchObject({ status: 'make up', short: null });
    expect(chargeOf(both, '1', 'lye').supply.kind).toBe('make up');
  });

  test('what is too little even together is short, and nothing is taken for it', () => {
    const result = planned([pellets, lye('l', 39, percent(50))]);
    expect(result.makeUps).toEqual([]);
    expect(result.fetch.find((line) => line.material === 'lye')?.status).toBe('short');
  });

  test('the cautions of every strength stand before it, the warmest temperature once', () => {
    const [made] = planned([pellets, lye('l', 60, percent(50))]).makeUps;
    const codes = made?.before.map((notice) => notice.code) ?? [];
    expect(codes).toContain('dissolves hot');
    expect(codes).toContain('base slowly into water');
    expect(codes.filter((code) => code.startsWith('solution')).length).toBeLessThanOrEqual(1);
    expect(made?.parts.every((part) => (part.hazards ?? []).includes('H314'))).toBe(true);
  });

  test('the paper weighs each bottle apart, with its place', () => {
    const result = planned([pellets, lye('l', 60, percent(50))]);
    const paper = fetchPaper([{ step: '1', batch: 1 }], { ...demoContext, result });
    expect(paper.makeUps[0]?.parts.map((part) => part.source)).toEqual([
      '',
      expect.stringContaining('p'),
      expect.stringContaining('l'),
    ]);
  });

  test('in the papers of a session it has a page of its own: each bottle apart, cautions before the first of them', () => {
    const bottles = [pellets, lye('l', 60, percent(50))];
    const result = planned(bottles);
    const input = { route: one, ask: { name: '', draws: [] }, shelf: shelfOf(one, bottles), settings, reference, asOf: TODAY };
    const batches = [{ step: '1', batch: 1 }];
    const about = { name: 'S', date: '2027-02-25', starts: '09:00', hours: 8, batches };
    const papers = sessionPapers(about, batches, { ...demoContext, ...NOTHING, result, input, day: (iso) => iso });
    expect(Paper.parse(papers)).toEqual(papers);
    const page = papers.parts.find((part) => part.kind === 'make-up');
    if (page?.kind !== 'make-up') throw new Error('no page');
    // 42.0 g of hydroxide: 20 g of pellets, the rest as 44.0 g of 50 % lye; 420 g in all, so 356 g of water.
    expect(page.lines.map((line) => [line.number, line.what, line.form, line.target])).toEqual([
      [1, 'water', '', '355.97\u00a0g'],
      [2, 'sodium hydroxide', 'neat', '20.00\u00a0g'],
      [3, 'sodium hydroxide', '50 % w/w', '43.99\u00a0g'],
      [4, 'Let it come to 20\u00a0°C', '', ''],
      [5, 'Mix well and label', '', ''],
    ]);
    // And what it is made from is on the fetch list, in the same words and amounts.
    const fetched = papers.parts.find((part) => part.kind === 'fetch list');
    const lines = fetched?.kind === 'fetch list' ? fetched.places.flatMap((place) => place.lines) : [];
    expect(lines.find((line) => line.status === 'make up M1')?.lots).toEqual([
      'made from lot p, neat: 20.00\u00a0g',
      'made from lot l · shelf l, 50 % w/w: 43.99\u00a0g',
    ]);
    expect(page.lines[1]?.before.length).toBeGreaterThan(1);
    expect(page.lines.slice(2).flatMap((line) => line.before)).toEqual([]);
    expect(page.lines.map((line) => line.source)).toEqual(['', 'lot p · shelf p', 'lot l · shelf l', '', '']);
    expect(page.heat).toContain('As if all were made of the bottle that warms it most: Gives off');
    expect(page.hazards.map((one) => one.codes)).toEqual(['H314', 'H314', 'H314']);
    expect(page.label).toMatchObject({ strength: '10 % w/w in water' });
    // Made there, once: the fetch list and the sheet only point at it.
    const others = papers.parts.flatMap((part) => {
      if (part.kind === 'fetch list') return part.makeUps;
      return part.kind === 'weighing sheet' ? part.sheets.flatMap((sheet) => sheet.makeUps) : [];
    });
    expect(others.map((made) => made.page)).toEqual([
      expect.stringContaining('on its own page'),
      expect.stringContaining('on its own page'),
    ]);
  });

  test('a part too small for the balances is said, for the part of it that a session makes', () => {
    // 20 µmol need 8.0 mg of 10 % lye, 1.6 mg of it from the 50 %.
    const result = planned([lye('l', 60, percent(50))], 2e-5);
    expect(result.makeUps[0]?.before.map((notice) => notice.code)).toContain('too little for a solution');
    const whole = planned([lye('l', 600, percent(50))]);
    expect(whole.makeUps[0]?.before.map((notice) => notice.code)).not.toContain('too little for a solution');
    const [made] = whole.makeUps;
    if (!made) throw new Error('no make-up');
    const words = (factor: number) => JSON.stringify(makeUpEntry(made, factor, '', { ...demoContext, result: whole }).before);
    expect([words(1).includes('is less than'), words(1e-4).includes('is less than')]).toEqual([false, true]);
  });

  test('any bottles: mass and hydroxide balance, none is overdrawn, one alone where one suffices, made just when it can be', () => {
    const any = fc.array(fc.record({ strength: fc.integer({ min: 11, max: 100 }), left: fc.integer({ min: 1, max: 60 }) }), {
      minLength: 1,
      maxLength: 5,
    });
    fc.assert(
      fc.property(any, (shape) => {
        const bottles = shape.map(({ strength, left }, i) => lye(`b${i}`, left, percent(strength)));
        const [made] = planned(bottles).makeUps;
        const held = shape.map(({ strength, left }) => (strength * left) / 100);
        const need = 39.99676928;
        const sum = held.reduce((total, one) => total + one, 0);
        expect(made !== undefined).toBe(sum >= need);
        if (!made) return;
        balances(made, Object.fromEntries(shape.map(({ strength }, i) => [`b${i}`, strength / 100])), 0.1);
        made.parts.forEach(({ from }) =>
          expect(from.amount).toBeLessThanOrEqual((bottles.find((b) => b.id === from.bottle)?.left ?? 0) + 1e-9),
        );
        if (held.some((one) => one >= need)) expect(made.parts).toHaveLength(1);
        expect(made.grams.value).toBeGreaterThanOrEqual((need / 0.1) * (1 - 1e-9));
        expect(made.excessPercent).toBeLessThanOrEqual(5);
      }),
      { numRuns: cases(1000) },
    );
  });

  test('the most that stock allows counts the same bottles, and the plan of that much is covered', () => {
    const bottles = [pellets, lye('l', 60, percent(50)), lye('m', 30, percent(30))];
    const input = {
      route: one,
      ask: { name: 'a plan', draws: [draw('b', 1)] },
      shelf: shelfOf(one, bottles),
      settings,
      reference,
      asOf: TODAY,
    };
    const most = mostTarget(input, 'draw-b', new Set(['lye']));
    if (most.kind !== 'most') throw new Error(most.kind);
    // 20 + 30 + 9 g of hydroxide.
    expect(most.moles).toBeCloseTo(59 / 39.99676928, 6);
    const status = (factor: number) =>
      planned(bottles, most.moles * factor).fetch.find((line) => line.material === 'lye')?.status;
    expect([status(1), status(1 + 1e-6)]).toEqual(['make up', 'short']);
    expect(planned(bottles, most.moles).makeUps[0]?.parts).toHaveLength(3);
  });
});
