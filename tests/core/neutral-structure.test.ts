import { describe, expect, test } from 'vitest';
import { acidityOf } from '../../src/core/matter/acidity.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { isNeutralByStructure } from '../../src/core/matter/neutral-structure.ts';
import { reference } from '../reference/tables.ts';

const neutral = (smiles: string): boolean => isNeutralByStructure(factsOf({ name: 'one', smiles }, reference), reference);

describe('neither acid nor base, by structure', () => {
  test.each([
    ['a ketone', 'CC(=O)c1ccc(C)cc1'],
    ['an ester', 'CCOC(=O)c1ccccc1'],
    ['benzil', 'O=C(c1ccccc1)C(=O)c1ccccc1'],
    ['benzoin', 'OC(c1ccccc1)C(=O)c1ccccc1'],
    ['an aldehyde', 'O=Cc1ccccc1'],
    ['a nitrile', 'N#Cc1ccccc1'],
    ['a nitroarene', 'O=[N+]([O-])c1ccc(Br)cc1'],
    ['the same, as some write it', 'O=N(=O)c1ccc(Br)cc1'],
    ['an amide', 'CC(=O)Nc1ccccc1'],
    ['a carbamate', 'CC(C)(C)OC(=O)Nc1ccccc1'],
    ['a urea', 'NC(=O)NCC'],
    ['an alcohol', 'OCC[C@@H](C)O'],
    ['a benzyl halide', 'BrCc1ccccc1'],
    ['furan', 'c1ccoc1'],
    ['DMF', 'CN(C)C=O'],
  ])('%s', (_name, smiles) => expect(neutral(smiles)).toBe(true));

  // pKa of the first ones, from any textbook: 4 to 13; the rest are bases, salts, or turn into an acid with water.
  test.each([
    ['a carboxylic acid', 'CC(=O)O'],
    ['a phenol', 'Oc1ccccc1'],
    ['a phenol, written out', 'OC1=CC=CC=C1'],
    ['a 1,3-diketone', 'CC(=O)CC(C)=O'],
    ['ethyl acetoacetate', 'CCOC(=O)CC(C)=O'],
    ['malononitrile', 'N#CCC#N'],
    ['nitromethane', 'C[N+](=O)[O-]'],
    ['an imide', 'O=C1CCC(=O)N1'],
    ['trifluoroethanol', 'OCC(F)(F)F'],
    ['chloral', 'ClC(Cl)(Cl)C=O'],
    ['a cyanohydrin', 'CC(C)(O)C#N'],
    ['a sulfonamide', 'CS(=O)(=O)Nc1ccccc1'],
    ['a thiol', 'CCS'],
    ['an oxime', 'CC(C)=NO'],
    ['an aniline', 'Nc1ccccc1'],
    ['an amine beside an amide', 'NCC(=O)NC'],
    ['pyridine', 'c1ccncc1'],
    ['an imine', 'CC=NC'],
    ['an acid chloride', 'CC(=O)Cl'],
    ['a chloroformate', 'CCOC(=O)Cl'],
    ['an anhydride', 'CC(=O)OC(C)=O'],
    ['a tertiary chloride', 'CC(C)(C)Cl'],
    ['a chloromethyl ether', 'COCCl'],
    ['an isocyanate', 'O=C=Nc1ccccc1'],
    ['a ketene', 'C=C=O'],
    ['a peroxide', 'COOC'],
    ['an acyl cyanide', 'CC(=O)C#N'],
    ['a salt', 'CC(=O)[O-].[Na+]'],
    ['a chlorosilane', 'C[Si](C)(C)Cl'],
    ['a boronic acid', 'OB(O)c1ccccc1'],
    ['a metal alkyl', '[Li]CCCC'],
    ['nothing that can be read', 'no structure'],
  ])('not %s', (_name, smiles) => expect(neutral(smiles)).toBe(false));

  test('nothing that the table has as an acid or a base counts as neither', () => {
    const wrong = reference.rows.acidity
      .filter(({ pKa }) => pKa.some((one) => one > 1 && one < 13))
      .map(({ cas, name }) => factsOf({ name, cas }, reference))
      .filter((facts) => isNeutralByStructure(facts, reference));
    expect(wrong.map(({ name }) => name)).toEqual([]);
  });

  test('what water hydrolyses by the table is never neither', () => {
    const wrong = reference.rows.hydrolysis
      .filter(({ meets }) => meets === 'water')
      .map(({ cas, name }) => factsOf({ name, cas }, reference))
      .filter((facts) => isNeutralByStructure(facts, reference));
    expect(wrong.map(({ name }) => name)).toEqual([]);
  });

  test('what a person enters counts before it', () => {
    const facts = factsOf({ name: 'one', smiles: 'CC(C)=O', acidity: { pKa: [9], protons: 1 } }, reference);
    expect(acidityOf(facts, reference)?.pKa).toHaveLength(1);
  });
});
