import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from './accessible.ts';
import { drag, type Opened, openProgram } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

/** Presses keys one by one and counts them; a held Alt, Control or Shift is a key of its own. */
function keyboard(page: Page) {
  let count = 0;
  return {
    count: () => count,
    async type(text: string): Promise<void> {
      for (const letter of text) {
        count += 1;
        await page.keyboard.type(letter);
      }
    },
    async press(keys: string): Promise<void> {
      count += keys.split('+').length;
      await page.keyboard.press(keys);
    },
  };
}

const focused = (page: Page): Locator => page.locator(':focus');

test('a five-charge step from a printed procedure is entered by keyboard alone, in at most 250 key presses', async () => {
  const { page, complaints } = await opened.page();
  const keys = keyboard(page);
  // Benzoin to benzil with nitric acid and its work-up, as a practical book prints it.
  await keys.press('Alt+n');
  await expect.poll(() => focused(page).getAttribute('role')).toBe('combobox');
  await keys.type('benzil');
  await keys.press('Enter');
  await keys.type('benzoin 20.0 g (0.0942 mol)');
  await keys.press('Enter');
  await page.getByRole('heading', { level: 1, name: 'Benzil' }).waitFor();
  await expect.poll(() => focused(page).getAttribute('role')).toBe('combobox');
  for (const line of [
    '68 % w/w nitric acid 100 mL at 95-100 °C',
    'water 400 mL, quench',
    'sodium hydrogencarb 5 g, wash',
    'ethanol 3 x 40 mL, recrystallise',
  ]) {
    await keys.type(line);
    await keys.press('Enter');
    await expect.poll(() => focused(page).inputValue()).toBe('');
  }
  await keys.press('Alt+e');
  await expect.poll(() => focused(page).inputValue()).toBe('benzoin → benzil');
  await keys.press('Control+a');
  await keys.type('benzoin + 2 HNO3 = benzil + 2 NO2 + 2 H2O');
  await keys.press('Enter');
  await page.getByText('C₁₄H₁₂O₂ + 2 HNO₃ → C₁₄H₁₀O₂ + 2 NO₂ + 2 H₂O').waitFor();
  expect(await page.getByText('does not balance').count()).toBe(0);
  console.log(`five charges and the equation in ${keys.count()} key presses`);
  expect(keys.count()).toBeLessThanOrEqual(250);
  const list = await opened.call('routes.list', {});
  const made = list.find((one) => one.name === 'Benzil');
  await expect
    .poll(async () => (await opened.call('routes.read', { id: made?.id ?? 0 })).route.steps[0]?.operations.length)
    .toBe(5);
  const { route } = await opened.call('routes.read', { id: made?.id ?? 0 });
  expect(
    route.steps[0]?.operations.map((one) => one.do === 'charge' && [route.materials[one.material]?.name, one.printed, one.stage]),
  ).toEqual([
    ['benzoin', '20.0 g (0.0942 mol)', 'reaction'],
    ['nitric acid', '100 mL of 68 % w/w', 'reaction'],
    ['water', '400 mL', 'quench'],
    ['sodium hydrogen carbonate', '5 g', 'work-up'],
    ['ethanol', '3 x 40 mL', 'purification'],
  ]);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('a three-step route is entered and planned without the mouse', async () => {
  const { page, complaints } = await opened.page();
  const keys = keyboard(page);
  const line = async (text: string): Promise<void> => {
    await keys.type(text);
    await keys.press('Enter');
    await expect.poll(() => focused(page).inputValue()).toBe('');
  };
  const first = async (...texts: readonly string[]): Promise<void> => {
    await expect.poll(() => focused(page).getAttribute('role')).toBe('combobox');
    for (const text of texts) {
      await keys.type(text);
      await keys.press('Enter');
    }
    await expect.poll(() => focused(page).getAttribute('placeholder')).toBe('e.g. 68 % w/w nitric acid 35 mL');
  };
  const equation = async (text: string): Promise<void> => {
    await keys.press('Alt+e');
    await expect.poll(() => focused(page).inputValue()).toContain('→');
    await keys.press('Control+a');
    await keys.type(text);
    await keys.press('Enter');
    // Behind the equation stands the yield.
    await keys.press('Tab');
    await keys.press('Control+a');
  };
  await keys.press('Alt+n');
  await first('acetanilide', 'aniline 9.3 g (0.10 mol)');
  await line('acetic anhydride 11.0 mL (0.117 mol)');
  await line('water 200 mL, quench');
  await equation('aniline + acetic anhydride = acetanilide + acetic acid');
  await taken('75/80/90');
  await keys.press('Alt+Shift+n');
  await first('4-nitroacetanilide (C8H8N2O3)', '13.5 g (0.10 mol)');
  await line('concentrated sulfuric acid 30 mL at 0-5 °C');
  await line('70 % w/w nitric acid 7.5 mL over 30 min at 0-5 °C, dropwise');
  await line('ice 100 g, quench');
  await equation('acetanilide + HNO3 = 4-nitroacetanilide + H2O');
  await taken('70');
  await keys.press('Alt+Shift+n');
  await first('4-nitroaniline', '15.0 g');
  await line('37 % w/w hydrochloric acid 35 mL');
  await line('water 35 mL');
  await equation('4-nitroacetanilide + H2O = 4-nitroaniline + acetic acid');
  await taken('85');
  await page.getByRole('heading', { name: '3 · 4-nitroaniline from 4-nitroacetanilide' }).waitFor();
  expect(await page.getByText('does not balance').count()).toBe(0);
  expect(await page.getByText('not entered yet').count()).toBe(0);
  await keys.press('Control+k');
  await keys.type('Plan the open');
  await keys.press('Enter');
  await page.getByRole('textbox', { name: 'Amount of 4-nitroaniline' }).waitFor();
  console.log(`three steps in ${keys.count()} key presses`);
  expect(complaints).toEqual([]);
  await page.context().close();

  async function taken(text: string): Promise<void> {
    await keys.type(text);
    await keys.press('Enter');
  }
});

test('undo and redo by keys, in the line too; every edit is a revision that can be compared and restored', async () => {
  const { page, complaints } = await opened.page();
  await page.keyboard.press('Control+1');
  await page.getByRole('button', { name: /^Benzil for the practicals/ }).click();
  await page.getByRole('heading', { level: 1, name: 'Benzil for the practicals' }).waitFor();
  const line = page.getByRole('combobox', { name: /^Next charge of Oxidation/ });
  await line.fill('toluene 2 mL/g');
  await line.press('Enter');
  await page.getByRole('textbox', { name: 'Ratio of toluene' }).waitFor();
  await line.press('Control+z');
  await page.getByText('Undone: charge of toluene.').waitFor();
  await expect.poll(() => page.getByRole('textbox', { name: 'Ratio of toluene' }).count()).toBe(0);
  await line.press('Control+Shift+z');
  await page.getByText('Done again: charge of toluene.').waitFor();
  await page.getByRole('button', { name: 'Revisions' }).click();
  await page.getByRole('button', { name: 'What revision 2 changed' }).click();
  await page.getByRole('cell', { name: 'new', exact: true }).waitFor();
  await page.getByRole('button', { name: 'Restore revision 1' }).click();
  await expect.poll(async () => (await opened.call('routes.read', { id: 1 })).revision).toBe(5);
  const two = page.getByRole('group', { name: 'Any two revisions' });
  await two.getByRole('combobox', { name: 'From' }).selectOption('revision 2');
  await two.getByRole('combobox', { name: 'to' }).selectOption('revision 5');
  await two.getByRole('button', { name: 'compare the two' }).click();
  await two
    .getByRole('row', { name: /Oxidation to benzil.*toluene/ })
    .first()
    .waitFor();
  await two.getByRole('combobox', { name: 'From' }).selectOption('revision 1');
  await two.getByText('Nothing differs.').waitFor();
  const [first, fifth] = await Promise.all([1, 5].map((revision) => opened.call('routes.read', { id: 1, revision })));
  expect(fifth?.route).toEqual(first?.route);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('a route is put away, found under it, and taken out again; its plan stays', async () => {
  const { page, complaints } = await opened.page();
  await page.keyboard.press('Control+1');
  await page.getByRole('button', { name: /^Benzil for the practicals/ }).click();
  await page.getByRole('heading', { level: 1, name: 'Benzil for the practicals' }).waitFor();
  await page.getByRole('button', { name: 'Put away' }).click();
  await page.getByRole('status').filter({ hasText: 'is put away' }).waitFor();
  await expect.poll(() => page.getByRole('button', { name: /^Benzil for the practicals/ }).count()).toBe(0);
  await page.reload();
  await page.keyboard.press('Control+1');
  await page.getByText('Put away (1)').click();
  await page.getByRole('button', { name: /^Benzil for the practicals/ }).click();
  await page.getByRole('button', { name: 'Take out again' }).click();
  await expect.poll(() => page.getByText('Put away (1)').count()).toBe(0);
  expect((await opened.call('plans.list', {})).some((one) => one.routeId === 1)).toBe(true);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('an operation is dragged to the place of another, and takes its stage', async () => {
  const { page, complaints } = await opened.page();
  await page.keyboard.press('Control+1');
  await page.getByRole('button', { name: /^Benzil for the practicals/ }).click();
  const rows = page.locator('section.route-step').first().locator('tr.op');
  await rows.nth(2).waitFor();
  const order = (): Promise<readonly (string | undefined)[]> =>
    rows.evaluateAll((all) => all.map((row) => row.dataset['operation']));
  const before = await order();
  await drag(page, rows.first().locator('.op-handle'), rows.nth(2));
  await expect.poll(async () => (await order()).slice(0, 3)).toEqual([before[1], before[2], before[0]]);
  await page.keyboard.press('Control+z');
  await expect.poll(order).toEqual(before);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test.each(['light', 'dark'] as const)(
  'everything open for editing keeps WCAG 2.2 AA, %s, at 1024 px too',
  async (colorScheme) => {
    const { page, complaints } = await opened.page({ colorScheme, viewport: { width: 1024, height: 700 } });
    await page.keyboard.press('Control+1');
    await page.getByRole('button', { name: /^Benzil for the practicals/ }).click();
    await page.getByRole('heading', { level: 1, name: 'Benzil for the practicals' }).waitFor();
    const check = async (): Promise<void> => {
      expect(await violationsOn(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    };
    await page.evaluate(() => {
      for (const part of document.querySelectorAll('main details')) part.toggleAttribute('open', true);
    });
    await page.getByRole('textbox', { name: 'Equation, by names or formulas' }).first().waitFor();
    await page.getByRole('button', { name: 'Edit nitric acid', exact: true }).click();
    await page.getByRole('button', { name: 'Edit the material benzil', exact: true }).click();
    await page.getByRole('button', { name: 'Revisions' }).click();
    await page.getByRole('button', { name: 'Add what makes benzaldehyde' }).click();
    await page.getByRole('combobox', { name: /^Next charge of Oxidation/ }).fill('tol');
    await check();
    await page.keyboard.press('Alt+n');
    await page.getByRole('heading', { name: 'A new route' }).waitFor();
    await check();
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);
