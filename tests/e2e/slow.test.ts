// Keys typed before the next picture is drawn, and before the store has answered, do what they say.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { type Opened, openProgram } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened?.close());

const slowPage = (): ReturnType<Opened['page']> => opened.page({}, 'frames,answers');

test('a row of an import is opened by keys as soon as its list is there', async () => {
  const { page, complaints } = await slowPage();
  const path = join(opened.folder, 'rows.csv');
  writeFileSync(
    path,
    'Label;Substance;CAS;Amount\r\nR1;benzil;134-81-6;5 g\r\nR2;benzil;119-53-9;5 g\r\nR3;benzil;119-53-9;6 g\r\n',
  );
  await page.keyboard.press('Control+3');
  page.on('filechooser', (chooser) => void chooser.setFiles(path));
  await page.keyboard.press('Control+K');
  await page.getByRole('combobox', { name: 'Type what you want to do' }).fill('take a file');
  await page.getByRole('option', { name: /^Take a file onto the shelf/ }).click();
  const rows = page.getByRole('grid', { name: 'Rows of the file' });
  await rows.getByText('benzil').first().waitFor();
  // In one go, as a quick hand does: only the refused, one down, open.
  await page.evaluate(async () => {
    const before = document.querySelector('.import-list');
    [...document.querySelectorAll<HTMLElement>('.import-count')].find((one) => one.textContent?.startsWith('refused'))?.click();
    for (let turn = 0; turn < 100 && document.querySelector('.import-list') === before; turn += 1) await Promise.resolve();
    for (const key of ['ArrowDown', 'Enter'])
      document.querySelector('.import-list')?.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true }));
  });
  await page.getByRole('region', { name: 'Row 4' }).waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('a field of a page that has just come keeps the focus', async () => {
  const { page } = await slowPage();
  await page.getByRole('button', { name: 'how to make sodium hydroxide 3 mol/L' }).waitFor();
  await page.evaluate(async () => {
    const field = (): HTMLElement | null =>
      document.querySelector<HTMLElement>('.make-solution input[type=text], main form input');
    document.querySelector<HTMLElement>('[aria-label="how to make sodium hydroxide 3 mol/L"]')?.click();
    for (let turn = 0; turn < 100 && !field(); turn += 1) await Promise.resolve();
    field()?.focus();
  });
  await page.waitForTimeout(600);
  expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe('wanted');
  await page.context().close();
});

test('an operation is moved twice by two quick keys', async () => {
  const { page } = await slowPage();
  await page.getByRole('columnheader', { name: 'take' }).waitFor();
  await page.keyboard.press('Alt+e');
  const handles = page.getByTitle(/^Drag .* to another place of the step/);
  await handles.first().waitFor();
  const order = (): Promise<readonly (string | null)[]> =>
    handles.evaluateAll((all) => all.map((one) => one.getAttribute('title')));
  const before = await order();
  await page.getByRole('button', { name: 'Edit ethanol', exact: true }).focus();
  await page.evaluate(async () => {
    for (let key = 0; key < 2; key += 1) {
      const down = { key: 'ArrowUp', altKey: true, bubbles: true, cancelable: true };
      document.activeElement?.dispatchEvent(new KeyboardEvent('keydown', down));
      await new Promise((done) => {
        const { port1, port2 } = new MessageChannel();
        port1.addEventListener('message', done);
        port1.start();
        port2.postMessage(null);
      });
    }
  });
  await expect.poll(order).toEqual([before[2], before[0], before[1], ...before.slice(3)]);
  await page.context().close();
});

test('letters typed straight after Ctrl+K stand in the list of commands', async () => {
  const { page } = await slowPage();
  await page.keyboard.press('Control+K');
  await page.keyboard.type('go to bench');
  await page.keyboard.press('Enter');
  await page.getByRole('main', { name: 'Bench' }).waitFor();
  await page.context().close();
});
