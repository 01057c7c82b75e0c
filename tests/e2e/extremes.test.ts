import { afterAll, beforeAll, expect, test } from 'vitest';
import { draw, route, step } from '../core/build.ts';
import { type Opened, openProgram } from './window.ts';

// The ends of what can be asked for, in the window: a hundred tonnes, a microgram, a flask that keeps all it makes, a loop.

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

const F = 'C10H10O2';
const extra = { lossPerBatch: { grams: 0.95, reason: 'film' }, batchLimit: { grams: 1, reason: 'small flask' } };
const film = route({ a: F, b: F }, [step({ id: '1', basis: 'a', product: 'b', yieldPercent: 90, extra })]);
const loop = route({ S: 'C6H12', P: 'C6H12', Q: 'C6H12', T: 'C6H12' }, [
  step({ id: 'make', basis: 'S', product: 'P', yieldPercent: 90, equivalents: { Q: 0.8019 } }),
  step({ id: 'turn', basis: 'P', product: 'Q', yieldPercent: 90 }),
  step({ id: 'end', basis: 'P', product: 'T', yieldPercent: 95 }),
]);

/** A plan of a route, the newest: the one the window opens with. */
async function planned(of: typeof film, name: string, wanted: ReturnType<typeof draw>): Promise<void> {
  const { id } = await opened.call('routes.import', { text: JSON.stringify({ ...of, name }) });
  await opened.call('plans.create', { routeId: id, ask: { name, draws: [wanted] } });
}

test('100 t and 1 µg stand in t and µg on the cascade, on the fetch list and in the step', async () => {
  const { page, complaints } = await opened.page();
  const target = page.getByRole('textbox', { name: 'Amount of tetraphenylcyclopentadienone' });
  const fetched = page.getByRole('region', { name: 'Fetch list' });
  await target.fill('100 t');
  await target.press('Enter');
  await expect.poll(() => page.getByRole('button', { name: /^Step 1, / }).getAttribute('aria-label')).toContain('116.1 t');
  await expect.poll(() => fetched.textContent()).toContain('116.1 t of benzaldehyde');
  await expect.poll(() => fetched.getByRole('listitem').filter({ hasText: 'nitric acid' }).textContent()).toMatch(/255\s*m³/);
  await expect.poll(() => page.getByText(/the reaction would fill the 10 L flask 44.0 times over/).count()).toBeGreaterThan(0);
  await target.fill('1 µg');
  await target.press('Enter');
  await expect
    .poll(() => fetched.getByRole('listitem').filter({ hasText: '1,3-diphenylacetone' }).textContent())
    // What goes in cannot be weighed: what is dissolved for it is fetched.
    .toMatch(/0\.1500\s*g/);
  await expect.poll(() => page.getByText(/0\.594\s*µg/).count()).toBeGreaterThan(0);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('a flask that keeps all a batch makes: why, what would help, and no amounts', async () => {
  await planned(film, 'a film', draw('b', 1));
  const { page, complaints } = await opened.page();
  await page.getByText('The plan cannot be worked out as it stands.').waitFor();
  expect(await page.getByText(/“Step 1” gives nothing, in however many batches/).count()).toBeGreaterThan(0);
  expect(await page.getByRole('region', { name: 'Fetch list' }).textContent()).toContain('Not known while the plan cannot');
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('what a loop needs in hand is fetched and bought, and said to come back', async () => {
  await planned(loop, 'a loop', draw('T', 10));
  const { page, complaints } = await opened.page();
  const line = page.getByRole('region', { name: 'Fetch list' }).getByRole('listitem').filter({ hasText: 'Q' });
  await expect.poll(() => line.textContent()).toMatch(/938\s*g/);
  await page.keyboard.press('Control+4');
  const bought = page.getByRole('row').filter({ hasText: 'these steps feed each other' });
  await expect.poll(() => bought.textContent()).toMatch(/Q.*938\s*g.*938\s*g needed/);
  expect(complaints).toEqual([]);
  await page.context().close();
});
