import { afterAll, beforeAll, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { everyState } from './stock-shelf.ts';
import { shellWords } from '../../src/core/words/shell-words.ts';
import { type Opened, openProgram } from './window.ts';

let opened: Opened;
let plan = 0;
beforeAll(async () => {
  opened = await openProgram();
  plan = await everyState(opened);
});
afterAll(() => opened.close());

async function line(page: Page, name: string) {
  const found = page.locator('.fetch-line').filter({ has: page.locator('.fetch-name', { hasText: name }) });
  const button = found.locator('.fetch-name');
  if ((await button.getAttribute('aria-expanded')) !== 'true') await button.click();
  return found;
}
const asked = async () => (await opened.call('plans.read', { id: plan })).ask;

test('every state says why, and what a bottle passed over would be worth', async () => {
  const { page, complaints } = await opened.page();
  const says = async (name: string, ...texts: readonly RegExp[]) => {
    const found = await line(page, name);
    const text = async (): Promise<string> => (await found.innerText()).replaceAll('\u00a0', ' ');
    for (const one of texts) await expect.poll(text).toMatch(one);
  };
  await says('sodium chloride', /enough/, /lot L-T3/);
  await says('sodium carbonate', /short/, /28\.1 g/, /lot L-T7: held back; its 60\.0 g would be enough/);
  await says(
    'citric acid',
    /out of date/,
    /past its date, 31 Mar 2025; its 80\.0 g would be enough once it is tested or purified/,
  );
  await says('hydrochloric acid', /unknown strength/, /its 100 g would be enough if it is as strong as asked for: titrate it/);
  await says('benzoin', /at least 99 % w\/w/, /assay too low, 97 % w\/w/);
  await says('urea', /short/, /its 20\.0 g alone would not be enough/, /its 15\.0 g alone would not be enough/);
  await says('sulfuric acid', /make up/, /take\s+33\.5 g/, /water\s+127\.4 g/);
  await page
    .getByText('sodium carbonate is short by 28.1 g over one step. A bottle held back would cover it: lot L-T7.')
    .waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('a bottle chosen or held back by hand stays so over a new amount, a reload and another plan, and is undone', async () => {
  const { page, complaints } = await opened.page();
  const salt = await line(page, 'sodium chloride');
  await salt.getByRole('button', { name: 'Use this bottle first: lot L-T2' }).click();
  // 12 g of the one chosen, and the rest of the other.
  await expect
    .poll(() => salt.locator('.fetch-bottles').innerText())
    .toMatch(/lot L-T2 12\.0\u00a0g[\s\S]*lot L-T3 6\.26\u00a0g/);
  await expect.poll(async () => (await asked()).useFirst).toEqual(['T2']);

  await salt.getByRole('button', { name: 'Hold back for this plan: lot L-T3' }).click();
  await salt.getByText('lot L-T3: held back; its 80.0\u00a0g would be enough').waitFor();
  await expect.poll(() => salt.innerText()).toMatch(/short/);
  await page.getByText('A bottle held back would cover it: lot L-T3.').waitFor();
  await expect.poll(async () => (await asked()).holdBack).toEqual(['T3']);

  // A make-up takes no bottle that is held back either.
  const lye = await line(page, '10 % w/w');
  await lye.getByRole('button', { name: 'Hold back for this plan: lot L-T4' }).click();
  await expect.poll(() => lye.innerText()).toMatch(/lot L-T4: held back/);
  await lye.getByRole('button', { name: 'No longer hold back: lot L-T4' }).click();
  await expect.poll(() => lye.innerText()).toMatch(/make up from neat, lot L-T4/);
  await expect.poll(async () => (await asked()).holdBack).toEqual(['T3']);

  await page.getByRole('textbox', { name: 'Amount of methyl benzoate' }).fill('0.1 mol');
  await line(page, 'sodium chloride');
  // 0.125 mol of salt: 7.30 g, all of it still from the bottle put first.
  await expect.poll(() => salt.locator('.fetch-bottles').innerText()).toMatch(/lot L-T2 7\.30\u00a0g[\s\S]*lot L-T3: held back/);
  await expect.poll(() => salt.innerText()).toMatch(/enough/);
  await expect.poll(async () => (await asked()).draws[0]?.amount).toBe(0.1);
  await page.getByRole('textbox', { name: 'Amount of methyl benzoate' }).fill('0.25 mol');
  await expect.poll(async () => (await asked()).draws[0]?.amount).toBe(0.25);

  await page.reload();
  await (await line(page, 'sodium chloride')).getByText('lot L-T3: held back').waitFor();
  // Another plan knows nothing of it, and this one still does after it.
  const now = await opened.call('plans.read', { id: plan });
  const other = await opened.call('plans.create', {
    routeId: now.routeId,
    ask: { name: 'Another', draws: [...now.ask.draws] },
  });
  const plans = page.getByRole('combobox', { name: shellWords.otherPlans });
  await plans.selectOption({ label: 'Another' });
  const elsewhere = await line(page, 'sodium chloride');
  await expect.poll(() => elsewhere.innerText()).toMatch(/enough[\s\S]*lot L-T3 18\.3/);
  await (await line(page, 'benzoic acid')).getByText('also counted on by Every state: 38.2\u00a0g').waitFor();
  expect((await opened.call('plans.read', { id: other.id })).ask.holdBack).toBeUndefined();
  await plans.selectOption({ label: 'Every state' });
  const again = await line(page, 'sodium chloride');
  await again.getByText('lot L-T3: held back').waitFor();
  await again.getByRole('button', { name: 'No longer hold back: lot L-T3' }).click();
  await expect.poll(() => again.innerText()).toMatch(/enough/);
  await page.keyboard.press('Control+z');
  await again.getByText('lot L-T3: held back').waitFor();

  // The bottle itself says who counts on it, the open plan first: 0.3125 mol of benzoic acid each.
  await page.keyboard.press('Control+3');
  await page.getByRole('searchbox').fill('L-T1');
  await page.getByRole('row', { name: /benzoic acid/ }).click();
  await page.getByText('Counted on by Every state: 38.2\u00a0g; Another: 38.2\u00a0g').waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});
