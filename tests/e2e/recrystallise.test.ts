import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Opened, openProgram, pdfText } from './window.ts';

// Glauber's salt turned anhydrous: the solid changes near 32 °C, the hot end lies beyond the typed points.
const route = {
  backweigh: 'route',
  version: 1,
  name: 'Salts for the practicals',
  materials: {
    acid: { name: 'sulfuric acid', formula: 'H2SO4', cas: '7664-93-9' },
    lye: { name: 'sodium hydroxide', formula: 'NaOH', cas: '1310-73-2' },
    water: { name: 'water', formula: 'H2O', cas: '7732-18-5', utility: true },
    salt: { name: 'sodium sulfate', formula: 'Na2SO4', state: 'solid' },
  },
  steps: [
    {
      id: 'salt',
      title: 'Neutralisation',
      equation: {
        uses: [
          { material: 'acid', coefficient: 1 },
          { material: 'lye', coefficient: 2 },
        ],
        makes: [
          { material: 'salt', coefficient: 1 },
          { material: 'water', coefficient: 2 },
        ],
      },
      basis: 'acid',
      product: 'salt',
      yieldPercent: 90,
      recrystallise: { solvent: 'water', per: '100 g solvent', points: [], hotCelsius: 35, coldCelsius: 10, excessPercent: 10 },
      operations: [
        { do: 'charge', id: 'acid', stage: 'reaction', material: 'acid', rule: { kind: 'basis' } },
        { do: 'charge', id: 'lye', stage: 'reaction', material: 'lye', rule: { kind: 'equivalents', equivalents: 2 } },
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
    ask: { name: 'salts', useStock: false, draws: [{ id: 'd', material: 'salt', amount: 25, unit: 'g', purpose: 'practicals' }] },
  });
});
afterAll(() => opened.close());

test.each(['light', 'dark'] as const)('the plot and its table on the step card, %s', async (colorScheme) => {
  const { page, complaints } = await opened.page({ colorScheme });
  const plot = page.getByRole('img', { name: /^Solubility in water, g per 100 g solvent/ });
  await plot.waitFor();
  expect(await plot.locator('.plot-line').count()).toBe(2);
  expect(await plot.locator('.plot-dashed').count()).toBe(2);
  // Everything drawn stays inside the picture.
  const outside = await plot.evaluate((svg) => {
    const whole = svg.getBoundingClientRect();
    return [...svg.querySelectorAll('path, circle, text')].filter((one) => {
      const box = one.getBoundingClientRect();
      return box.left < whole.left - 1 || box.right > whole.right + 1 || box.top < whole.top - 1 || box.bottom > whole.bottom + 1;
    }).length;
  });
  expect(outside).toBe(0);
  await page.locator('.bench-plot summary').click();
  const rows = await page.locator('.bench-plot tbody tr').allInnerTexts();
  expect(rows[0]?.split(/\s+/)).toEqual(['20', '19.2', '19.2', '16.1']);
  expect(await page.getByText('Cooling goes past 32 °C').count()).toBe(1);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('the same plot stands on the sheet, as its PDF says', async () => {
  const { page, complaints } = await opened.page();
  await page.keyboard.press('Control+5');
  await page.getByRole('button', { name: 'Choose all batches' }).click();
  await page.getByRole('button', { name: 'Issue and open: Weighing sheet' }).click();
  const planId = (await opened.call('plans.list', {})).find((one) => one.name === 'salts')?.id ?? 0;
  await expect.poll(async () => (await opened.call('papers.list', { planId })).length).toBe(1);
  const [paper] = await opened.call('papers.list', { planId });
  const printed = pdfText((await opened.call('papers.pdf', { id: paper?.id ?? 0 })).base64, opened.folder).replaceAll(
    /\s+/g,
    ' ',
  );
  // Word by word: where lines and subscripts fall in the text depends on the fonts of the machine.
  for (const words of ['Solubility of', 'built-in', 'CRC', 'cold', 'hot', 'Shaded:', 'Dashed:', 'Cooling goes past']) {
    expect(printed).toContain(words);
  }
  expect(complaints).toEqual([]);
  await page.context().close();
});
