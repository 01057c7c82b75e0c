import { describe, expect, test } from 'vitest';
import { readChargeLine } from '../../src/core/procedure/charge-line.ts';
import { readPrinted } from '../../src/core/procedure/read-printed.ts';
import { readPrintedProduct } from '../../src/core/procedure/read-product.ts';

describe('numbers as older and other printers set them', () => {
  test.each([
    ['½ mole of aniline', 'aniline', '0.5 mol'],
    ['1½ L of water', 'water', '1.5 L'],
    ['aniline 1/2 mol', 'aniline', '0.5 mol'],
    ['water 1 1/2 L', 'water', '1.5 L'],
    ['benzoic acid 24·4 g (1/5 mol)', 'benzoic acid', '24.4 g (0.2 mol)'],
    ['aniline 1/10 mole', 'aniline', '0.1 mol'],
    ['2·5 g of aniline', 'aniline', '2.5 g'],
    ['aniline 2·5 g (0·027 mol)', 'aniline', '2.5 g (0.027 mol)'],
    ['CuSO4·5H2O 2·5 g', 'CuSO4·5H2O', '2.5 g'],
    ['CaSO4·½H2O 14·5 g', 'CaSO4·½H2O', '14.5 g'],
    ['1 250 mL water', 'water', '1250 mL'],
    ['water (1 250 mL)', 'water', '(1250 mL)'],
    ['water 1\u2009250 mL', 'water', '1250 mL'],
    ['water 1\u202F250,5 mL', 'water', '1250,5 mL'],
    ['water 1\u00A0250\u00A0mL', 'water', '1250 mL'],
    ['wash with 3 × 1 000 mL water', 'water', '3 × 1000 mL'],
    ['5.0 × 10−3 mol of aniline', 'aniline', '0.0050 mol'],
    ['aniline (1.25×10⁻² mol)', 'aniline', '(0.0125 mol)'],
    ['aniline 2.5 x 10^3 g', 'aniline', '2500 g'],
    // So many portions of a range, no power of ten.
    ['ether 2 × 10–15 mL', 'ether', '2 × 10–15 mL'],
    ['one liter of water', 'water', '1 liter'],
    ['half a litre of water', 'water', '0.5 litre'],
    ['ten grams of benzoic acid', 'benzoic acid', '10 grams'],
    ['magnesium turnings (2.43 g, 0.100 g. atom)', 'magnesium turnings', '(2.43 g, 0.100 mol)'],
    ['aniline 0.5 mmole', 'aniline', '0.5 mmole'],
    ['aniline 9.3 g (= 0.1 mol)', 'aniline', '9.3 g (0.1 mol)'],
    ['aniline 9.31 g/0.1 mol', 'aniline', '9.31 g, 0.1 mol'],
    ['MeOH/H2O (9:1, v/v, 30 mL)', 'MeOH/H2O 9:1', '(30 mL)'],
    ['35 mL nitric acid, sp. gr. 1.42', 'nitric acid', '35 mL, d 1.42'],
    ['nitric acid sp. gr. 1.42 35 mL', 'nitric acid', '35 mL, d 1.42'],
    ['25 cc. of sulfuric acid (sp. gr. 1.84)', 'sulfuric acid', '25 mL, d 1.84'],
  ])('%s', (line, name, printed) => {
    const read = readChargeLine(line);
    expect(read.ok && [read.name, read.printed.replace(/(?<=g),(?=0)/, ', ').replace('g , ', 'g, ')]).toEqual([name, printed]);
  });

  test('what a mole weighs is kept beside the line', () => {
    expect(readChargeLine('aniline (MW 93.13, 9.31 g, 0.1 mol)')).toMatchObject({
      name: 'aniline',
      printed: '(9.31 g, 0.1 mol)',
      note: 'MW 93.13',
    });
    expect(readChargeLine('aniline (M = 93.13 g/mol; 9.31 g)')).toMatchObject({ name: 'aniline', note: 'M = 93.13 g/mol' });
  });

  test.each([
    // Not 250 mL of a material called "water 1", and not half a million grams of Celite.
    ['water 1 250 mL', 6, 'is this 1250 mL'],
    ['Celite 545 100 g', 7, 'is this 545100 g'],
    ['1,250 mL water', 1, 'decimal or thousands'],
    ['1 l. of 95 per cent ethanol', 9, 'needs its basis'],
  ])('asked: %s', (line, at, words) => {
    const read = readChargeLine(line);
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(read.at).toBe(at);
    expect(read.words).toContain(words);
  });

  test('a problem behind such a number is shown where it stands in what was typed', () => {
    const typed = 'half a litre of 95 % ethanol';
    const read = readChargeLine(typed);
    expect(!read.ok && typed.slice(read.at)).toMatch(/^\s?% ethanol|^5 % ethanol/);
  });

  test('in a print and in a product too', () => {
    expect(readPrinted('2 × 10–15 mL')).toMatchObject({ millilitres: { value: 25, least: 20, most: 30 }, portions: 2 });
    expect(readPrinted('½ mole')).toMatchObject({ moles: { value: 0.5 } });
    expect(readPrinted('2·5 g (1·2 × 10⁻² mol)')).toMatchObject({ grams: { value: 2.5 }, moles: { value: 0.012 } });
    expect(readPrintedProduct('12·6 g. (92 per cent of the theoretical amount)')).toMatchObject({
      grams: { value: 12.6 },
      percent: { value: 92 },
    });
  });
});
