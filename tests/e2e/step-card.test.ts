import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from './accessible.ts';
import { drag, type Opened, openProgram } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

test('a rule is edited on the step card: the plan follows at once, the route keeps a revision, undo takes both back', async () => {
  const { page, complaints } = await opened.page();
  const water = page.getByRole('row', { name: /water 2.94 equiv|water 5.88 equiv/ }).first();
  await water.waitFor();
  await page.keyboard.press('Alt+e');
  const ratio = page.getByRole('textbox', { name: 'Ratio of water' }).first();
  await expect.poll(() => ratio.inputValue()).toBe('0.5 mL/g');
  const before = await water.textContent();
  expect(before).toContain('18.0');
  await ratio.fill('1 mL/g');
  await ratio.press('Enter');
  // Twice the water: 36 mL, weighed or measured as its device allows.
  await expect.poll(() => water.textContent()).toMatch(/3[56]\.\d/);
  await expect.poll(async () => (await opened.call('routes.read', { id: 1 })).revision).toBe(2);
  await page.keyboard.press('Control+z');
  await expect.poll(() => water.textContent()).toBe(before);
  await page.getByRole('status').filter({ hasText: 'undone: ratio of water' }).waitFor();
  await page.keyboard.press('Control+Shift+z');
  await expect.poll(() => ratio.inputValue()).toBe('1 mL/g');
  await ratio.fill('1 mL/');
  await expect.poll(() => ratio.getAttribute('aria-invalid')).toBe('true');
  expect(await ratio.inputValue()).toBe('1 mL/');
  await ratio.fill('0.5 mL/g');
  await ratio.press('Enter');
  await page.getByRole('button', { name: 'done editing' }).click();
  await expect.poll(() => page.getByRole('textbox', { name: 'Ratio of water' }).count()).toBe(0);
  await expect.poll(async () => (await opened.call('routes.read', { id: 1 })).revision).toBe(5);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('edits of the plan and of its route are undone in the order they were made', async () => {
  const { page, complaints } = await opened.page();
  const target = page.getByRole('textbox', { name: 'Amount of tetraphenylcyclopentadienone' });
  await target.fill('30 g');
  await target.press('Enter');
  await page.keyboard.press('Alt+e');
  const ratio = page.getByRole('textbox', { name: 'Ratio of ethanol' }).first();
  await ratio.fill('2.5 mL/g');
  await ratio.press('Enter');
  await target.fill('31 g');
  await target.press('Enter');
  const state = async (): Promise<string> => `${await target.inputValue()}, ${await ratio.inputValue()}`;
  await expect.poll(state).toBe('31 g, 2.5 mL/g');
  for (const expected of ['30 g, 2.5 mL/g', '30 g, 1.9 mL/g', '20 g, 1.9 mL/g']) {
    await page.keyboard.press('Control+z');
    await expect.poll(state).toBe(expected);
  }
  for (const expected of ['30 g, 1.9 mL/g', '30 g, 2.5 mL/g', '31 g, 2.5 mL/g']) {
    await page.keyboard.press('Control+Shift+z');
    await expect.poll(state).toBe(expected);
  }
  for (let edit = 0; edit < 3; edit += 1) await page.keyboard.press('Control+z');
  await expect.poll(state).toBe('20 g, 1.9 mL/g');
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('operations are put in another order on the step card, by keyboard and by dragging', async () => {
  const { page, complaints } = await opened.page();
  await page.getByRole('columnheader', { name: 'take' }).waitFor();
  await page.keyboard.press('Alt+e');
  const handles = page.getByTitle(/^Drag .* to another place of the step/);
  await handles.first().waitFor();
  const order = async (): Promise<readonly string[]> =>
    handles.evaluateAll((all) => all.map((one) => one.getAttribute('title') ?? ''));
  const before = await order();
  const edit = page.getByRole('button', { name: 'Edit thiamine hydrochloride', exact: true });
  await edit.press('Alt+ArrowDown');
  await expect.poll(async () => (await order()).slice(0, 2)).toEqual([before[1], before[0]]);
  const keepsFocus = (): Promise<boolean> => edit.evaluate((one) => one === document.activeElement);
  await expect.poll(keepsFocus).toBe(true);
  await page.keyboard.press('Alt+ArrowUp');
  await expect.poll(order).toEqual(before);
  await expect.poll(keepsFocus).toBe(true);
  await page.keyboard.press('Enter');
  await page.getByRole('combobox', { name: 'Material' }).press('Alt+ArrowDown');
  await expect.poll(async () => (await order()).slice(0, 2)).toEqual([before[1], before[0]]);
  await page.keyboard.press('Escape');
  await drag(page, handles.nth(1), page.getByRole('row', { name: /Edit water/ }).first());
  await expect.poll(order).toEqual(before);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test.each([
  [1280, 800],
  [1024, 700],
])('%d × %d: an edit of a yield moves no label, no control and no column', async (width, height) => {
  const { page } = await opened.page({ viewport: { width, height } });
  type Place = readonly [string, number, number, number];
  const placesNow = (): Promise<readonly Place[]> =>
    page.evaluate(() =>
      [...document.querySelectorAll('main button:not(.amount), main input, main select, main h1, main h2, main th')].map(
        (one) => {
          const { left, top, width: wide } = one.getBoundingClientRect();
          const name = `${one.tagName} ${one.getAttribute('aria-label') ?? one.textContent ?? ''}`;
          return [`${one.closest('.cascade') ? 'cascade' : 'card'} ${name}`, left, top, one.tagName === 'TH' ? wide : 0] as const;
        },
      ),
    );
  /** Once nothing has come in for a while. */
  const places = async (): Promise<readonly Place[]> => {
    let last = await placesNow();
    let was: readonly Place[] = [];

    do {
      await page.waitForTimeout(1000);
      [was, last] = [last, await placesNow()];
    } while (JSON.stringify(last) !== JSON.stringify(was));
    return last;
  };
  const field = page.getByRole('textbox', { name: /yield of Oxidation to benzil/i });
  await field.waitFor();
  const before = await places();
  await field.fill('84');
  const after = await places();
  expect(after.length).toBe(before.length);
  expect(before.length).toBeGreaterThan(30);
  const moved = before.filter(([name, ...was], index) => {
    const [, ...now] = after[index] ?? [''];
    // In the picture a step rides on its band, whose height is what changed: a few pixels up or down, never aside.
    const most = name.startsWith('cascade') ? [0.5, 8, 0.5] : [0.5, 0.5, 0.5];
    return was.some((value, at) => Math.abs(value - (now[at] ?? Number.NaN)) > (most[at] ?? 0));
  });
  expect(moved.map(([name]) => name)).toEqual([]);
  await page.context().close();
});

test.each([
  ['light', 1280],
  ['dark', 1024],
  ['light', 640],
] as const)('the step card open for editing keeps WCAG 2.2 AA, %s, at %d px', async (colorScheme, width) => {
  const { page, complaints } = await opened.page({ colorScheme, viewport: { width, height: 800 } });
  await page.getByRole('columnheader', { name: 'take' }).waitFor();
  await page.getByRole('button', { name: 'edit the step' }).click();
  await page.getByRole('button', { name: 'Edit thiamine hydrochloride', exact: true }).click();
  await page.getByText('Equation, yield, conditions, notes').click();
  await page.getByRole('textbox', { name: 'Equation, by names or formulas' }).waitFor();
  expect(await violationsOn(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
  expect(complaints).toEqual([]);
  await page.context().close();
});
