import { expect, test } from 'vitest';
import { findInRoutes, materialsOfRoutes } from '../../src/core/shelf/find/route-names.ts';
import { reference } from '../reference/tables.ts';

const routes = [
  {
    name: 'nitroaniline',
    materials: {
      a: { name: '4-nitroacetanilide', cas: '104-04-1', formula: 'C8H8N2O3' },
      b: { name: 'benzil', cas: '134-81-6', formula: 'C14H10O2' },
      w: { name: 'ice', formula: 'H2O', utility: true },
    },
  },
  { name: 'another', materials: { a: { name: '4-nitroacetanilide', cas: '104-04-1' }, n: { name: 'nitro thing' } } },
];

test('what the routes know and the table does not, each once, without what needs no bottle', () => {
  const found = materialsOfRoutes(routes, reference);
  expect(found.map(({ material, route }) => [material.name, route])).toEqual([
    ['4-nitroacetanilide', 'nitroaniline'],
    ['nitro thing', 'another'],
  ]);
  const names = (typed: string) => findInRoutes(typed, found).map(({ material }) => material.name);
  expect(names('nitro')).toEqual(['nitro thing', '4-nitroacetanilide']);
  expect(names('4-Nitro acet')).toEqual(['4-nitroacetanilide']);
  expect([names('104-04'), names('C8H8N2O3')]).toEqual([['4-nitroacetanilide'], ['4-nitroacetanilide']]);
  expect([names('n'), names('benzil'), names('')]).toEqual([[], [], []]);
});
