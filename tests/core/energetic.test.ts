import { describe, expect, test } from 'vitest';
import { energeticGroups } from '../../src/core/bench/energetic.ts';
import { factsOf } from '../../src/core/matter/facts.ts';
import { sentence } from '../../src/core/words/sentences.ts';
import { reference } from '../reference/tables.ts';
import { draw, planOf, route, step, stepOf } from './build.ts';

const groups = (smiles: string) =>
  energeticGroups(factsOf({ name: 'one', smiles }, reference), reference).map((group) => group.name);

describe('energetic groups by structure', () => {
  test.each([
    ['CCN=[N+]=[N-]', 'an azide'],
    ['CC[N-][N+]#N', 'an azide'],
    ['[N-]=[N+]=[N-].[Na+]', 'an azide'],
    ['CCOC(=O)C=[N+]=[N-]', 'a diazo or diazonium group'],
    ['N#[N+]c1ccccc1', 'a diazo or diazonium group'],
    ['CC(C)(C)OO', 'a peroxide or hydroperoxide'],
    ['O=C(c1ccccc1)OOC(=O)c1ccccc1', 'a peroxide or hydroperoxide'],
    ['Oc1c([N+](=O)[O-])cc(N(=O)=O)cc1[N+]([O-])=O', 'three or more nitro groups'],
    ['CCCO[N+](=O)[O-]', 'a nitrate ester'],
    ['O=C1CCC(=O)N1Br', 'a nitrogen–halogen bond'],
    ['[C-]#CC.[Na+]', 'an acetylide'],
    ['[Cu]C#Cc1ccccc1', 'an acetylide'],
    ['[Li+].[O-]Cl(=O)(=O)=O', 'perchlorate or perchloric acid'],
    ['c1nnn[nH]1', 'a tetrazole ring'],
    ['Cn1nnnc1C', 'a tetrazole ring'],
  ])('%s holds %s and nothing else', (smiles, name) => {
    expect(groups(smiles)).toEqual([name]);
  });

  test.each([
    ['one nitro group', 'O=[N+]([O-])c1ccccc1'],
    ['two nitro groups', 'O=[N+]([O-])c1cccc([N+](=O)[O-])c1'],
    ['an azo dye', 'CN(C)c1ccc(N=Nc2ccccc2)cc1'],
    ['a triazene', 'CN(C)N=Nc1ccccc1'],
    ['an inorganic nitrate', '[K+].[O-][N+](=O)[O-]'],
    ['nitric acid', 'O[N+](=O)[O-]'],
    ['a nitrite ester', 'CCCON=O'],
    ['dinitrogen', 'N#N'],
    ['nitrous oxide', '[N-]=[N+]=O'],
    ['hydrogen peroxide', 'OO'],
    ['oxygen', 'O=O'],
    ['an ether', 'CCOCC'],
    ['an acetal', 'COCOC'],
    ['an ammonium chloride', '[NH4+].[Cl-]'],
    ['a terminal alkyne', 'C#Cc1ccccc1'],
    ['a cyanide', '[C-]#N.[Na+]'],
    ['a chlorate', '[K+].[O-]Cl(=O)=O'],
    ['a triazole', 'c1c[nH]nn1'],
    ['a tetrazine', 'c1nncnn1'],
    ['no SMILES at all', 'not a structure'],
  ])('%s is none', (_name, smiles) => {
    expect(groups(smiles)).toEqual([]);
  });

  test('each says where it is from', () => {
    const [one] = energeticGroups(factsOf({ name: 'one', smiles: 'COOC' }, reference), reference);
    expect(one?.source).toContain('from memory');
  });
});

test('a caution before the charge of such a material, and where its last reactant goes in for what is formed', () => {
  const holds = { name: 'holder', formula: 'C2H5N3', smiles: 'CCN=[N+]=[N-]' };
  const one = route({ a: 'C8H8O2', b: holds, c: 'C8H8O2' }, [
    step({ id: '1', basis: 'a', product: 'b', yieldPercent: 80 }),
    step({ id: '2', basis: 'b', product: 'c', yieldPercent: 80 }),
  ]);
  const result = planOf(one, [draw('c', 10)]);
  const said = (id: string) =>
    stepOf(result, id)
      .operations.flatMap((operation) => operation.before)
      .filter((notice) => notice.code.startsWith('energetic'));
  expect(said('1').map((notice) => [notice.code, notice.at.material])).toEqual([['energetic formed', 'b']]);
  expect(said('2').map((notice) => [notice.code, notice.at.material])).toEqual([['energetic charged', 'b']]);
  for (const notice of [...said('1'), ...said('2')])
    expect(sentence(notice)).toMatch(/holder.*an azide \(Prudent Practices in the Laboratory, from memory\)/);
});
