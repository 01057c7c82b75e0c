import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { openDatabase } from '../../src/main/store/database.ts';
import { by, sheetOf, taken } from '../core/run-fixture.ts';
import { violationsOn } from './accessible.ts';
import { type Opened, openProgram } from './window.ts';

/** Runs of the first step of the ready example, as they are written one by one. */
async function runsOfFirstStep(opened: Opened, yields: readonly (readonly [basis: number, product: number])[]): Promise<string> {
  const { route } = await opened.call('routes.read', { id: 1 });
  const step = route.steps[0]?.id ?? '';
  for (const [basis, grams] of yields) {
    const { id } = await opened.call('runs.start', { planId: 1, state: 1, sheet: { ...sheetOf(), step }, by });
    const weighed = taken('benzoin', basis, { moles: basis / 212.248 }) as never;
    await opened.call('runs.add', { id, after: 1, entry: weighed });
    const product = {
      kind: 'product',
      by,
      crop: 1,
      grams,
      wet: true,
      assayPercent: 98,
      place: '',
      text: '',
      bottle: null,
    } as const;
    await opened.call('runs.add', { id, after: 2, entry: product });
    await opened.call('runs.add', { id, after: 3, entry: { kind: 'remark', by, words: 'yellow needles' } });
    await opened.call('runs.add', { id, after: 4, entry: { kind: 'finished', by } });
  }
  return step;
}

/** Goes to the first step of the plan by the keyboard. */
async function firstStep(page: Page): Promise<void> {
  const title = page.locator('.step-head h1');
  for (let press = 0; press < 6 && !(await title.textContent())?.startsWith('1 '); press += 1) {
    await page.keyboard.press('Alt+ArrowUp');
  }
}

test('a byte of a record that was changed while the program was closed is said when it opens, and where', async () => {
  const own = await openProgram(mkdtempSync(join(tmpdir(), 'backweigh-byte-')));
  await runsOfFirstStep(own, [[10, 6.1]]);
  await own.browser.close();
  await own.program.kill();
  const file = join(own.folder, 'backweigh.db');
  const database = openDatabase(file);
  database.pragma('wal_checkpoint(TRUNCATE)');
  database.close();
  const bytes = readFileSync(file);
  const at = bytes.indexOf('yellow needles');
  expect(at).toBeGreaterThan(0);
  bytes.write('yellow noodles', at, 'utf8');
  writeFileSync(file, bytes);

  const again = await openProgram(own.folder);
  const { page } = await again.page();
  await page.getByText('The record of a run was changed outside this program: run 1 (sheet 1-1) at entry 4.').waitFor();
  expect(await violationsOn(page)).toEqual([]);
  await page.keyboard.press('Control+5');
  await page.getByRole('button', { name: 'Open the record of sheet 1-1' }).click();
  await page.getByRole('heading', { name: 'Who is weighing?' }).waitFor();
  await page.keyboard.type('AB');
  await page.keyboard.press('Enter');
  await page.getByText('Nothing more is written into it.').waitFor();
  await again.close();
});

test('a step shows what its runs yielded; the plan follows them only when it is told to, and undo takes it back', async () => {
  const own = await openProgram(mkdtempSync(join(tmpdir(), 'backweigh-learn-')));
  const runs = [
    [10, 6.1],
    [10.2, 5.7],
    [21, 13.1],
    [50, 33],
  ] as const;
  const step = await runsOfFirstStep(own, runs);
  for (const colorScheme of ['light', 'dark'] as const) {
    const { page, complaints } = await own.page({ colorScheme, viewport: { width: 1280, height: 800 } });
    await firstStep(page);
    await page.getByText('Yields of its 4 runs').click();
    await page.getByRole('img', { name: 'Yields of 4 runs, and against the amount of basis' }).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.context().close();
  }
  const { page } = await own.page();
  await firstStep(page);
  await page.getByText('Yields of its 4 runs').click();
  expect((await own.call('plans.read', { id: 1 })).ask.learned).toBeUndefined();
  await page.getByLabel('How much run 4 counts').selectOption('0');
  await page.getByRole('button', { name: 'Plan with these runs' }).click();
  await page.getByText(/learned from 3 runs and frozen with this plan/).waitFor();
  const learned = async () => (await own.call('plans.read', { id: 1 })).ask.learned?.[step]?.map((one) => one.weight);
  await expect.poll(learned).toEqual([1, 1, 1, 0]);
  // By the closed form, with the entered 55 % as one run more.
  const logits = [0.55, ...runs.slice(0, 3).map(([basis, grams]) => (grams * 0.98) / ((basis / 212.248) * 210.232))];
  const centre = logits.reduce((sum, one) => sum + Math.log(one / (1 - one)), 0) / logits.length;
  await page.getByText(`Planned with ${(100 / (1 + Math.exp(-centre))).toPrecision(3)} %`).waitFor();
  // A further run changes nothing of this plan; it is said, and counts when the person refreshes.
  const planned = page.getByText(`Planned with ${(100 / (1 + Math.exp(-centre))).toPrecision(3)} %`);
  await runsOfFirstStep(own, [[10, 9]]);
  await page.getByText('One run is newer than this plan’s yield').waitFor();
  expect([await learned(), await planned.isVisible()]).toEqual([[1, 1, 1, 0], true]);
  await page.getByRole('button', { name: 'Refresh from these runs' }).click();
  await expect.poll(learned).toEqual([1, 1, 1, 0, 1]);
  await planned.waitFor({ state: 'detached' });
  await page.keyboard.press('Control+z');
  await expect.poll(learned).toEqual([1, 1, 1, 0]);
  await planned.waitFor();
  await page.keyboard.press('Control+z');
  await expect.poll(learned).toBeUndefined();

  // A plan made anew learns from every run.
  await page.keyboard.press('Control+1');
  await page
    .getByRole('button', { name: /Benzil for the practicals/ })
    .first()
    .click();
  await page.getByRole('button', { name: 'Plan this route' }).click();
  await page.getByRole('main', { name: 'Plan' }).waitFor();
  const made = await own.call('plans.read', { id: 2 });
  expect(made.ask.learned?.[step]?.map((one) => [one.run, one.weight])).toEqual([
    [1, 1],
    [2, 1],
    [3, 1],
    [4, 1],
    [5, 1],
  ]);
  await own.close();
});
