import { describe, expect, test } from 'vitest';
import { gasLitres } from '../../src/core/bench/gas.ts';
import { grams, millilitres, moles, near, solution, value } from './amounts.ts';

// Topic e as far as quantities and gas volumes go; the neutralisation rule itself is checked with the bench numbers.
const ATM = 101.325;
const TORR = ATM / 760;

describe('gas volumes', () => {
  test.each<[string, string, () => number]>([
    ['e01', 'V(CO2)', () => gasLitres(value(grams('NaHCO3', 2.5).moles), 25)],
    ['e06', 'n(H2)', () => 1.5 * value(grams('Ga', 8.88).moles)],
    ['e06', 'V', () => gasLitres(1.5 * value(grams('Ga', 8.88).moles), 27, 723 * TORR)],
    ['e07', 'V', () => gasLitres(value(grams('CaCO3', 1e6).moles), 875 - 273.15, 0.966 * ATM)],
    ['e09', '0 C, 1 atm', () => gasLitres(1, 0, ATM)],
    ['e09', '0 C, 1 bar', () => gasLitres(1, 0, 100)],
    ['e09', '25 C, 1 atm', () => gasLitres(1)],
    ['e09', '25 C, 1 bar', () => gasLitres(1, 25, 100)],
    ['e10', 'V a', () => gasLitres(value(grams('HgO', 5.36).moles) / 2, 23, 0.975 * ATM)],
    ['e10', 'V b', () => gasLitres(value(grams('S', 1000).moles), 343, 1.21 * ATM)],
    ['e10', 'V c', () => gasLitres(value(grams('BaO2', 129.7).moles) / 2, 423 - 273.15, 127.4)],
    ['e12', 'V(CO2)', () => gasLitres(2 * value(millilitres('H2SO4', 10, solution(96, '% w/w', 1.84)).moles))],
    ['e12', 'V(CO2) with Na2CO3', () => gasLitres(value(millilitres('H2SO4', 10, solution(96, '% w/w', 1.84)).moles))],
    ['e13', 'HCl gas at most, 25 C 1 atm', () => gasLitres(1.490178040108587)],
  ])('%s %s', (id, name, found) => near(id, name, found()));
});

describe('quantities of acid and base', () => {
  test.each<[string, string, () => number]>([
    ['e01', 'V(HCl)', () => value(moles('HCl', value(grams('NaHCO3', 2.5).moles), solution(0.6, 'mol/L')).millilitres)],
    ['e03', 'c', () => value(millilitres('HCl', 36.6, solution(0.05, 'mol/L')).moles) / 2 / 0.075],
    [
      'e04',
      'V(KOH)',
      () =>
        value(
          moles('KOH', 2 * value(millilitres('H3PO4', 40, solution(0.0656, 'mol/L')).moles), solution(0.15, 'mol/L')).millilitres,
        ),
    ],
    ['e12', 'n(H2SO4)', () => value(millilitres('H2SO4', 10, solution(96, '% w/w', 1.84)).moles)],
    [
      'e12',
      'mass NaHCO3',
      () => value(moles('NaHCO3', 2 * value(millilitres('H2SO4', 10, solution(96, '% w/w', 1.84)).moles)).grams),
    ],
    [
      'e12',
      'mass Na2CO3 instead',
      () => value(moles('Na2CO3', value(millilitres('H2SO4', 10, solution(96, '% w/w', 1.84)).moles)).grams),
    ],
    ['e13', 'mass NaOH for it', () => value(moles('NaOH', 3 * 1.490178040108587).grams)],
  ])('%s %s', (id, name, found) => near(id, name, found()));
  test('a volume needs a strength that can be counted', () => {
    expect(millilitres('HCl', 1, { kind: 'unknown' }).moles.ok).toBe(false);
  });
});
