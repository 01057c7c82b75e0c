import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import { withPrint, withRatio } from '../../src/core/procedure/edit-print.ts';
import { agreementOf, exactly, printedNumber } from '../../src/core/procedure/printed-number.ts';
import { publishedStep } from '../../src/core/procedure/published.ts';
import { ratioNumber, ratioText, readRatio } from '../../src/core/procedure/ratio-text.ts';
import { readPrinted, readPrintedYield } from '../../src/core/procedure/read-printed.ts';
import { chargesOf, plain } from '../../src/core/procedure/step-charges.ts';
import type { ChargeRule, PlainRule, Step } from '../../src/core/route/route.ts';
import { reference } from '../reference/tables.ts';
import { step } from './build.ts';

const facts = new Map(
  Object.entries({
    acid: { name: 'acid', formula: 'C7H6O2' },
    amine: { name: 'amine', formula: 'C4H11N', density: { gramsPerMillilitre: 0.71 } },
    solvent: { name: 'toluene', formula: 'C7H8', state: 'liquid' as const, density: { gramsPerMillilitre: 0.867 } },
    amide: { name: 'amide', formula: 'C11H15NO' },
  }).map(([key, material]) => [key, factsOf(material, reference)]),
);
const known = { facts, reference };

type Charged = Readonly<Record<string, { readonly material: string; readonly rule: ChargeRule }>>;

/** Acid with two amines to amide; the acid printed as 12.2 g. */
function made(charges: Charged): Step {
  const one = step({
    id: 's',
    basis: 'acid',
    product: 'amide',
    more: Object.entries(charges).map(([id, charge]) => ({ do: 'charge' as const, id, stage: 'reaction' as const, ...charge })),
    extra: {
      equation: {
        uses: [
          { material: 'acid', coefficient: 1 },
          { material: 'amine', coefficient: 2 },
        ],
        makes: [{ material: 'amide', coefficient: 1 }],
      },
    },
  });
  return withPrint(one, 'c1', '12.2 g', known);
}
const ruleOf = (one: Step, id: string): PlainRule =>
  plain(chargesOf(one).find((charge) => charge.id === id)?.rule ?? { kind: 'basis' });
const printOf = (one: Step, id: string): string | undefined => chargesOf(one).find((charge) => charge.id === id)?.printed;
const AMINE: Charged = { x: { material: 'amine', rule: { kind: 'equivalents', equivalents: 1 } } };

describe('what a printed number stands for', () => {
  test.each([
    ['agrees', 0.47, 2, 0.47114],
    ['differs', 1.34, 3, 1.36853],
    ['cut off', 16.6, 3, 16.6635],
    ['round number', 150, 3, 153],
    ['differs', 97, 2, 98.1],
  ] as const)('%s: %s printed with %s digits for %s', (how, value, digits, found) => {
    expect(agreementOf(printedNumber(value, digits), exactly(found))).toBe(how);
  });
  test('rounding any number to any digits agrees with it', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-6, max: 1e6, noNaN: true }), fc.integer({ min: 1, max: 8 }), (value, digits) => {
        const print = printedNumber(Number(value.toPrecision(digits)), digits);
        expect(agreementOf(print, exactly(value))).toBe('agrees');
      }),
      { numRuns: 2000 },
    );
  });
});

describe('a print read', () => {
  test.each([
    ['75 g (46 mL, 0.63 mol)', { grams: 75, millilitres: 46, moles: 0.63 }],
    ['3 × 40 mL', { millilitres: 120, portions: 3 }],
    ['0,10 mol', { moles: 0.1 }],
    ['2100 g of 50 % w/w, d 1.32', { grams: 2100, density: 1.32 }],
    ['about 20 mL per batch', { millilitres: 20, perBatch: true }],
  ])('%s', (text, wanted) => {
    const read = readPrinted(text) as unknown as Record<string, { value: number } | number | boolean>;
    for (const [field, value] of Object.entries(wanted)) {
      const found = read[field];
      expect(typeof found === 'object' ? found.value : found).toBeCloseTo(value as never, 12);
    }
  });
  test.each([
    ['12 x', 3],
    ['15 g, 15 g', 6],
    ['37–35 g', 0],
    ['', 0],
  ])('%s is refused at its place', (text, at) => expect(readPrinted(text)).toMatchObject({ ok: false, at }));
  test('no text makes it throw', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => void readPrinted(text)),
      { numRuns: 2000 },
    );
  });
});

describe('a ratio from a print', () => {
  test.each([
    ['14.6 g', { kind: 'equivalents', equivalents: 14.6 / 73.139 / (12.2 / 122.123) }],
    ['10 % excess', { kind: 'equivalents', equivalents: 2.2 }],
    ['5 mol %', { kind: 'equivalents', equivalents: 0.05 }],
    ['5 wt %', { kind: 'mass ratio', gramsPerGram: 0.05 }],
    ['10 volumes', { kind: 'volumes', millilitresPerGram: 10 }],
    ['20 mL each batch', { kind: 'per batch', amount: 20, unit: 'mL' }],
  ])('%s', (text, wanted) => {
    const rule = ruleOf(withPrint(made(AMINE), 'x', text, known), 'x');
    expect(rule.kind).toBe(wanted.kind);
    expect(ratioNumber(rule)).toBeCloseTo(ratioNumber(wanted as PlainRule), 4);
  });
  test('a changed print of the basis changes every printed ratio', () => {
    const one = withPrint(made(AMINE), 'x', '14.6 g', known);
    const half = withPrint(one, 'c1', '24.4 g', known);
    expect(ratioNumber(ruleOf(half, 'x'))).toBeCloseTo(ratioNumber(ruleOf(one, 'x')) / 2, 12);
  });
  test('washes in portions stay in portions', () => {
    const wash: Charged = { x: { material: 'solvent', rule: { kind: 'volumes', millilitresPerGram: 1 } } };
    const one = withPrint(made(wash), 'x', '3 × 40 mL', known);
    expect(ratioNumber(ruleOf(one, 'x'))).toBeCloseTo(120 / 12.2, 3);
    expect(chargesOf(one).find((charge) => charge.id === 'x')?.portions).toBe(3);
  });
});

const number = fc.double({ min: 0.01, max: 50, noNaN: true });
const anyRule: fc.Arbitrary<PlainRule> = fc.oneof(
  number.map((equivalents): PlainRule => ({ kind: 'equivalents', equivalents })),
  number.map((gramsPerGram): PlainRule => ({ kind: 'mass ratio', gramsPerGram })),
  number.map((millilitresPerGram): PlainRule => ({ kind: 'volumes', millilitresPerGram })),
  number.map((ratio): PlainRule => ({ kind: 'molar volume', millilitresPerMole: ratio * 1000 })),
  fc.double({ min: 0.01, max: 2, noNaN: true }).map((molesPerLitre): PlainRule => ({ kind: 'to concentration', molesPerLitre })),
  number.map((ratio): PlainRule => ({ kind: 'make up to', millilitresPerMole: 2000 + ratio * 1000 })),
  number.map((amount): PlainRule => ({ kind: 'per batch', amount, unit: 'mL' })),
);

describe('print and ratio keep each other true', () => {
  test('a ratio typed writes a print, and that print gives the ratio back', () => {
    fc.assert(
      fc.property(anyRule, (rule) => {
        const before = withPrint(made({ x: { material: 'solvent', rule } }), 'x', '1 mL', known);
        const after = withRatio({ ...before, operations: before.operations }, 'x', rule, known);
        const again = withPrint(after, 'x', printOf(after, 'x') ?? '', known);
        expect(ruleOf(again, 'x').kind).toBe(rule.kind);
        expect(ratioNumber(ruleOf(again, 'x')) / ratioNumber(rule)).toBeCloseTo(1, 4);
        expect(publishedStep(after, known).notices.map((notice) => notice.code)).not.toContain('ratio not printed');
      }),
      { numRuns: 1000 },
    );
  });
  test('a ratio as it is written is read back', () => {
    fc.assert(
      fc.property(anyRule, (rule) => {
        const read = readRatio(ratioText(rule), made({}), 'solvent');
        expect(read.ok && read.rule.kind).toBe(rule.kind);
        expect(read.ok ? ratioNumber(read.rule) / ratioNumber(rule) : 0).toBeCloseTo(1, 2);
      }),
      { numRuns: 1000 },
    );
  });
});

test('a printed yield with letters in it is refused where they stand, in words of a yield', () => {
  expect(readPrintedYield('4x %')).toMatchObject({ ok: false, at: 1, words: expect.stringContaining('percentage') });
  expect(readPrintedYield('91 to 96 %')).toMatchObject({ ok: true });
  expect(readPrintedYield('91–96 %')).toMatchObject({ ok: true });
});
