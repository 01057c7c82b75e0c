import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Opened, openProgram } from './window.ts';

const volumes = (id: string, material: string, millilitresPerGram: number) => ({
  do: 'charge',
  id,
  stage: 'work-up',
  material,
  rule: { kind: 'volumes', millilitresPerGram },
});
// An extraction, and a filtration with a wash far larger than the vessel's own volume.
const route = {
  backweigh: 'route',
  version: 1,
  name: 'An extraction',
  materials: {
    a: { name: 'benzoin', formula: 'C14H12O2', state: 'solid', cas: '119-53-9' },
    b: { name: 'benzil', formula: 'C14H10O2', state: 'solid', cas: '134-81-6' },
    dcm: { name: 'dichloromethane', cas: '75-09-2' },
    water: { name: 'water', formula: 'H2O', utility: true },
  },
  steps: [
    {
      id: 'one',
      title: 'Oxidation',
      equation: { uses: [{ material: 'a', coefficient: 1 }], makes: [{ material: 'b', coefficient: 1 }] },
      basis: 'a',
      product: 'b',
      yieldPercent: 90,
      operations: [
        { do: 'charge', id: 'a', stage: 'reaction', material: 'a', rule: { kind: 'basis' } },
        volumes('dcm', 'dcm', 10),
        volumes('water', 'water', 10),
        { do: 'removal', id: 'sep', stage: 'work-up', how: 'separate', takes: [{ what: 'aqueous layer', percent: 100 }] },
        { do: 'removal', id: 'f', stage: 'work-up', how: 'filter', takes: [{ what: 'liquids', percent: 100 }] },
        volumes('wash', 'water', 90),
        { do: 'removal', id: 'f2', stage: 'work-up', how: 'wash away', takes: [{ what: 'liquids', percent: 100 }] },
      ],
    },
  ],
};

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
  const { id } = await opened.call('routes.import', { text: JSON.stringify(route) });
  await opened.call('plans.create', {
    routeId: id,
    ask: { name: 'extraction', useStock: false, draws: [{ id: 'd', material: 'b', amount: 9, unit: 'g', purpose: 'test' }] },
  });
});
afterAll(() => opened.close());

test.each(['light', 'dark'] as const)(
  'the vessel on the step card: layers, funnel, filter, largest volume, %s',
  async (colorScheme) => {
    const { page, complaints } = await opened.page({ colorScheme });
    const vessel = page.locator('.bench-sections > section').filter({ has: page.getByRole('heading', { name: 'Vessel' }) });
    await vessel.waitFor();
    const lines = (await vessel.locator('.bench-line').allInnerTexts()).map((one) => one.replaceAll(/\s+/g, ' '));
    const said = (start: string): string => lines.find((one) => one.startsWith(start)) ?? '';
    // 10.1 g of basis: 202 mL of liquids and 8 of solid; the washing, 909 mL, is not among them.
    expect(said('Work-up at its fullest')).toMatch(/500 mL flask.* 21\d(\.\d)? mL$/);
    expect(said('Upper layer')).toContain('aqueous layer, mostly water, about 0.998 g/mL');
    expect(said('Lower layer')).toContain('organic layer, mostly dichloromethane, about 1.33 g/mL');
    expect(said('By what the step takes')).toContain('stays in the organic layer');
    expect(said('Separating funnel')).toContain('500 mL separating funnel');
    expect(said('Water on the filter')).toMatch(/9\d\d mL$/);
    expect(said('Largest volume to be held')).toMatch(/under the filter.* 1\d\d\d mL$/);
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);
