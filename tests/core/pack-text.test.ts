import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { needText, packFactsText, packSizeText } from '../../src/core/buy/buy-text.ts';
import { readPack } from '../../src/core/buy/pack-text.ts';
import { entered } from '../../src/core/quantity/figure.ts';
import type { Form } from '../../src/core/matter/form.ts';
import { NEAT } from '../../src/core/matter/form.ts';
import { shoppingWords } from '../../src/core/words/shopping-words.ts';

const ACID: Form = { kind: 'solution', strength: { value: 65, basis: '% w/w' } };
const value = (text: string, usual: Form = NEAT) => {
  const read = readPack(text, usual);
  if (!read.ok) throw new Error(`${read.at}: ${read.words}`);
  return read.value;
};
const wrong = (text: string) => {
  const read = readPack(text, NEAT);
  if (read.ok) throw new Error(`${text} was read`);
  return [read.at, read.words];
};

describe('a pack as it is typed', () => {
  test('amount, price, supplier, days and least number, in any order behind the first comma', () => {
    const all = { amount: 500, unit: 'g', form: NEAT, price: 24.5, supplier: 'North Ltd', leadDays: 5, minimum: 2 };
    expect(value('500 g at 24.50, North Ltd, 5 days, at least 2')).toEqual(all);
    expect(value('0.5 kg @ 24.50, at least 2, 5 days, North Ltd')).toEqual(all);
    expect(value('500 g at 24,50; 5 days; North Ltd; at least 2')).toEqual(all);
  });

  test('the form asked for unless it names its own; of an unknown form none is taken', () => {
    expect(value('2.5 L', ACID)).toEqual({ amount: 2500, unit: 'mL', form: ACID });
    expect(value('2.5 L of 68 % w/w at 12', ACID)).toMatchObject({
      form: { kind: 'solution', strength: { value: 68, basis: '% w/w' } },
      price: 12,
    });
    expect(value('1 L', { kind: 'unknown' })).toEqual({ amount: 1000, unit: 'mL' });
  });

  test('free of charge is a price, and none is none', () => {
    expect(value('5 g at 0').price).toBe(0);
    expect(value('5 g')).not.toHaveProperty('price');
  });

  test.each([
    ['', 0, shoppingWords.packText.amount],
    ['500', 3, shoppingWords.packText.amount],
    ['0 g', 0, shoppingWords.packText.amount],
    ['2 mol', 0, shoppingWords.packText.amount],
    ['500 g at free', 9, shoppingWords.packText.price],
    ['500 g, North, 9999 days', 14, shoppingWords.packText.days],
    ['500 g, at least 0', 7, shoppingWords.packText.minimum],
    ['500 g, North, South', 14, shoppingWords.packText.supplier('South')],
  ])('“%s” is wrong at character %i', (text, at, words) => {
    expect(wrong(text)).toEqual([at, words]);
  });

  test('what is written of a pack is read as the same pack', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9_999_999 }),
        fc.constantFrom('g' as const, 'mL' as const),
        fc.option(fc.integer({ min: 0, max: 1_000_000 }), { nil: undefined }),
        fc.option(fc.integer({ min: 0, max: 3650 }), { nil: undefined }),
        fc.option(fc.integer({ min: 1, max: 10_000 }), { nil: undefined }),
        (thousandths, unit, cents, leadDays, minimum) => {
          const pack = {
            amount: thousandths / 1000,
            unit,
            form: NEAT,
            supplier: 'North Ltd',
            ...(leadDays === undefined ? {} : { leadDays }),
            ...(minimum === undefined ? {} : { minimum }),
          };
          const price = cents === undefined ? '' : ` at ${(cents / 100).toFixed(2)}`;
          // As the list shows them, "in 5 days" without its "in".
          const facts = packFactsText(pack, false, '.').replace('in ', '');
          expect(value(`${packSizeText(pack, '.')}${price}, ${facts}`)).toEqual({
            ...pack,
            ...(cents === undefined ? {} : { price: cents / 100 }),
          });
        },
      ),
      { numRuns: 200 },
    );
  });
});

test('where the form has to be named, a pack that names none is asked for it', () => {
  expect(readPack('2.5 L at 12', null)).toMatchObject({ ok: false, at: 0, words: expect.stringContaining('say its strength') });
  expect(readPack('2.5 L of 68 % w/w at 12', null)).toMatchObject({ ok: true, value: { form: { kind: 'solution' }, price: 12 } });
});

describe('what is needed beside what is short', () => {
  const figure = (value: number) => entered('', value, 'mL', '', 4);
  test.each([
    // 351.7 − 250 = 101.7, as a reader subtracts it.
    [351.703, 101.703, '351.7\u00a0mL'],
    [34.2318, 34.2318, '34.2\u00a0mL'],
    [12_345.6, 120.4, '12.35\u00a0L'],
    [5.25, 0.25, '5.250\u00a0mL'],
  ])('%d needed, %d short: %s', (peak, short, said) => {
    expect(needText({ peak: figure(peak), short: figure(short) }, '.')).toBe(said);
  });
});
