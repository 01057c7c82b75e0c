import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from './accessible.ts';
import { type Opened, openProgram } from './window.ts';

const PLACES = [
  ['Control+1', 'Routes'],
  ['Control+2', 'Plan'],
  ['Control+3', 'Shelf'],
  ['Control+4', 'Buy'],
  ['Control+5', 'Bench'],
] as const;

/** What is folded away is held to the same as what is seen at once. */
async function openAllParts(page: Page): Promise<void> {
  await page.evaluate(() => {
    for (const part of document.querySelectorAll('main details')) part.toggleAttribute('open', true);
  });
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
}

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

async function expectWithin(page: Page, name: string): Promise<void> {
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(over, `${name} is too wide`).toBeLessThanOrEqual(0);
}

test.each([
  [1280, 800],
  [1920, 1080],
  [1024, 700],
  // 1280 × 800 at 200 % zoom.
  [640, 400],
  [2560, 1440],
])(
  'every place, %d × %d: no violation of WCAG 2.2 AA in light and dark, no complaint of the browser, nothing wider than the window',
  async (width, height) => {
    const { page, complaints } = await opened.page({ colorScheme: 'light', viewport: { width, height } });
    for (const [keys, name] of PLACES) {
      await page.keyboard.press(keys);
      await page.getByRole('main', { name }).waitFor();
      await openAllParts(page);
      expect(await violationsOn(page), name).toEqual([]);
      await expectWithin(page, name);
      // A theme is other colours (light-dark() in the style sheet) on the same elements in the same places.
      await page.emulateMedia({ colorScheme: 'dark' });
      await openAllParts(page);
      expect(await violationsOn(page, { rules: 'colours' }), `${name}, dark`).toEqual([]);
      await expectWithin(page, `${name}, dark,`);
      await page.emulateMedia({ colorScheme: 'light' });
    }
    expect(complaints).toEqual([]);
    await page.context().close();
  },
);

test.each(['forced colours', 'reduced motion'] as const)('with %s every place stays usable and passes', async (how) => {
  const { page, complaints } = await opened.page(
    how === 'forced colours' ? { forcedColors: 'active' } : { reducedMotion: 'reduce' },
  );
  for (const [keys, name] of PLACES) {
    await page.keyboard.press(keys);
    await page.getByRole('main', { name }).waitFor();
    // Forced colours are the person's own; axe judges by the colours of the style sheet, which are not shown.
    const without = how === 'forced colours' ? ['color-contrast'] : [];
    expect(await violationsOn(page, { without }), name).toEqual([]);
    if (how === 'reduced motion') expect(await page.evaluate(() => document.getAnimations().length), name).toBe(0);
  }
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('what was saved is there after the program was killed', async () => {
  const own = await openProgram(mkdtempSync(join(tmpdir(), 'backweigh-kill-')));
  const { page } = await own.page();
  const target = page.getByRole('textbox', { name: 'Amount of tetraphenylcyclopentadienone' });
  await target.fill('33 g');
  await target.press('Enter');
  await expect.poll(async () => (await own.call('plans.read', { id: 1 })).ask.draws[0]?.amount).toBe(33);
  await own.program.kill();
  await own.browser.close();
  const again = await openProgram(own.folder);
  expect((await again.call('plans.read', { id: 1 })).ask.draws[0]?.amount).toBe(33);
  await again.close();
});
