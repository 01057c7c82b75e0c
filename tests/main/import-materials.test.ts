import { describe, expect, test } from 'vitest';
import type { Route } from '../../src/core/route/route.ts';
import { formWords } from '../../src/core/words/form-words.ts';
import { layOut } from '../../src/core/shelf/import/cell-reader.ts';
import { guessMapping } from '../../src/core/shelf/import/guess.ts';
import { type ReadRow, readRow } from '../../src/core/shelf/import/read-row.ts';
import { routeMaterials } from '../../src/core/shelf/import/route-materials.ts';
import { reference } from '../reference/tables.ts';
import { openedFile } from './file-fixture.ts';
import { openBook } from './workbook-fixture.ts';

// C8H8N2O3 is 180.16 g/mol (CIAAW 2021): an amide that the built-in table does not have.
const ROUTE: Route = {
  backweigh: 'route',
  version: 1,
  name: 'nitroaniline',
  materials: {
    amide: { name: '4-nitroacetanilide', cas: '104-04-1', formula: 'C8H8N2O3', state: 'solid' },
    amine: { name: '4-nitroaniline', cas: '100-01-6', formula: 'C6H6N2O2', state: 'solid' },
  },
  steps: [
    {
      id: 's',
      title: 'Hydrolysis',
      equation: { uses: [{ material: 'amide', coefficient: 1 }], makes: [{ material: 'amine', coefficient: 1 }] },
      basis: 'amide',
      product: 'amine',
      yieldPercent: 80,
      operations: [{ do: 'charge', id: 'c', stage: 'reaction', material: 'amide', rule: { kind: 'basis' } }],
    },
  ],
};
const OF_TABLE = 'material;CAS;conc. (% w/w);amount\n';

function rowsOf(csv: string, routes: readonly Route[] = [ROUTE]): readonly ReadRow[] {
  const [headings = [], ...cells] = csv
    .trim()
    .split('\n')
    .map((line) => line.split(';'));
  const rows = cells.map((one, at) => ({ number: at + 2, cells: one, problems: [] }));
  const layout = layOut(guessMapping(headings), rows, false);
  return rows.map((row) => readRow(row, layout, reference, new Map(), routeMaterials(routes)));
}
const formOf = (row: ReadRow | undefined): string => (row?.form ? formWords(row.form) : '');

test('a file is held against the routes of the workbook, and is written so', async () => {
  const book = openBook({ empty: true });
  await book.must('routes.import', { text: JSON.stringify(ROUTE) });
  const { file, preview } = await openedFile(
    book,
    `${OF_TABLE.replace('material', 'label;material')}A1;4-nitroacetanilide;104-04-1;97;5 g\n`,
  );
  await book.must('files.write', { file, preview: preview.preview });
  const { bottle } = await book.must('shelf.bottle', { id: 'A1' });
  expect([formWords(bottle.form), bottle.material.formula]).toEqual(['assay 97 % w/w', 'C8H8N2O3']);
});

test('a material that one of the routes knows: its purity is an assay, and formula and state come from the route', () => {
  const [row] = rowsOf(`${OF_TABLE}4-nitroacetanilide;104-04-1;97;5 g\n`);
  expect(row).toMatchObject({ problems: [], material: { formula: 'C8H8N2O3', state: 'solid' } });
  expect(formOf(row)).toBe('assay 97 % w/w');
  expect(row?.remarks).toEqual([
    'formula C8H8N2O3 from your route “nitroaniline”',
    '97 % w/w without a solvent: taken as the assay (purity), not as a solution',
  ]);
});

test('by its name alone it is the route’s too, with its number; where two routes are not of one mind, nobody’s', () => {
  const csv = 'material;assay;amount\n4-Nitroacetanilide;97;5 g\n';
  expect(rowsOf(csv)[0]?.remarks).toEqual(['CAS number 104-04-1 and formula C8H8N2O3 from your route “nitroaniline”']);
  const other: Route = { ...ROUTE, materials: { amide: { name: '4-nitroacetanilide', formula: 'C8H10N2O3' } } };
  expect(rowsOf(csv, [ROUTE, other])[0]?.material).toEqual({ name: '4-Nitroacetanilide' });
  // The number says it is another substance, whatever its name.
  expect(rowsOf('material;CAS;amount\n4-nitroacetanilide;122-28-1;5 g\n')[0]?.material?.formula).toBeUndefined();
});

test('what neither a table nor a route knows: a high purity is an assay, a low one is asked about, and no formula is said', () => {
  const rows = rowsOf(`${OF_TABLE}odd amide;;97;5 g\nodd amide;;60;5 g\nodd liquor;;60;5 mL\n`, []);
  expect(rows.map(formOf)).toEqual(['assay 97 % w/w', '', '60 % w/w']);
  expect(rows[0]?.remarks).toContainEqual(expect.stringContaining('never in moles'));
  expect(rows[1]?.problems[0]?.words).toMatch(/^is 60 % w\/w the purity of the neat material, or a solution\?/);
});

test('a solid of the table at a low percentage is a solution, and it says so; its solvent said, nothing is asked', () => {
  const [row] = rowsOf(`${OF_TABLE}benzil;134-81-6;50;1 kg\n`, []);
  expect(row?.remarks).toContainEqual(expect.stringContaining('50 % w/w: taken as a solution in water'));
  expect(rowsOf('material;strength;solvent;amount\nodd amide;60 % w/w;water;5 g\n')[0]?.problems).toEqual([]);
});

describe('a strength above what the tables know is taken in, and the row says the number', () => {
  const remarksOf = (name: string, strength: string, solvent = '') =>
    rowsOf(`material;strength;solvent;amount\n${name};${strength};${solvent};100 mL\n`, [])[0];
  const stronger = (name: string, strength: string, solvent = '') =>
    remarksOf(name, strength, solvent)?.remarks.filter((one) => one.startsWith('stronger than')) ?? ['no row'];

  // CRC Handbook: 35.89 g of NaCl per 100 g of water at 20 °C is 26.41 % w/w, 5.43 mol/L at 1.2008 g/mL.
  test('sodium chloride 20 mol/L: more than dissolves', () => {
    expect(stronger('sodium chloride', '20 mol/L')).toEqual([
      expect.stringMatching(/^stronger than water can hold at 20 °C, 5\.4\d mol\/L: .*\(CRC/),
    ]);
    expect(remarksOf('sodium chloride', '20 mol/L')?.problems).toEqual([]);
    expect(stronger('sodium chloride', '30 % w/w')).toEqual([expect.stringContaining('26.4 % w/w')]);
  });

  // CRC Handbook: the densities of hydrochloric acid end at 40 % w/w.
  test('hydrogen chloride 60 % w/w: above the last of its densities', () => {
    expect(stronger('hydrochloric acid', '60 % w/w')).toEqual([
      expect.stringMatching(/^stronger than any density of it known here, which end at 40(\.0)? % w\/w/),
    ]);
  });

  test.each([
    ['sodium chloride', '5 mol/L'],
    ['sodium chloride', '26.4 % w/w'],
    ['hydrochloric acid', '37 % w/w'],
    ['sodium hydroxide', '50 % w/w'],
    ['sulfuric acid', '98 % w/w'],
    ['hydrogen peroxide', '30 % w/w'],
    ['odd amide', '90 % w/v'],
  ])('nothing of %s %s', (name, strength) => expect(stronger(name, strength)).toEqual([]));

  test('nothing in another solvent, of which no limit is known', () =>
    expect(stronger('hydrogen chloride', '60 % w/w', 'methanol')).toEqual([]));
});
