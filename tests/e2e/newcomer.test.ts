import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Opened, openProgram } from './window.ts';

// The main job as a newcomer does it with a printed procedure in hand, found by roles and accessible names alone: what a
// person with a screen reader, or with speech control, has to go by.

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

const NEXT = /^Next charge of /;

/** Enters lines into the line for the next charge, where the cursor stands already. */
async function charges(page: Page, step: string, lines: readonly string[]): Promise<void> {
  const line = page.getByRole('combobox', { name: `Next charge of ${step}` });
  await expect.poll(() => hasFocus(line)).toBe(true);
  for (const text of lines) {
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
    await expect.poll(() => line.inputValue()).toBe('');
  }
}

const hasFocus = (of: Locator): Promise<boolean> => of.evaluate((one) => one === document.activeElement);

/** What a step still lacks stands in a group of its own: the equation, then the yield. */
async function equationAndYield(page: Page, step: string, equation: string, yieldText: string): Promise<void> {
  const lacking = page.getByRole('group', { name: `Still to be entered of ${step}` });
  await page.keyboard.press('Alt+e');
  await expect.poll(() => hasFocus(lacking.getByRole('textbox', { name: /^Equation/ }))).toBe(true);
  await page.keyboard.press('Control+a');
  await page.keyboard.type(equation);
  await page.keyboard.press('Enter');
  await lacking.getByRole('textbox', { name: 'Expected yield' }).focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.type(yieldText);
  await page.keyboard.press('Enter');
  await expect.poll(() => lacking.getByRole('textbox', { name: 'Expected yield' }).count()).toBe(0);
}

/** A new step: what it makes, and what the procedure prints of its basis. */
async function newStep(page: Page, ...texts: readonly string[]): Promise<void> {
  for (const text of texts) {
    await page.keyboard.type(text);
    await page.keyboard.press('Enter');
  }
}

async function enterRoute(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Routes' }).press('Enter');
  await page.getByRole('button', { name: 'New route' }).press('Enter');
  await expect.poll(() => hasFocus(page.getByRole('combobox', { name: 'It makes' }))).toBe(true);
  await newStep(page, 'methyl benz', 'benzoic acid 24.4 g (0.20 mol)');
  const first = 'Methyl benzoate from benzoic acid';
  await charges(page, first, [
    'methanol 81 mL (2.0 mol)',
    'conc. sulfuric acid 5 mL',
    'water 100 mL, quench',
    '5 % w/v sodium hydrogen carbonate 2 x 40 mL, wash',
  ]);
  await equationAndYield(page, first, 'benzoic acid + methanol = methyl benzoate + water', '70/78/85');
  await page.keyboard.press('Alt+Shift+n');
  await newStep(page, 'methyl 3-nitrobenzoate', '13.6 g (0.10 mol)');
  const second = 'Methyl 3-nitrobenzoate from methyl benzoate';
  await charges(page, second, [
    'concentrated sulfuric acid 40 mL at 0-5 °C',
    '70 % w/w nitric acid 10 mL over 30 min at 5-15 °C',
    'ice 130 g, quench',
  ]);
  await equationAndYield(page, second, 'methyl benzoate + HNO3 = methyl 3-nitrobenzoate + H2O', '81');
  await page.keyboard.press('Alt+Shift+n');
  await newStep(page, '3-nitrobenzoic acid', '18.1 g (0.10 mol)');
  const third = '3-nitrobenzoic acid from methyl 3-nitrobenzoate';
  await charges(page, third, ['10 % w/w sodium hydroxide 80 mL', '37 % w/w hydrochloric acid 25 mL, quench']);
  await equationAndYield(page, third, 'methyl 3-nitrobenzoate + NaOH + HCl = 3-nitrobenzoic acid + methanol + NaCl', '90');
}

test('a printed procedure becomes a plan: entered by keyboard, planned, short found, a yield changed and undone, compared', async () => {
  const { page, complaints } = await opened.page();
  await page.getByRole('button', { name: 'Skip' }).click();
  await enterRoute(page);
  // A route is called after what it makes in the end, until it is named.
  await page.getByRole('heading', { level: 1, name: '3-nitrobenzoic acid' }).waitFor();

  // Planned before its product has a formula: the notice leads to where it is entered.
  await page.getByRole('button', { name: 'Plan this route' }).press('Enter');
  await page.getByRole('img', { name: '3-nitrobenzoic acid, as it stands: its plan cannot be worked out yet' }).waitFor();
  await page.getByText('Not known while the plan cannot be worked out.').waitFor();
  await page.getByRole('button', { name: /3-nitrobenzoic acid has no formula/ }).press('Enter');
  await expect.poll(() => hasFocus(page.getByRole('textbox', { name: 'Formula', exact: true }))).toBe(true);
  await page.keyboard.type('C7H5NO4');
  await page.keyboard.press('Enter');

  // A branch: the ester is made into something else as well.
  const picture = page.getByRole('group', { name: 'The route drawn' });
  await picture.getByRole('button', { name: 'Add what methyl 3-nitrobenzoate makes' }).press('Enter');
  await newStep(page, 'methyl 3-aminobenzoate (C8H9NO2)', '18.1 g (0.10 mol)');
  const branch = 'Methyl 3-aminobenzoate from methyl 3-nitrobenzoate';
  await charges(page, branch, ['hydrogen 0.30 mol', 'methanol 150 mL']);
  await equationAndYield(page, branch, 'methyl 3-nitrobenzoate + 3 H2 = methyl 3-aminobenzoate + 2 H2O', '88');
  expect(await picture.getByRole('button', { name: /^Step [1-4], / }).count()).toBe(4);
  expect(await page.getByText('does not balance').count()).toBe(0);

  // 40 g of the acid and 5 g of the amine.
  await page.getByRole('link', { name: 'Plan', exact: true }).press('Enter');
  const acid = page.getByRole('textbox', { name: 'Amount of 3-nitrobenzoic acid' });
  await acid.focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('40 g');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Add a draw' }).press('Enter');
  const amine = page.getByRole('textbox', { name: 'Amount of methyl 3-aminobenzoate' });
  await expect.poll(() => hasFocus(amine)).toBe(true);
  await page.keyboard.type('5 g');
  await page.keyboard.press('Enter');
  // By hand: 40/167.12/0.90 + 5/151.16/0.88 mol of ester out of 0.81 and 0.78, as benzoic acid of 122.12 g/mol.
  const start = (40 / 167.12 / 0.9 + 5 / 151.16 / 0.88) / 0.81 / 0.78;
  const step = page.getByRole('button', { name: /^Step 1, / });
  const grams = async (): Promise<number> =>
    Number(/: ([\d.]+) g benzoic acid/.exec((await step.getAttribute('aria-label')) ?? '')?.[1]);
  await expect.poll(grams).toBeCloseTo(start * 122.12, 0);

  // What is short, and who uses it.
  const fetch = page.getByRole('region', { name: 'Fetch list' });
  await expect.poll(() => fetch.getByText(/^3 of \d+ not ready/).count()).toBe(1);
  const short = fetch.getByRole('listitem').filter({ hasText: 'short' });
  await expect.poll(() => short.filter({ hasText: 'benzoic acid' }).count()).toBe(1);
  await short.getByRole('button', { name: /^benzoic acid/ }).press('Enter');
  await fetch.getByText(/step 1 · Methyl benzoate from benzoic acid/).waitFor();

  // A yield is changed, and undone.
  const nitration = page.getByRole('textbox', { name: /^Yield of Methyl 3-nitrobenzoate from methyl benzoate/ });
  await nitration.focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('70');
  await page.keyboard.press('Enter');
  await expect.poll(grams).toBeCloseTo((start * 122.12 * 0.81) / 0.7, 0);
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect.poll(grams).toBeCloseTo(start * 122.12, 0);
  await expect.poll(() => nitration.inputValue()).toBe('81');

  // Two plans side by side: this one, and a copy with the lower yield.
  await page.getByRole('button', { name: 'Go on in a copy, with this plan beside it' }).press('Enter');
  await page.getByRole('region', { name: 'Side by side' }).getByText('The two plans do not differ.').waitFor();
  await nitration.focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('70');
  await page.keyboard.press('Enter');
  const row = page.getByRole('row', { name: /^(starts )?Methyl benzoate from benzoic acid · benzoic acid/ }).first();
  // 81 ÷ 70: what this plan, the copy, does to the one beside it.
  await expect.poll(() => row.textContent()).toMatch(/\+15\.7/);
  expect(
    (await opened.call('plans.list', {}))
      .filter((one) => one.name.startsWith('3-nitrobenzoic acid'))
      .map((one) => one.name)
      .sort(),
  ).toEqual(['3-nitrobenzoic acid', '3-nitrobenzoic acid 2']);
  expect(await page.getByRole('combobox', { name: NEXT }).count()).toBe(0);
  expect(complaints).toEqual([]);
  await page.context().close();
});
