import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from './accessible.ts';
import { type Opened, openProgram, pdfText } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

test.each([
  [1280, 800],
  [1920, 1080],
  [1024, 700],
])(
  'making a solution, %d × %d: no violation of WCAG 2.2 AA in light and dark, nothing wider than the window',
  async (width, height) => {
    const { page, complaints } = await opened.page({ colorScheme: 'light', viewport: { width, height } });
    await page.keyboard.press('Control+3');
    await page.getByRole('searchbox').fill('sulfuric');
    await page.locator('.bottle-row', { hasText: '96 % w/w' }).first().click();
    await page.getByRole('button', { name: 'Make a solution from this' }).click();
    const wanted = page.getByLabel('how much of which strength');
    for (const [text, mode] of [
      ['250 mL of 3 mol/L', 'Make a solution'],
      ['1 kg of 70 %', 'Make a solution'],
      ['100 g of 90 % w/w', 'Use another strength'],
    ] as const) {
      await page.getByRole('radio', { name: mode }).check();
      await page.getByLabel(/^(how much of which strength|what is asked for)$/).fill(text);
      expect(await violationsOn(page), text).toEqual([]);
      await page.emulateMedia({ colorScheme: 'dark' });
      expect(await violationsOn(page, { rules: 'colours' }), `${text}, dark`).toEqual([]);
      await page.emulateMedia({ colorScheme: 'light' });
      expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
    }
    expect(await wanted.count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);

test('for a charge by the keyboard alone: amounts, a paper that is kept and printed whole, and back', async () => {
  const { page, complaints } = await opened.page();
  const link = page.getByRole('button', { name: 'how to make sodium hydroxide 3 mol/L' });
  await link.focus();
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'Make a solution of sodium hydroxide' }).waitFor();
  const wanted = page.getByLabel('how much of which strength');
  expect(await wanted.inputValue()).toMatch(/^[\d.]+ mL of 3 mol\/L$/);
  await wanted.focus();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('100 mL of 3 mol/L');
  await page.getByRole('button', { name: 'Issue', exact: true }).focus();
  await page.keyboard.press('Enter');
  await page.waitForURL(/paper=\d+/);
  await page.getByRole('heading', { name: 'Make-up of sodium hydroxide 3 mol/L' }).waitFor();
  const [paper] = await opened.call('papers.list', { planId: null });
  expect(paper).toMatchObject({ kind: 'make-up', revision: 0 });
  const { base64 } = await opened.call('papers.pdf', { id: paper?.id ?? 0 });
  const text = pdfText(base64, opened.folder).replaceAll(/\s+/g, ' ');
  // 12.0 g of NaOH in 24.0 g of 50 % lye, made up by mass through the density of the result.
  expect(text).toContain('sodium hydroxide 50 % w/w 24.00 g');
  expect(text.indexOf('Before 2:')).toBeLessThan(text.indexOf('sodium hydroxide 50 % w/w 24.00 g'));
  for (const once of ['End of what is done: 4 of 4 operations', 'Label for the bottle', 'found by titration']) {
    expect(text.split(once), once).toHaveLength(2);
  }
  expect(text).toContain('page 1 of 1');
  await page.getByRole('link', { name: 'Back to Backweigh' }).click();
  await page.getByRole('heading', { name: 'Make a solution of sodium hydroxide' }).waitFor();
  expect(await wanted.inputValue()).toBe('100 mL of 3 mol/L');
  await page.getByRole('button', { name: 'Back to the plan' }).click();
  await page.getByRole('main', { name: 'Plan' }).waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});
