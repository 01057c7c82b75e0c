import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  readBalances,
  readLimits,
  readMeasures,
  readVessels,
  writeBalances,
  writeLimits,
  writeMeasures,
  writeVessels,
} from '../../src/core/plan/lab-text.ts';
import { labWords } from '../../src/core/words/lab-words.ts';
import { settings } from './build.ts';

describe('the laboratory’s list as text', () => {
  test('what is written reads back as it was', () => {
    expect(readVessels(writeVessels(settings.vessels))).toEqual({ ok: true, value: settings.vessels });
    expect(readBalances(writeBalances(settings.balances))).toEqual({ ok: true, value: settings.balances });
    expect(readMeasures(writeMeasures(settings.measures))).toEqual({ ok: true, value: settings.measures });
    const { fill, tolerance, strengthMatchPercent } = settings;
    expect(readLimits(writeLimits(settings), settings)).toEqual({
      ok: true,
      value: { fill, tolerance, strengthMatchPercent },
    });
  });
  test('any list does', () => {
    const name = fc.stringMatching(/^[A-Za-z][A-Za-z0-9 ]{0,20}[a-z]$/);
    const size = fc.double({ min: 1e-4, max: 1e5, noNaN: true }).map((value) => Number(value.toPrecision(6)));
    const vessels = fc.array(fc.record({ name, nominal: size }), { minLength: 1, maxLength: 20 });
    fc.assert(
      fc.property(vessels, (list) => {
        const read = readVessels(writeVessels(list));
        expect(read.ok && read.value.map((one) => one.name)).toEqual(list.map((one) => one.name));
        if (read.ok) read.value.forEach((one, i) => expect(one.nominal / (list[i]?.nominal ?? 0)).toBeCloseTo(1, 9));
      }),
      { numRuns: 1000 },
    );
  });
  test.each<[string, string, number]>([
    ['one flask; 250 mL\nno volume', 'no volume', 1],
    ['one flask; 250 g', '250 g', 0],
    ['; 250 mL', '', 0],
    ['flask; 0 mL', '0 mL', 0],
  ])('%j is refused at its line', (text, _part, line) => {
    const read = readVessels(text);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(text.slice(0, read.at).split('\n').length - 1).toBe(line);
  });
  test('an empty list is refused', () => {
    expect(readVessels('\n \n')).toMatchObject({ ok: false, words: labWords.tooFew });
  });
  test('a balance takes its repeatability, and what is read must be less than the load', () => {
    expect(readBalances('fine; 0.1 mg; 120 g; s = 0.08 mg')).toEqual({
      ok: true,
      value: [{ name: 'fine', readability: 1e-4, largest: 120, repeatability: 8e-5 }],
    });
    expect(readBalances('odd; 10 g; 1 g').ok).toBe(false);
  });
  test('cooling is known only where it is written; a smallest fill above the largest is refused', () => {
    const cooled = readLimits(`${writeLimits(settings)}\n${labWords.names.cooling}; 200 W`, settings);
    expect(cooled.ok && cooled.value.coolingWatts).toBe(200);
    expect(readLimits(`${labWords.names.least}; 60 %`, settings)).toMatchObject({ ok: false, words: labWords.order });
    expect(readLimits('colour; 5 %', settings).ok).toBe(false);
    expect(readLimits(`${labWords.names.reagent}; 120 %`, settings)).toMatchObject({ ok: false, words: labWords.percentRange });
  });
});

test('a vessel with its cooling: all of U, surface and coolant, or none of them', () => {
  const text = 'reactor; 2 L; 150 W/(m²·K); 0.08 m²; -5 °C\n250 mL flask; 250 mL';
  const read = readVessels(text);
  if (!read.ok) throw new Error(read.words);
  const cooling = { wattsPerSquareMetreKelvin: 150, squareMetres: 0.08, coolantCelsius: -5 };
  expect(read.value).toEqual([
    { name: 'reactor', nominal: 2000, cooling },
    { name: '250 mL flask', nominal: 250 },
  ]);
  expect(readVessels(writeVessels(read.value))).toEqual(read);
  expect(readVessels('reactor; 2 L; 150 W/m2K; 0,08 m2; −5')).toMatchObject({ ok: true, value: [{ cooling }] });
  expect(readVessels('reactor; 2 L; 150')).toMatchObject({ ok: false });
  expect(readVessels('reactor; 2 L; 0; 0.08; 5')).toMatchObject({ ok: false, words: expect.stringContaining('from') });
  expect(readVessels('reactor; 2 L; U; 0.08; 5')).toMatchObject({ ok: false, words: expect.stringContaining('coolant') });
});
