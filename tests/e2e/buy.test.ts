import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Opened, openProgram } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

test('a pack is typed, the least cover proposed, ordered, received into bottles, and its lot is found again', async () => {
  const { page, complaints } = await opened.page();
  await page.keyboard.press('Control+4');
  const row = page.getByRole('row', { name: /benzaldehyde/ });
  await row.waitFor();
  await row.locator('summary').click();
  const field = row.getByRole('textbox', { name: 'A pack of benzaldehyde' });
  await field.fill('500 mL at free, North Ltd');
  await row.getByRole('button', { name: 'Add pack' }).click();
  await row.getByText('a price needs to be a number').waitFor();
  expect(await field.inputValue()).toBe('500 mL at free, North Ltd');
  await field.fill('500 mL at 0.50, North Ltd, 3 days');
  await row.getByRole('button', { name: 'Add pack' }).click();
  await expect
    .poll(() => row.innerText())
    .toMatch(/1 × 500\u00a0mL\s+North Ltd, 0\.50, in 3 days\s+costs 0\.50 · .* left over · in 3 days/);

  const download = page.waitForEvent('download');
  await page.getByRole('complementary').getByRole('button', { name: 'Save as CSV' }).click();
  const csv = readFileSync(await (await download).path(), 'utf8');
  expect(csv.startsWith('\uFEFFmaterial,CAS number,form,short')).toBe(true);
  expect(csv).toMatch(/benzaldehyde,100-52-7,.*,1,500,mL,North Ltd,0\.5,0\.5,/);

  await row.getByRole('button', { name: 'Mark as ordered: benzaldehyde' }).click();
  await page.getByRole('status').getByText('Marked as ordered.').waitFor();
  await row.getByText('all of it is on order').waitFor();
  await page.reload();
  const order = page.getByRole('region', { name: 'On order' }).getByRole('listitem').filter({ hasText: 'benzaldehyde' });
  await order.getByText(/expected \d+ \w{3} \d{4}/).waitFor();
  await order.getByRole('textbox', { name: 'lot' }).fill('N-4711');
  await order.getByRole('textbox', { name: 'place' }).fill('solvents');
  await order.getByRole('button', { name: /^Receive/ }).click();
  await page
    .getByRole('status')
    .getByText(/On the shelf as B-\d+/)
    .waitFor();
  await expect.poll(() => page.getByRole('row', { name: /benzaldehyde/ }).count()).toBe(0);

  const lot = page.getByRole('region', { name: 'Where did a lot go?' });
  await lot.getByRole('textbox').fill('n-4711');
  await lot.getByRole('button', { name: 'Look' }).click();
  await lot.getByText('Nothing was taken from it.').waitFor();
  expect(await lot.innerText()).toContain('500 mL left · solvents'.replace(' mL', '\u00a0mL'));
  expect(complaints).toEqual([]);
  await page.context().close();
});
