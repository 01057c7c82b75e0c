import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from './accessible.ts';
import { type Opened, openProgram } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

// A nitration whose acid goes away with the water, and a wash "to neutralise" over what is left of it.
const charge = (id: string, stage: string, material: string, rule: unknown, more: object = {}) => ({
  do: 'charge',
  id,
  stage,
  material,
  rule,
  ...more,
});
const percent = (value: number) => ({ form: { kind: 'solution', strength: { value, basis: '% w/w' } } });
const separate = (id: string) => ({
  do: 'removal',
  id,
  stage: 'work-up',
  how: 'separate',
  takes: [{ what: 'aqueous layer', percent: 100 }],
});
const route = {
  backweigh: 'route',
  version: 1,
  name: 'A washed layer',
  materials: {
    ester: { name: 'ethyl benzoate', cas: '93-89-0' },
    nitro: { name: 'ethyl 3-nitrobenzoate', formula: 'C9H9NO4', smiles: 'CCOC(=O)c1cccc(c1)[N+](=O)[O-]' },
    nitric: { name: 'nitric acid', cas: '7697-37-2' },
    water: { name: 'water', cas: '7732-18-5', utility: true },
    toluene: { name: 'toluene', cas: '108-88-3' },
    soda: { name: 'sodium hydrogen carbonate', cas: '144-55-8' },
  },
  steps: [
    {
      id: 's',
      title: 'Nitration',
      equation: {
        uses: ['ester', 'nitric'].map((material) => ({ material, coefficient: 1 })),
        makes: ['nitro', 'water'].map((material) => ({ material, coefficient: 1 })),
      },
      basis: 'ester',
      product: 'nitro',
      yieldPercent: 80,
      operations: [
        charge('ester', 'reaction', 'ester', { kind: 'basis' }),
        charge(
          'nitric',
          'reaction',
          'nitric',
          { kind: 'equivalents', equivalents: 1.1 },
          { ...percent(68), temperature: { bath: 'ice bath' } },
        ),
        charge('water', 'quench', 'water', { kind: 'volumes', millilitresPerGram: 10 }),
        charge('toluene', 'work-up', 'toluene', { kind: 'volumes', millilitresPerGram: 10 }),
        separate('r1'),
        charge('soda', 'work-up', 'soda', { kind: 'to neutralise', endPH: 7.5 }, percent(8)),
        separate('r2'),
      ],
    },
  ],
};

test('a wash over what is not there has no amount, and no list calls it enough; a bath stands in its own word', async () => {
  const { id } = await opened.call('routes.import', { text: JSON.stringify(route) });
  await opened.call('plans.create', {
    routeId: id,
    ask: { name: 'Washed', draws: [{ id: 'd', material: 'nitro', amount: 10, unit: 'g' }] },
  });
  const { page, complaints } = await opened.page();
  await page.getByRole('button', { name: /^Step 1, / }).click();
  const wash = page.locator('table.operations [data-operation="soda"]');
  await wash.getByText('not known').first().waitFor();
  await page
    .getByText(/nothing to speak of is in the vessel that sodium hydrogen carbonate would neutralise/)
    .first()
    .waitFor();
  const list = page.getByRole('region', { name: 'Fetch list' });
  await list.getByText(/sodium hydrogen carbonate, 8.% w\/w: how much of it step 1 takes is not known/).waitFor();
  expect(await list.getByRole('button', { name: /sodium hydrogen carbonate/ }).count()).toBe(0);
  const acid = page.locator('table.operations [data-operation="nitric"]');
  await acid.getByText('in an ice bath (usually 0–5 °C: common practice, no source)').waitFor();
  expect(await violationsOn(page)).toEqual([]);
  expect(complaints).toEqual([]);
  await page.context().close();
});
