import { expect, test } from 'vitest';
import { type Opened, openProgram } from './window.ts';
import { beginSheet, playToProduct, typeLine } from './weigh-player.ts';

/** The bottle of step 1 is past its date in the ready example: it is tested. */
async function testBasis(own: Opened): Promise<void> {
  const { today } = await own.call('program.about', {});
  await own.call('shelf.test', { id: 'B03', done: 'tested', on: today, useBy: '2099-01-01', remark: 'colourless' });
}

test('a run that gave nothing, the step again by the same person, a little too little: each way on says what it changes, one is taken and undone', async () => {
  const own = await openProgram();
  await testBasis(own);
  const { page, complaints } = await own.page();
  const amounts = async () => (await own.call('plans.read', { id: 1 })).ask.draws.map((one) => one.amount);
  await beginSheet(page, '1-1', 'AB');
  await playToProduct(own, page, 1, 'AB');
  await page.getByRole('button', { name: 'Nothing was obtained' }).click();
  // Against the batch as planned, all of it is started again.
  const keep = page.locator('.weigh-proposal', { hasText: 'Keep every draw and repeat the step for 19.65 g benzoin' });
  await keep.waitFor();
  await expect.poll(() => keep.locator('tbody tr').first().innerText()).toMatch(/benzaldehyde\s+0 g[\s\S]*35\.7 g/);
  expect((await own.call('runs.list', { planId: 1 }))[0]).toMatchObject({ yieldPercent: 0, productGrams: 0, bottles: [] });
  await page.keyboard.press('F7');
  await page.getByRole('button', { name: 'Back to the bench' }).waitFor();
  await page.keyboard.press('Escape');

  // Who weighed before weighs again: Enter says so, and another could be typed.
  await page.getByRole('button', { name: 'Weigh sheet 1-1' }).click();
  await page.getByText('Initials (Enter: AB)').waitFor();
  await typeLine(page, '');
  await page.getByRole('heading', { name: 'Read first' }).waitFor();
  expect((await own.call('runs.read', { id: 2 })).entries[0]?.entry).toEqual({ kind: 'started', by: 'AB' });
  await playToProduct(own, page, 2, 'AB');
  await page.getByRole('textbox', { name: /Mass of the product/ }).fill('12.00 g');
  await page.getByRole('button', { name: 'Record the product' }).click();
  const scale = page.getByRole('button', { name: 'Take this: Scale the rest: every draw to 70.7 %' });
  await scale.waitFor();
  // Each way stands in a frame of its own with one button below its own words; one that changes nothing says so.
  const ways = page.locator('.weigh-proposal');
  await expect.poll(() => ways.count()).toBeGreaterThan(2);
  for (const way of await ways.all()) {
    const title = (await way.getByRole('heading').textContent()) ?? '';
    const button = way.getByRole('button', { name: `Take this: ${title}` });
    const stays = way.getByText('Nothing to press: the plan stays as it is');
    expect([title, (await button.count()) + (await stays.count())]).toEqual([title, 1]);
    if ((await button.count()) === 0) continue;
    const [own, below] = [await way.getByRole('heading').boundingBox(), await button.boundingBox()];
    expect([title, Math.round((below?.x ?? 0) - (own?.x ?? 0))]).toEqual([title, 0]);
    expect((below?.y ?? 0) - (own?.y ?? 0) - (own?.height ?? 0)).toBeLessThan(24);
  }
  await page.getByText('the batch it asks for is on the Bench').waitFor();
  expect(await amounts()).toEqual([20, 12, 2]);
  await scale.click();
  await page.getByRole('main', { name: 'Plan' }).waitFor();
  await expect.poll(amounts).toEqual([14.136, 8.4816, 1.4136]);
  await page.keyboard.press('Control+z');
  await expect.poll(amounts).toEqual([20, 12, 2]);
  expect(complaints).toEqual([]);
  await own.close();
});

test('a batch that gave what its sheet says leaves no batch of milligrams, on the Bench or on any paper', async () => {
  const own = await openProgram();
  await testBasis(own);
  const { page, complaints } = await own.page();
  await beginSheet(page, '1-1', 'AB');
  await playToProduct(own, page, 1, 'AB');
  // The sheet says 19.65 g; the plan reckons with 19.6514 g.
  await page.getByRole('textbox', { name: /Mass of the product/ }).fill('19.65 g');
  await page.getByRole('button', { name: 'Record the product' }).click();
  await page.locator('.weigh-proposal').first().waitFor();
  await expect.poll(() => page.locator('.weigh-proposal').count()).toBe(1);

  // Basis that was got back, by keys alone, weighed in its bottle: apart from the yield, and on the shelf as what it is.
  const yieldOf = async () => (await own.call('runs.list', { planId: 1 }))[0]?.yieldPercent;
  const before = await yieldOf();
  await page.getByRole('button', { name: 'Basis got back: benzaldehyde' }).focus();
  await page.keyboard.press('Enter');
  const mass = page.getByRole('textbox', { name: /Mass of benzaldehyde got back/ });
  await expect.poll(() => mass.evaluate((field) => field === document.activeElement)).toBe(true);
  await page.keyboard.type('T 12.00 g');
  await page.keyboard.press('Enter');
  await page.getByText('tare 12.00 g: now the gross').waitFor();
  await page.keyboard.type('14.50 g');
  await page.keyboard.press('Enter');
  await page.keyboard.type('99');
  await page.keyboard.press('Enter');
  // 2.50 · 0.99 = 2.475 g.
  await page.locator('.weigh-outcome').getByText('basis got back, contained').waitFor();
  expect(await page.locator('.weigh-outcome').innerText()).toMatch(/basis got back, contained\s+2\.4750/);
  const entry = (await own.call('runs.read', { id: 1 })).entries.at(-1)?.entry;
  expect(entry).toMatchObject({ kind: 'recovered', tare: 12, gross: 14.5, grams: 2.5, assayPercent: 99 });
  const shelf = await own.call('shelf.bottle', { id: (entry?.kind === 'recovered' && entry.bottle) || '' });
  expect(shelf.bottle).toMatchObject({ left: 2.5, material: { name: 'benzaldehyde' } });
  expect(await yieldOf()).toBe(before);
  await page.keyboard.press('F7');
  await page.getByRole('button', { name: 'Back to the bench' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Weigh sheet 2-1' }).waitFor();
  await expect.poll(() => page.getByRole('button', { name: 'Weigh sheet 1-1' }).count()).toBe(0);
  await page.getByRole('button', { name: 'Choose all batches' }).click();
  await expect.poll(() => page.locator('.bench-batch input:checked').count()).toBe(4);
  expect(complaints).toEqual([]);
  await own.close();
});
