import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { buyingPaper } from '../../src/core/paper/buying-list.ts';
import type { ChosenBatch, PaperContext } from '../../src/core/paper/context.ts';
import { readingText } from '../../src/core/paper/amounts.ts';
import { fetchPaper } from '../../src/core/paper/fetch-list.ts';
import type { FetchLineEntry } from '../../src/core/paper/paper.ts';
import { sessionPapers } from '../../src/core/paper/session-papers.ts';
import { weighingPaper, weighingSheet } from '../../src/core/paper/weighing-sheet.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { bottle, chargeOf, draw, planOf, route, settings, step } from './build.ts';
import { demoContext, demoInput, demoPlan } from './demo-fixture.ts';

const every = (result: PlanResult): readonly ChosenBatch[] =>
  result.steps
    .filter((one) => one.active)
    .flatMap((one) => Array.from({ length: one.batches.count }, (_, at) => ({ step: one.id, batch: at + 1 })));

/** A charge as a sheet prints it: its target and decimals, and the most where an end point decides. */
const printedCharges = (chosen: readonly ChosenBatch[], context: PaperContext) =>
  weighingPaper(chosen, context).sheets.flatMap((sheet) =>
    sheet.stages.flatMap(({ entries }) => entries.flatMap((entry) => (entry.do === 'charge' ? [entry] : []))),
  );

const listed = (chosen: readonly ChosenBatch[], context: PaperContext): readonly FetchLineEntry[] =>
  fetchPaper(chosen, context).places.flatMap((place) => place.lines);

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('one amount reads the same on every paper', () => {
  // Cautions and bench numbers change no amount.
  const quick: PaperContext = { ...demoContext, bench: () => [], cautions: () => new Map() };
  const demoCharges = printedCharges(every(demoPlan), quick);
  const demoLines = listed(every(demoPlan), quick);
  // What the sheets print, added up, is what is fetched.
  test.each([
    ['nitric acid', 'mL'],
    ['thiamine hydrochloride', 'g'],
    ['potassium hydroxide', 'g'],
    ['1,3-diphenylacetone', 'g'],
    ['o-phenylenediamine', 'g'],
    ['benzoin', 'g'],
  ])('of the demonstration, %s: the fetch list says what its sheets take in all, in their unit', (material, unit) => {
    const charges = demoCharges.filter((one) => one.material === material);
    const decimals = Math.max(...charges.map((one) => one.decimals));
    const sum = charges.reduce((all, one) => all + (one.target ?? Number.NaN), 0);
    const line = demoLines.find((one) => one.material === material);
    expect(plain(line?.need ?? '')).toBe(`${sum.toFixed(decimals)} ${unit}`);
  });

  test('what is weighed and stands in mL on the shelf is listed by what is weighed, the volume beside it', () => {
    const line = demoLines.find((one) => one.material === 'benzaldehyde');
    const charge = demoCharges.find((one) => one.material === 'benzaldehyde');
    expect(charge?.unit).toBe('g');
    expect(plain(line?.need ?? '')).toBe(`${charge?.targetText} g`);
    expect(plain(line?.peak ?? '')).toMatch(/^or \d+\.\d mL$/);
  });

  test('what is short is said with the same digits on the day, the fetch list and the buying list', () => {
    const about = { name: 'S', date: '2027-02-25', starts: '09:00', hours: 8, batches: [] };
    const papers = sessionPapers(about, every(demoPlan), { ...quick, input: demoInput, day: (iso) => iso });
    const said = [
      ...JSON.stringify([papers, buyingPaper(quick)])
        .replaceAll('\u00a0', ' ')
        .matchAll(/short by ([\d.]+ mL)/g),
    ];
    expect(said.length).toBeGreaterThan(1);
    expect(new Set(said.map(([, amount]) => amount)).size).toBe(1);
    const bought = buyingPaper(quick).lines.find((one) => one.material === 'ethanol');
    expect(plain(bought?.short ?? '')).toBe(said[0]?.[1]);
  });
});

describe('a reading has the decimals of its device, and no more', () => {
  // A balance that shows 0.01 mg reads 0.05123 g and 0.00050 g; one that shows 0.1 mg 0.0100 g.
  test.each([
    [0.05123, 'g', 5, '51.23 mg'],
    [0.0005, 'g', 5, '0.50 mg'],
    [0.12345, 'g', 5, '0.12345 g'],
    [0.01, 'g', 4, '0.0100 g'],
    [3.05e-6, 'g', 8, '3.05 µg'],
    [39.5, 'mL', 1, '39.5 mL'],
    [32025, 'g', 0, '32.025 kg'],
    [0.01234, 'mL', 5, '12.34 µL'],
  ] as const)('%d %s with %d decimals: %s', (value, unit, decimals, text) => {
    expect(plain(readingText(value, unit, decimals, '.'))).toBe(text);
  });
});

describe('the column per gram of basis', () => {
  const one = route({ a: 'C6H12', b: 'C6H12', s: 'C6H12', t: 'C6H12' }, [
    step({ id: '1', basis: 'a', product: 'b', equivalents: { s: 0.02, t: 0.00002 } }),
  ]);
  const perGram = (grams: number): readonly (readonly string[])[] => {
    const result = planOf(one, [draw('b', grams)], [bottle('a', 1e3), bottle('s', 1e3), bottle('t', 1e3)]);
    const context: PaperContext = { ...demoContext, result, say: sentence, bench: () => [], cautions: () => new Map() };
    return printedCharges([{ step: '1', batch: 1 }], context)
      .filter((entry) => !entry.isBasis)
      .map((entry) => [`${entry.targetText} ${entry.targetUnit ?? entry.unit}`, plain(entry.perGram), entry.device]);
  };

  test('has the unit of the target beside it: net × that is what stands there', () => {
    expect(perGram(12.77)).toEqual([
      ['0.255 g', '0.0200 g/g', 'analytical balance'],
      ['255 µg', '20.0 µg/g', 'analytical balance, as the stock solution above'],
    ]);
  });

  test('is per kilogram where the basis is written in kilograms', () => {
    const plenty = [bottle('a', 1e9), bottle('s', 1e9), bottle('t', 1e9)];
    const heavy: typeof settings = {
      ...settings,
      balances: [{ name: 'floor scale', readability: 10, largest: 1e6 }, ...settings.balances],
    };
    const result = planOf(one, [draw('b', 127_700)], plenty, { ask: { batches: { 1: 1 } }, settings: heavy });
    const context: PaperContext = { ...demoContext, result, say: sentence, bench: () => [], cautions: () => new Map() };
    expect(weighingSheet('1', 1, context).basisUnit).toBe('kg');
    expect(
      printedCharges([{ step: '1', batch: 1 }], context).map((entry) => [
        `${entry.targetText} ${entry.targetUnit ?? entry.unit}`,
        plain(entry.perGram),
      ]),
    ).toEqual([
      ['127.700 kg', 'basis'],
      ['2554 g', '20.0 g/kg'],
      ['2.554 g', '0.0200 g/kg'],
    ]);
    expect(weighingSheet('1', 1, { ...context, result: planOf(one, [draw('b', 12.77)], plenty) }).basisUnit).toBeUndefined();
  });
});

describe('of any plan', () => {
  const small = fc.double({ min: -4.5, max: 1, noNaN: true }).map((power) => 10 ** power);
  const ratios = fc.array(fc.double({ min: 0.001, max: 5, noNaN: true }), { minLength: 1, maxLength: 3 });

  test('lines of one charge a batch say the batches’ targets added up, from µg to kg, for any batches chosen', () => {
    fc.assert(
      fc.property(small, ratios, fc.integer({ min: 1, max: 4 }), fc.nat(15), (moles, equivalents, batches, mask) => {
        const salts = equivalents.map((_, at) => `salt-${at}`);
        const one = route(Object.fromEntries(['a', 'b', ...salts].map((key) => [key, 'C6H12'])), [
          step({
            id: '1',
            basis: 'a',
            product: 'b',
            equivalents: Object.fromEntries(salts.map((key, at) => [key, equivalents[at] ?? 1])),
          }),
        ]);
        const stock = ['a', ...salts].map((key) => bottle(key, 1e6));
        const result = planOf(one, [draw('b', moles, 'mol')], stock, { ask: { batches: { 1: batches } } });
        const chosen = every(result).filter(({ batch }) => batch === 1 || (mask >> (batch - 1)) % 2 === 1);
        const context: PaperContext = { ...demoContext, result, say: sentence, bench: () => [], cautions: () => new Map() };
        const charges = printedCharges(chosen, context);
        for (const line of listed(chosen, context)) {
          const own = charges.filter((entry) => entry.material === line.material);
          const first = own[0];
          expect(own).toHaveLength(chosen.length);
          const stock = chargeOf(result, '1', line.material).perBatch.stock;
          if (stock) {
            // Of a stock solution, what every batch dissolves.
            expect(plain(line.need)).toBe(`${(stock.dissolve.value * own.length).toFixed(3)} g`);
          } else if (own.length === 1) {
            // Not a digit, not a unit may differ from what is weighed.
            expect(plain(line.need)).toBe(plain(`${first?.targetText} ${first?.targetUnit ?? first?.unit}`));
          } else if ((first?.decimals ?? 9) <= 4) {
            const sum = own.reduce((all, entry) => all + (entry.target ?? Number.NaN), 0);
            expect(plain(line.need)).toBe(`${sum.toFixed(first?.decimals)} g`);
          }
        }
      }),
      { numRuns: 60 },
    );
  });
});
