import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseFormula } from '../../src/core/matter/formula.ts';
import { formatAmount } from '../../src/core/quantity/format.ts';
import { molarMass } from '../../src/core/matter/molar-mass.ts';
import { reference } from '../reference/tables.ts';

function atoms(text: string): Record<string, number> | string {
  const parsed = parseFormula(text, reference);
  return parsed.ok ? Object.fromEntries(parsed.atoms) : `${parsed.at}: ${parsed.words}`;
}

describe('formulas', () => {
  test.each([
    ['H₂O', { H: 2, O: 1 }],
    ['CuSO4·5H2O', { Cu: 1, S: 1, O: 9, H: 10 }],
    ['CuSO4*5 H2O', { Cu: 1, S: 1, O: 9, H: 10 }],
    ['K3[Fe(CN)6]', { K: 3, Fe: 1, C: 6, N: 6 }],
    ['[13C]H4', { 'C-13': 1, H: 4 }],
    ['(CD3)2SO', { C: 2, 'H-2': 6, S: 1, O: 1 }],
    ['CaSO4·0.5H2O', { Ca: 1, S: 1, O: 4.5, H: 1 }],
    [' Na Cl ', { Na: 1, Cl: 1 }],
  ])('%s', (text, expected) => {
    expect(atoms(text)).toEqual(expected);
  });

  test.each([
    ['NH4+', 1, 4],
    ['SO4^2-', -2, 0],
    ['SO4²⁻', -2, 0],
    ['SO4 2-', -2, 0],
    ['Cl-', -1, 0],
  ])('%s carries %d', (text, charge, hydrogens) => {
    const parsed = parseFormula(text, reference);
    expect(parsed.ok && parsed.charge).toBe(charge);
    expect((parsed.ok && parsed.atoms.get('H')) || 0).toBe(hydrogens);
  });

  test.each([
    ['', 0],
    ['C6H5)', 4],
    ['Ca(OH', 2],
    ['Ca(OH]2', 5],
    ['C6h6', 2],
    ['TBSCl', 0],
    ['PhOH', 0],
    ['THF', 0],
    ['NaCl2Xx', 5],
    ['C0H4', 1],
    ['H2O·', 4],
  ])('%j is refused at character %d', (text, at) => {
    expect(parseFormula(text, reference)).toMatchObject({ ok: false, at });
  });

  test('any text gives atoms or a place inside it', () => {
    fc.assert(
      fc.property(
        fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: fc.constantFrom(...'CHONaFe()[]2356·.+-'.split('')) })),
        (text) => {
          const parsed = parseFormula(text, reference);
          if (!parsed.ok) expect(parsed.at).toBeLessThanOrEqual(text.length);
        },
      ),
      { numRuns: 10_000 },
    );
  });
});

describe('uncertainty of a molar mass', () => {
  test('water: hydrogen and oxygen bounds, linear within an element, in quadrature between', () => {
    // CIAAW 2021: H [1.00784, 1.00811], O [15.99903, 15.99977].
    const mass = molarMass('H2O', reference);
    const expected = Math.hypot((2 * (1.00811 - 1.00784)) / 2, (15.99977 - 15.99903) / 2) / Math.sqrt(3);
    expect(mass.ok && mass.uncertainty).toBeCloseTo(expected, 9);
  });

  test.each([
    ['C14H10O2', '210.23', '0.0081'],
    ['NaCl', '58.44', '0.0032'],
    ['H2O', '18.015', '0.00026'],
    // Lead: [206.14, 207.94].
    ['PbO', '223.2', '0.52'],
  ])('%s is shown as %s g/mol, and its explanation says ± %s', (formula, shown, uncertainty) => {
    const mass = molarMass(formula, reference);
    if (!mass.ok) throw new Error(mass.words);
    expect(formatAmount(mass.figure)).toEqual({ text: shown, unit: 'g/mol' });
    expect(mass.figure.from).toMatchObject({ how: expect.stringContaining(`standard uncertainty ${uncertainty} g/mol`) });
  });
});
