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
    ['Oc1c([N+](=O)[O-])cc(N(=O)=O)cc1[N+]([O-])=O', 'two or more nitro groups'],
    ['CCCO[N+](=O)[O-]', 'a nitrate ester'],
    ['O=C1CCC(=O)N1Br', 'a nitrogen–halogen bond'],
    ['[C-]#CC.[Na+]', 'an acetylide'],
    ['[Cu]C#Cc1ccccc1', 'an acetylide'],
    ['[Li+].[O-]Cl(=O)(=O)=O', 'perchlorate or perchloric acid'],
    ['NNc1ccc(cc1[N+](=O)[O-])N(=O)=O', 'two or more nitro groups'],
    ['CN[N+]([O-])=O', 'a nitro group on nitrogen'],
    ['CC(C)CCON=O', 'a nitrite ester or an N-nitroso group'],
    ['CN(N=O)S(=O)(=O)c1ccc(C)cc1', 'a nitrite ester or an N-nitroso group'],
    ['CC(C)(C#N)N=NC(C)(C)C#N', 'an azo group'],
    ['CCOC(=O)/N=N/C(=O)OCC', 'an azo group'],
    ['CN(C)N=Nc1ccccc1', 'an azo group'],
    ['On1nnc2ccccc12', 'a 1,2,3-triazole without carbon on its nitrogens'],
    ['ON1N=NC2=C1C=CC=C2', 'a 1,2,3-triazole without carbon on its nitrogens'],
    ['CC(C)(C)OCl', 'a hypohalite or a hypervalent iodine ester'],
    ['CC(=O)OI(OC(C)=O)c1ccccc1', 'a hypohalite or a hypervalent iodine ester'],
    ['OC(=O)c1ccccc1I(=O)=O', 'a halogen with several oxygens'],
    ['[K+].[O-]Cl(=O)=O', 'a halogen with several oxygens'],
    ['CC#[N+][O-]', 'a fulminate or nitrile oxide'],
    ['CCO[Cl](=O)(=O)=O', 'perchlorate or perchloric acid'],
    ['[H]OOC(C)(C)C', 'a peroxide or hydroperoxide'],
    ['CN=N#N', 'an azide'],
    ['c1nnn[nH]1', 'a tetrazole ring'],
    ['Cn1nnnc1C', 'a tetrazole ring'],
  ])('%s holds %s and nothing else', (smiles, name) => {
    expect(groups(smiles)).toEqual([name]);
  });

  test.each([
    ['one nitro group', 'O=[N+]([O-])c1ccccc1'],
    ['an azo dye', 'CN(C)c1ccc(N=Nc2ccccc2)cc1'],
    ['an azo dye, written out', 'CN(C)C1=CC=C(C=C1)N=NC1=CC=CC=C1'],
    ['a triazole on carbon', 'Cn1ccnn1'],
    ['a triazole on carbon, written out', 'CN1C=CN=N1'],
    ['pyridazine, written out', 'C1=CC=NN=C1'],
    ['a nitrite', '[O-]N=O.[Na+]'],
    ['a hypochlorite in water', '[Na+].[O-]Cl'],
    ['an aromatic nitroso compound', 'O=Nc1ccccc1'],
    ['an inorganic nitrate', '[K+].[O-][N+](=O)[O-]'],
    ['nitric acid', 'O[N+](=O)[O-]'],
    ['dinitrogen', 'N#N'],
    ['nitrous oxide', '[N-]=[N+]=O'],
    ['hydrogen peroxide', 'OO'],
    ['oxygen', 'O=O'],
    ['an ether', 'CCOCC'],
    ['an acetal', 'COCOC'],
    ['an ammonium chloride', '[NH4+].[Cl-]'],
    ['a terminal alkyne', 'C#Cc1ccccc1'],
    ['a cyanide', '[C-]#N.[Na+]'],
    ['a tetrazine', 'c1nncnn1'],
    ['no SMILES at all', 'not a structure'],
  ])('%s is none', (_name, smiles) => {
    expect(groups(smiles)).toEqual([]);
  });

  test('each says where it is from', () => {
    const [one] = energeticGroups(factsOf({ name: 'one', smiles: 'COOC' }, reference), reference);
    expect(one?.source).toContain('Prudent Practices');
  });
});

test('a caution before the charge of such a material, and where its last reactant goes in for what is formed', () => {
  const holds = { name: 'holder', formula: 'C10H21N3', smiles: 'CCCCCCCCCCN=[N+]=[N-]' };
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
    expect(sentence(notice)).toMatch(/holder.*an azide \(Prudent Practices in the Laboratory \(2011\)/);
});
