import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { factsOf } from '../../src/core/matter/facts.ts';
import { withPrint, withRatio, withYield } from '../../src/core/procedure/edit-print.ts';
import { agreementOf, exactly, printedNumber } from '../../src/core/procedure/printed-number.ts';
import { publishedStep } from '../../src/core/procedure/published.ts';
import { ratioNumber, ratioText, readRatio } from '../../src/core/procedure/ratio-text.ts';
import { readPrinted } from '../../src/core/procedure/read-printed.ts';
import { readPrintedProduct, readPrintedYield } from '../../src/core/procedure/read-product.ts';
import { chargesOf, plain } from '../../src/core/procedure/step-charges.ts';
import type { ChargeRule, PlainRule, Step } from '../../src/core/route/route.ts';
import { reference } from '../reference/tables.ts';
import { STEP_FIELDS } from '../../src/core/route/step-fields.ts';
import { routesWords } from '../../src/core/words/routes-words.ts';
import { sentence } from '../../src/core/words/sentences.ts';
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
    // 10 mmol for 6 is a misprint, whatever its zero stands for.
    ['differs', 10, 2, 5.994],
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

test.each([
  ['0.12 g (0.64 mmol, 64 %)', 0.12, 0.12, 64],
  ['86–92 g. (75–80 per cent)', 86, 92, 77.5],
  ['31 g (92 % yield)', 31, 31, 92],
  ['0.85 g, 67% of theory', 0.85, 0.85, 67],
  ['35 g of white crystals', 35, 35, undefined],
  ['crude 125 g', 125, 125, undefined],
  ['1.2 g, mp 120–122 °C', 1.2, 1.2, undefined],
  ['0.85 g (67%) as a white solid', 0.85, 0.85, 67],
  ['The yield is 86–92 g. (75–80 per cent of the theoretical amount)', 86, 92, 77.5],
  ['a colorless oil (1.23 g, 92%)', 1.23, 1.23, 92],
  // How pure it is is no yield.
  ['1.23 g, 4.56 mmol (91 % yield, 98 % ee)', 1.23, 1.23, 91],
  ['34.5 kg (91 % yield, 99.2 area%)', 34_500, 34_500, 91],
  ['1.23 g (92 % theory)', 1.23, 1.23, 92],
])('a product as it is printed: %s', (text, least, most, percent) => {
  const read = readPrintedProduct(text);
  if (!read.ok) throw new Error(read.words);
  expect([read.grams?.least, read.grams?.most, read.percent?.value]).toEqual([least, most, percent]);
});

test.each([
  ['1.23 g (92%, 2 steps)', 11],
  ['1.23 g (4.56 mmol, 92% over two steps)', 23],
])('the yield of several steps is not that of this one: %s', (text, at) => {
  expect(readPrintedProduct(text)).toMatchObject({ ok: false, at, words: expect.stringContaining('several steps') });
});

test.each([
  ['about 80 per cent of theory', 80],
  ['yield 94 %', 94],
  ['94% yield', 94],
  ['~90 %', 90],
])('a yield as it is printed: %s', (text, percent) => {
  expect(readPrintedYield(text)).toMatchObject({ ok: true, percent: { value: percent } });
});

test('an assay beside a product is no yield, and a yield over 100 % is refused in the product too', () => {
  expect(readPrintedProduct('12 g of 98 % w/w')).toMatchObject({ ok: true, percent: null });
  expect(readPrintedProduct('12 g (104 %)')).toMatchObject({ ok: false });
});

test('5 mL/mmol is 5000 mL/mol', () => {
  expect(readPrinted('5 mL/mmol')).toMatchObject({ ok: true, millilitresPerMole: { value: 5000 } });
});

describe('the expected yield and the product as printed: 13.0 g of 17.71 g are 73.42 %', () => {
  const range = { lowest: 65, likeliest: 72, highest: 80 };
  const sayings = (one: Step): readonly string[] =>
    publishedStep(one, known)
      .notices.filter(({ code }) => code.startsWith('printed yield'))
      .map(sentence);

  test('follows it and says where it is from; retyped by hand, it no longer says so', () => {
    const followed = withYield(made({}), { product: '13.0 g' }, known);
    expect(followed).toMatchObject({ yieldPercent: expect.closeTo(73.42, 1), yieldSource: 'as published' });
    expect(sayings(followed)).toEqual([]);
    const written = STEP_FIELDS.find(({ name }) => name === 'yield')?.write(followed, '70', { route: {} as never });
    if (!written?.ok) throw new Error('70 is a yield');
    expect(written.value.yieldSource).toBeUndefined();
    expect(sayings(written.value)).toEqual(['The print comes to a yield of 73.42 %; the expected yield stays as entered, 70 %.']);
  });

  test('a range that was typed by hand is kept, and the difference told', () => {
    const kept = withYield({ ...made({}), yieldPercent: range }, { product: '13.0 g' }, known);
    expect(kept.yieldPercent).toEqual(range);
    expect(sayings(kept)).toEqual([
      'The print comes to a yield of 73.42 %; the expected yield stays as entered, 65 / 72 / 80 %.',
    ]);
  });

  test('where the printed per cent does not agree either, the sentence says which of them counts', () => {
    const print = { product: '13.0 g', yield: '85 %' };
    expect(sayings(withYield(made({}), print, known))).toEqual([expect.stringMatching(/follows the amounts\.$/)]);
    const own = withYield({ ...made({}), yieldPercent: range }, print, known);
    expect(sayings(own)).toEqual([
      expect.stringMatching(/give 73\.42 %\. The expected yield stays as entered, 65 \/ 72 \/ 80 %\.$/),
    ]);
  });

  test('a range of the print itself follows when the print is typed anew', () => {
    const first = withYield(made({}), { product: '12–13 g' }, known);
    expect(first.yieldPercent).toMatchObject({ highest: expect.closeTo(73.42, 1) });
    expect(withYield(first, { product: '13.0 g' }, known).yieldPercent).toBeCloseTo(73.42, 1);
  });
});

test('the figures of a rule are shown with the digits they deserve', () => {
  const rule: ChargeRule = {
    kind: 'until',
    endPoint: 'pH 8',
    estimate: { kind: 'equivalents', equivalents: 13.424428850936101 },
    atMost: 1.5,
  };
  expect(routesWords.rule(rule)).toBe('about 13.42 equiv, until pH 8; at most 1.5 × that');
  expect(routesWords.rule({ kind: 'molar volume', millilitresPerMole: 12345 })).toBe('12345 mL/mol');
  expect(routesWords.rule({ kind: 'per batch', amount: 0.30000000000000004, unit: 'mL' })).toBe('0.3 mL each batch');
  expect(routesWords.yield(72.2512345)).toBe('72.25 % yield');
});
