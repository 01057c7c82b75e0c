import { describe, expect, test } from 'vitest';
import { grams, millilitres, moles, near, normality, on, solution, value } from './amounts.ts';

// Topic d: concentrations. Dilution and mixing stand in d-dilution.test.ts. Sources: cases.json.
describe('strengths', () => {
  test.each<[string, string, () => number]>([
    ['d01', 'c', () => 0.133 / (value(moles('NaCl', 0.133, solution(0.133 / 0.355, 'mol/L')).millilitres) / 1000)],
    ['d03', 'mass', () => value(moles('NaCl', value(millilitres('NaCl', 250, solution(5.3, 'mol/L')).moles)).grams)],
    ['d07', 'mass HCl in 0.500 L', () => value(millilitres('HCl', 500, solution(37.2, '% w/w', 1.19)).grams) * 0.372],
    [
      'd07',
      'volume holding 125 g HCl',
      () => value(moles('HCl', value(grams('HCl', 125).moles), solution(37.2, '% w/w', 1.19)).millilitres),
    ],
    ['d12', 'c', () => on('mol/L', 'C6H12O6', solution(5, '% w/w', 1.029))],
    ['d13', 'molality', () => on('mol/kg', 'C6H12O6', solution(0.556, 'mol/L', 1.04))],
    ['d15', 'molality', () => on('mol/kg', 'C2H6O2', solution((100 * 2220) / 4220, '% w/w'))],
    ['d16', 'c(Na2SO4)', () => value(grams('Na2SO4·10H2O', 10_500).moles) / 18.6],
    ['d18', 'rho', () => on('g/L', 'C6H12O6', solution(5.3 / 1000, 'mol/L', 1)) * 100],
    ['d19', 'c', () => on('mol/L', 'HCl', solution(37.2, '% w/w', 1.18))],
    ['d21', 'c', () => on('mol/L', 'HNO3', solution(69.6, '% w/w', 1.41))],
    ['d22', 'c', () => on('mol/L', 'H3PO4', solution(85.5, '% w/w', 1.71))],
    ['d24', 'c', () => on('mol/L', 'NaOH', solution(50.5, '% w/w', 1.53))],
    ['d25', 'c', () => on('mol/L', 'KOH', solution(45, '% w/w', 1.45))],
    ['d33', 'c', () => on('mol/L', 'NaCl', solution(10, '% w/w', 1.0707))],
    ['d33', 'molality', () => on('mol/kg', 'NaCl', solution(10, '% w/w', 1.0707))],
    ['d34', 'c', () => on('mol/L', 'H2SO4', solution(10, '% w/w', 1.0661))],
    ['d34', 'molality', () => on('mol/kg', 'H2SO4', solution(10, '% w/w', 1.0661))],
  ])('%s %s', (id, name, found) => near(id, name, found()));

  test.each<[string, string, number, number]>([
    ['d19', 'HCl', 37.2, 1.18],
    ['d21', 'HNO3', 69.6, 1.41],
    ['d22', 'H3PO4', 85.5, 1.71],
    ['d24', 'NaOH', 50.5, 1.53],
    ['d25', 'KOH', 45, 1.45],
  ])('%s: volume for a litre of 1 mol/L', (id, formula, percent, density) => {
    near(id, 'V for 1 L of 1 M', value(moles(formula, 1, solution(percent, '% w/w', density)).millilitres));
  });

  test.each<[string, number, number]>([
    ['CH3COOH', 99.5, 1.05],
    ['NH3', 28, 0.9],
    ['HCl', 36, 1.18],
    ['HNO3', 71, 1.42],
    ['HClO4', 70, 1.67],
    ['H3PO4', 85, 1.7],
    ['NaOH', 50, 1.53],
    ['H2SO4', 96, 1.84],
  ])('d27: %s %d %% w/w at %d g/mL', (formula, percent, density) =>
    near('d27', formula, on('mol/L', formula, solution(percent, '% w/w', density))),
  );

  test('d09: moles of ethanol in a bottle of 12 % v/v, through the density of the pure liquid', () => {
    near(
      'd09',
      'n',
      value(millilitres('C2H6O', 750 * 0.12, { kind: 'neat', density: { gramsPerMillilitre: 0.789, celsius: 20 } }).moles),
    );
  });

  test('d28: equivalents per litre, and back', () => {
    near('d28', 'N(H3PO4)', normality('H3PO4', solution(14.8, 'mol/L', 1.7), 3));
    near('d28', 'N(H2SO4)', normality('H2SO4', solution(18, 'mol/L', 1.84), 2));
    const oneNormal = (formula: string, form: ReturnType<typeof solution>, per: number): number =>
      1000 / normality(formula, form, per);
    near('d28', 'mL for 1 L of 1 N H3PO4', oneNormal('H3PO4', solution(14.8, 'mol/L', 1.7), 3));
    near('d28', 'mL for 1 L of 1 N H2SO4', oneNormal('H2SO4', solution(18, 'mol/L', 1.84), 2));
    const stated = { kind: 'solution' as const, strength: { value: 36, basis: 'eq/L' as const, equivalentsPerMole: 2 } };
    expect(value(millilitres('H2SO4', 1000, stated).moles)).toBeCloseTo(18, 12);
  });
});
