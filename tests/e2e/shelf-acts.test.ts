import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from './accessible.ts';
import { type Opened, openProgram } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

test('bottles are narrowed, chosen with the keys and changed together; one is weighed, split and put right', async () => {
  const { page, complaints } = await opened.page();
  await page.keyboard.press('Control+3');
  await page.getByRole('main', { name: 'Shelf' }).waitFor();
  const status = page.locator('.shelf-head [role=status]');

  await page.getByLabel('state', { exact: true }).selectOption('out of date');
  await expect.poll(() => status.textContent()).toMatch(/^\d+ bottles? found$/);
  const stale = await opened.call('shelf.list', {
    search: '',
    from: 0,
    count: 100,
    sort: 'name',
    filter: { state: 'out of date' },
  });
  await expect.poll(() => page.locator('.bottle-row').count()).toBe(stale.total);
  await page.getByText('Show all').click();
  await page.getByRole('searchbox').fill('benzl');
  await expect.poll(() => status.textContent()).toContain('nearly: benz');
  await page.getByRole('searchbox').fill('');
  await expect.poll(() => page.locator('.bottle-row').count()).toBeGreaterThan(stale.total);

  await page.getByRole('grid', { name: 'Bottles on the shelf' }).focus();
  for (const key of ['Space', 'ArrowDown', 'Space']) await page.keyboard.press(key);
  await page.getByText('2 bottles chosen').waitFor();
  await page.getByText('Change place or dates').click();
  const many = page.getByRole('form', { name: 'Change 2 bottles' });
  await many.getByLabel('place').fill('drawer 9');
  await many.getByRole('button', { name: 'Change 2 bottles' }).click();
  await page.getByText('2 bottles changed.').waitFor();
  expect((await opened.call('shelf.places', {})).find((one) => one.place === 'drawer 9')?.bottles).toBe(2);
  expect(await violationsOn(page, { rules: 'every rule' })).toEqual([]);

  const [bottle] = (await opened.call('shelf.list', { search: 'drawer 9', from: 0, count: 9, sort: 'name' })).rows;
  const id = bottle?.id ?? '';
  await page.getByRole('row').filter({ hasText: 'drawer 9' }).first().click();
  await page.getByLabel('empty bottle with cap, g').fill('100');
  await page.keyboard.press('Enter');
  await page.getByText('Weigh the bottle').click();
  await page.getByLabel('bottle with cap on the balance, g').fill('112.5');
  await page.getByRole('button', { name: 'Record what is left' }).click();
  await expect.poll(async () => (await opened.call('shelf.bottle', { id })).bottle.left).toBe(12.5);
  await page.getByText('Split into another bottle').click();
  await page.getByLabel('how much goes over').fill('2.5 g');
  await page.getByRole('button', { name: 'Split it' }).click();
  await expect.poll(async () => (await opened.call('shelf.bottle', { id })).bottle.left).toBe(10);
  // The new bottle is opened.
  await expect.poll(() => page.getByRole('button', { name: 'Split it' }).count()).toBe(0);

  // The button that undid it is gone: the keys go on at the one that brings it back.
  const isAt = (): Promise<string | null> => page.evaluate(() => document.activeElement?.closest('table, ol')?.className ?? null);
  await page.getByLabel('how much was used').fill('0.5 g');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Undo: used −0.5 g' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Undo: undone +0.5 g' }).waitFor();
  await expect.poll(isAt).toBe('ledger');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Undo: undone −0.5 g' }).press('Enter');
  await page.getByRole('button', { name: 'Undo: undone −0.5 g' }).waitFor({ state: 'detached' });
  await expect.poll(isAt).toBe('ledger');

  await page.getByText('Entered wrong').click();
  await page.getByLabel('lot', { exact: true }).fill('the right lot');
  const place = page.getByRole('button', { name: /^Put it in the place of/ });
  await place.click();
  await expect
    .poll(async () => (await opened.call('shelf.list', { search: 'right lot', from: 0, count: 9, sort: 'name' })).rows[0]?.left)
    .toBe(2.5);
  // The right one is open; closed with the keys, they are in the list again.
  await page.getByRole('heading', { level: 1 }).last().focus();
  await page.keyboard.press('Escape');
  await expect.poll(() => page.evaluate(() => document.activeElement?.getAttribute('role'))).toBe('grid');
  expect(complaints).toEqual([]);
});
