import { AxeBuilder } from '@axe-core/playwright';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
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

describe.each(['light', 'dark'] as const)('every place, %s', (colorScheme) => {
  test.each([
    [1280, 800],
    [1920, 1080],
    [1024, 700],
    // 1280 × 800 at 200 % zoom.
    [640, 400],
    [2560, 1440],
  ])(
    '%d × %d: no violation of WCAG 2.2 AA, no complaint of the browser, nothing wider than the window',
    async (width, height) => {
      const { page, complaints } = await opened.page({ colorScheme, viewport: { width, height } });
      for (const [keys, name] of PLACES) {
        await page.keyboard.press(keys);
        await page.getByRole('main', { name }).waitFor();
        await openAllParts(page);
        const { violations } = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']).analyze();
        expect(
          violations.map((one) => `${name}: ${one.id} ${one.nodes[0]?.html}`),
          name,
        ).toEqual([]);
        expect(
          await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
          `${name} is too wide`,
        ).toBeLessThanOrEqual(0);
      }
      expect(complaints).toEqual([]);
      await page.context().close();
    },
  );
});

test.each(['forced colours', 'reduced motion'] as const)('with %s every place stays usable and passes', async (how) => {
  const { page, complaints } = await opened.page(
    how === 'forced colours' ? { forcedColors: 'active' } : { reducedMotion: 'reduce' },
  );
  for (const [keys, name] of PLACES) {
    await page.keyboard.press(keys);
    await page.getByRole('main', { name }).waitFor();
    const axe = new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']);
    // Forced colours are the person's own; axe judges by the colours of the style sheet, which are not shown.
    if (how === 'forced colours') axe.disableRules(['color-contrast']);
    const { violations } = await axe.analyze();
    expect(violations.map((one) => `${name}: ${one.id} ${one.nodes[0]?.html}`)).toEqual([]);
    if (how === 'reduced motion') expect(await page.evaluate(() => document.getAnimations().length), name).toBe(0);
  }
  expect(complaints).toEqual([]);
  await page.context().close();
});

describe('the window', () => {
  test('is usable within a second of its host being up', async () => {
    const context = await opened.browser.newContext({ viewport: { width: 1280, height: 800 } });
    const page = await context.newPage();
    await page.goto(`${opened.program.origin}/nothing-here`);
    const start = performance.now();
    await page.goto(opened.program.address);
    await page
      .getByRole('textbox', { name: /^Amount of/ })
      .first()
      .waitFor();
    const took = performance.now() - start;
    console.log(`usable after ${took.toFixed(0)} ms`);
    // Two cores shared with other tests: the promise is one second; the test allows for the neighbours.
    expect(took).toBeLessThan(3000);
    await context.close();
  });

  test('a keystroke in the target draws the new amounts in the same frame it is typed in', async () => {
    const { page } = await opened.page();
    const { took, kept } = await page
      .getByRole('textbox', { name: /^Amount of/ })
      .first()
      .evaluate(async (found) => {
        const field = found as HTMLInputElement;
        const start = (): string => document.querySelector('[aria-label^="Step 1,"]')?.getAttribute('aria-label') ?? '';
        const times: number[] = [];
        let kept = 0;
        for (let grams = 21; grams < 41; grams += 1) {
          field.value = `${grams} g`;
          const before = start();
          const began = performance.now();
          field.dispatchEvent(new InputEvent('input', { bubbles: true }));
          await new Promise((done) => requestAnimationFrame(done));
          times.push(performance.now() - began);
          if (start() === before) kept += 1;
        }
        return { took: times.sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN, kept };
      });
    console.log(`median from keystroke to frame: ${took.toFixed(1)} ms`);
    expect(kept).toBe(0);
    // Speed is measured in tests/bench; here only what no neighbour on the machine explains.
    expect(took).toBeLessThan(200);
    await page.context().close();
  });

  test('what was saved is there after the program was killed', async () => {
    const own = await openProgram(mkdtempSync(join(tmpdir(), 'backweigh-kill-')));
    const { page } = await own.page();
    const target = page.getByRole('textbox', { name: 'Amount of tetraphenylcyclopentadienone' });
    await target.fill('33 g');
    await target.press('Enter');
    await expect.poll(async () => (await own.call('plans.read', { id: 1 })).ask.draws[0]?.amount).toBe(33);
    own.program.process.kill('SIGKILL');
    await own.browser.close();
    const again = await openProgram(own.folder);
    expect((await again.call('plans.read', { id: 1 })).ask.draws[0]?.amount).toBe(33);
    await again.close();
  });
});
