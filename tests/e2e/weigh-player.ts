// A simulated balance and a patient person, for tests that need a run to be played through.
import type { Page } from 'playwright';
import { expect } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import type { Opened } from './window.ts';

/** A line as a balance or a person types it, into the one field. */
export async function typeLine(page: Page, text: string): Promise<void> {
  await page.locator('.weigh-field[aria-busy=false]').focus();
  await page.keyboard.press('Control+a');
  // An Enter alone, straight after another, is the second end of the same line.
  if (text === '') await page.waitForTimeout(120);
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

/** Begins the weighing of a sheet from the Bench, up to what is read first. */
export async function beginSheet(page: Page, sheet: string, by: string): Promise<void> {
  await page.keyboard.press('Control+5');
  await page.getByRole('button', { name: `Weigh sheet ${sheet}` }).click();
  await page.getByRole('heading', { name: 'Who is weighing?' }).waitFor();
  await typeLine(page, by);
  await page.getByRole('heading', { name: 'Read first' }).waitFor();
}

/** Whatever a run asks is answered as planned, up to its product. */
export async function playToProduct(opened: Opened, page: Page, run: number, by: string): Promise<void> {
  let before = '';
  for (let round = 0; round < 80; round += 1) {
    if (await page.getByRole('textbox', { name: /Mass of the product/ }).isVisible()) return;
    const label = (await page.locator('.weigh-line label').textContent()) ?? '';
    const target = page.locator('.weigh-target');
    const amount = (await target.count()) > 0 ? ((await target.textContent()) ?? '').replaceAll('\u00a0', ' ').trim() : '';
    const line = label.includes('initials') ? by : label.startsWith('Enter') ? '' : amount;
    // The same line at once again would be a balance that prints twice.
    if (line === before) await page.waitForTimeout(900);
    before = line;
    const { length } = (await opened.call('runs.read', { id: run })).entries;
    await typeLine(page, line);
    await expect.poll(async () => (await opened.call('runs.read', { id: run })).entries.length).toBe(length + 1);
    await page
      .getByText(`${length + 1} of ${length + 1} entries`)
      .first()
      .waitFor({ state: 'attached' });
  }
  throw new Error('the sheet did not come to its product');
}

/** The entries of the first run. */
export const entriesOf = async (opened: Opened): Promise<readonly RunEntry[]> =>
  (await opened.call('runs.read', { id: 1 })).entries.map((one) => one.entry);

/** Does something and waits until one more entry is written; gives the entry. */
export async function writes(opened: Opened, page: Page, act: () => Promise<void>): Promise<RunEntry> {
  const before = (await entriesOf(opened)).length;
  await act();
  await expect.poll(async () => (await entriesOf(opened)).length).toBe(before + 1);
  // The window shows it: what is typed next is meant for what stands there then.
  await page
    .getByText(`${before + 1} of ${before + 1} entries`)
    .first()
    .waitFor({ state: 'attached' });
  return (await entriesOf(opened)).at(-1) ?? expect.fail();
}
