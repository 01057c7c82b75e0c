import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { violationsOn } from './accessible.ts';
import { type Opened, openProgram } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

const INVENTORY = [
  'Label;Substance;CAS;Purity;Amount;Shelf;Best before',
  'N1;benzil;134-81-6;98;12,5 g;C2;2029-01-31',
  'N2;ethanol;64-17-5;;2,5 L;solvents;31.12.2028',
  'N3;benzil;119-53-9;;5 g;C2;',
  'N4;ethyl acetate;141-78-6;;1,250 L;solvents;03/04/2028',
];

function fileOf(name: string, content: string | Buffer): string {
  const path = join(opened.folder, name);
  writeFileSync(path, content);
  return path;
}

/** A page that is ready for a file to be chosen: the browser must know before the key is pressed. */
async function openPage(options: Parameters<Opened['page']>[0] = {}): ReturnType<Opened['page']> {
  const made = await opened.page(options);
  made.page.on('filechooser', () => {});
  return made;
}

/** Chooses a file by the command list: keys only. */
async function takeIn(page: Page, path: string): Promise<void> {
  await page.keyboard.press('Control+K');
  await page.getByRole('combobox', { name: 'Type what you want to do' }).waitFor();
  await page.keyboard.type('take a file');
  await page.getByRole('option', { name: /^Take a file onto the shelf/ }).waitFor();
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
  await chooser.setFiles(path);
}

/** Walks with Tab to what has this name, as somebody without a mouse does. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let step = 0; step < 80; step += 1) {
    await page.keyboard.press('Tab');
    const here = await page.evaluate(() => {
      const at = document.activeElement;
      return at?.getAttribute('aria-label') ?? at?.textContent ?? '';
    });
    if (name.test(here)) return;
  }
  throw new Error(`no way by Tab to ${name}`);
}

async function expectAccessible(page: Page): Promise<void> {
  expect(await violationsOn(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)).toBeLessThanOrEqual(0);
}

const counts = (page: Page): Promise<string[]> => page.locator('.import-count').allTextContents();

test('a table comes to the shelf by keyboard alone: every fate seen, a question answered, written', async () => {
  const { page, complaints } = await openPage();
  await takeIn(page, fileOf('inventory.csv', `\ufeff${INVENTORY.join('\r\n')}\r\n`));
  const rows = page.getByRole('grid', { name: 'Rows of the file' });
  await rows.getByText('benzil').first().waitFor();
  await expect.poll(() => counts(page)).toEqual(['all4', 'new2', 'update0', 'duplicate0', 'refused2']);
  await expectAccessible(page);

  await rows.getByText('ethyl acetate').waitFor();
  const shown = await rows.getByRole('row').count();
  await tabTo(page, /^refused/);
  await page.keyboard.press('Enter');
  // The rows are read anew: a key before that would open one of those that are going.
  await expect.poll(() => rows.getByRole('row').count()).toBe(shown - 2);
  await tabTo(page, /^Rows of the file/);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  const detail = page.getByRole('region', { name: 'Row 5' });
  await detail.waitFor();
  // Three reasons, one row each but for the amount's and the day's, which are of one row.
  const reasons = page.getByRole('list', { name: /^Why rows are refused/ });
  await reasons.getByRole('button', { name: /^1 CAS: this CAS number belongs to benzoin/ }).click();
  await expect.poll(() => rows.getByRole('row').count()).toBe(2);
  await reasons.getByRole('button', { name: /^1 CAS/ }).click();
  await expect.poll(() => rows.getByRole('row').count()).toBe(3);
  await rows.getByText('ethyl acetate').click();
  await detail.waitFor();
  expect(await detail.innerText()).toMatch(/Amount, “1,250 L”:\s+is 1,250 a decimal or thousands/);
  expect(await detail.innerText()).toMatch(
    /Best before, “03\/04\/2028”:\s+is 03\/04\/2028 written with the day or the month first/,
  );
  await expectAccessible(page);

  // The answers: this column has decimal commas, and in that one the day comes first.
  await page.getByLabel('decimal sign in “Amount”').focus();
  await page.keyboard.type('decimal comma');
  await page.getByLabel('order of days in “Best before”').focus();
  await page.keyboard.type('day');
  await expect.poll(() => counts(page)).toEqual(['all4', 'new3', 'update0', 'duplicate0', 'refused1']);

  // Leaving a column out and taking it back loses nothing else that was said.
  await page.getByLabel('what “Purity” is').focus();
  await page.keyboard.press('Home');
  await expect.poll(() => page.getByLabel('what “Purity” is').inputValue()).toBe('');
  await page.keyboard.type('assay');
  await expect.poll(() => page.getByLabel('what “Purity” is').inputValue()).toBe('assay');
  expect(await page.getByLabel('decimal sign in “Amount”').inputValue()).toBe('comma');
  await expect.poll(() => counts(page)).toEqual(['all4', 'new3', 'update0', 'duplicate0', 'refused1']);

  const [refused] = await Promise.all([
    page.waitForEvent('download'),
    tabTo(page, /^Save the refused/).then(() => page.keyboard.press('Enter')),
  ]);
  expect(refused.suggestedFilename()).toBe('inventory-refused.csv');
  expect(readFileSync(await refused.path(), 'utf8')).toMatch(
    /N3,benzil,119-53-9,,5 g,C2,,4,CAS: this CAS number belongs to benzoin/,
  );

  await tabTo(page, /^Write 3 rows/);
  await page.keyboard.press('Enter');
  await page.getByText('From inventory.csv: 3 bottles added, 0 updated, 1 row left out.').waitFor();
  await expectAccessible(page);
  await tabTo(page, /^To the shelf/);
  await page.keyboard.press('Enter');
  const { bottle, ledger } = await opened.call('shelf.bottle', { id: 'N4' });
  expect([bottle.left, bottle.unit, bottle.useBy]).toEqual([1250, 'mL', '2028-04-03']);
  expect(ledger.map((line) => [line.kind, line.reason])).toEqual([['received', 'from the file inventory.csv']]);
  expect((await opened.call('shelf.bottle', { id: 'N1' })).bottle.form).toEqual({ kind: 'neat', assayPercent: 98 });
  expect(complaints).toEqual([]);
  await page.context().close();
});

test.each(['csv', 'xlsx'] as const)('what goes out as %s comes back as nothing but what is there', async (as) => {
  const { page, complaints } = await openPage({ colorScheme: 'dark' });
  await page.keyboard.press('Control+3');
  await page.getByRole('main', { name: 'Shelf' }).waitFor();
  await page.getByRole('grid').waitFor();
  await page.getByRole('button', { name: 'Export' }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: as === 'csv' ? /^CSV/ : /^Workbook/ }).waitFor();
  await expectAccessible(page);
  await tabTo(page, as === 'csv' ? /^CSV/ : /^Workbook/);
  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('Enter')]);
  expect(download.suggestedFilename()).toMatch(new RegExp(`^shelf-\\d{4}-\\d{2}-\\d{2}\\.${as}$`));
  await takeIn(page, fileOf(`back.${as}`, readFileSync(await download.path())));
  await page.getByText('The headings are those of our own files').waitFor();
  const { total } = await opened.call('shelf.list', { search: '', from: 0, count: 1, sort: 'name' });
  await expect.poll(() => counts(page)).toEqual([`all${total}`, 'new0', 'update0', `duplicate${total}`, 'refused0']);
  await expectAccessible(page);
  expect(await page.getByRole('button', { name: /^Write/ }).isDisabled()).toBe(true);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('letters that could be several are asked about; what is no table ends in words, and nothing is written', async () => {
  const { page, complaints } = await openPage();
  const { total } = await opened.call('shelf.list', { search: '', from: 0, count: 1, sort: 'name' });
  await takeIn(page, fileOf('latin.csv', Buffer.from('Stoff;Menge;Ort\nbenzil;1 g;Kühlraum\n', 'latin1')));
  await page.getByRole('heading', { name: 'Which of these reads right?' }).waitFor();
  await page.getByText('If none does, save the file in your spreadsheet as “CSV UTF-8”').waitFor();
  await expectAccessible(page);
  await tabTo(page, /Windows-1252/);
  await page.keyboard.press('Enter');
  await page.getByRole('grid', { name: 'Rows of the file' }).getByText('Kühlraum').waitFor();
  // A choice that cannot be followed is said and taken back; what was shown stays, and goes on.
  await page.getByLabel('letters').focus();
  await page.keyboard.press('Home');
  await page.getByRole('alert').getByText('The file cannot be read as UTF-8. What is below is as it was before.').waitFor();
  expect(await page.getByLabel('letters').inputValue()).toBe('windows-1252');
  await page.getByLabel('what “Ort” is').focus();
  await page.keyboard.type('lot');
  await expect.poll(() => page.getByRole('alert').count()).toBe(0);
  await expect.poll(() => counts(page)).toEqual(['all1', 'new1', 'update0', 'duplicate0', 'refused0']);
  for (const [name, content, words] of [
    ['heads.csv', Buffer.from('material,left\n'), /There is no row below the headings/],
    ['twice.csv', Buffer.from('material,material,left\nbenzil,benzoin,1 g\n'), /“material” heads more than one column/],
    ['nul.csv', Buffer.from('material,left\nben\0zil,1 g\n'), /The file is no text: it holds NUL characters/],
    ['a.xlsx', Buffer.from('%PDF-1.7\n'), /The file was not taken in\. The file is a PDF/],
    ['b.csv', Buffer.from('x'.repeat(10_000_000)), /Row 1 has a field of more than 400,000 characters/],
    ['c.csv', Buffer.from(`material${',x'.repeat(1_000_000)}\n`), /Row 1 has more than 200 columns/],
    ['d.csv', Buffer.alloc(0), /The file is empty/],
  ] as const) {
    await takeIn(page, fileOf(name, content));
    await page.getByText(words).waitFor();
  }
  await expectAccessible(page);
  expect((await opened.call('shelf.list', { search: '', from: 0, count: 1, sort: 'name' })).total).toBe(total);
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('an import that is open survives a reload with what was said of it; written, it is taken back and brought back', async () => {
  const { page, complaints } = await openPage();
  const before = (await opened.call('shelf.list', { search: '', from: 0, count: 1, sort: 'name' })).total;
  await takeIn(page, fileOf('wrong.csv', 'Label;Substance;Amount\nW1;benzil;1,250 g\nW2;benzil;2 g\n'));
  await page.getByLabel('decimal sign in “Amount”').selectOption('comma');
  await expect.poll(() => counts(page)).toEqual(['all2', 'new2', 'update0', 'duplicate0', 'refused0']);
  await page.reload();
  await page.getByRole('grid', { name: 'Rows of the file' }).waitFor();
  await expect.poll(() => page.getByLabel('decimal sign in “Amount”').inputValue()).toBe('comma');
  expect(await counts(page)).toEqual(['all2', 'new2', 'update0', 'duplicate0', 'refused0']);
  await page.getByRole('button', { name: 'Write 2 rows' }).click();
  await page.getByRole('button', { name: /Take it back$/ }).click();
  await page.getByText('Taken back: 2 bottles.').waitFor();
  await expectAccessible(page);
  expect((await opened.call('shelf.list', { search: '', from: 0, count: 1, sort: 'name' })).total).toBe(before);
  await page.getByRole('button', { name: 'To the shelf' }).click();
  await page.getByRole('button', { name: 'Export' }).click();
  await page.getByRole('button', { name: /^Files taken in/ }).click();
  await page.getByRole('button', { name: 'Bring it back: wrong.csv' }).click();
  await page.getByText('Brought back: 2 bottles.').waitFor();
  await expectAccessible(page);
  expect((await opened.call('shelf.bottle', { id: 'W1' })).bottle.left).toBe(1.25);
  await opened.call('shelf.move', { id: 'W1', kind: 'used', change: -1, reason: '' });
  await page.getByRole('button', { name: 'Take it back: wrong.csv' }).click();
  await page.getByText('Taken back: 1 bottle. W1 was used or changed since and stays as it is.').waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});

test('the first reading of a file is stopped while it goes on, and nothing of it is left', async () => {
  const { page, complaints } = await openPage();
  const lines = Array.from({ length: 60_000 }, (_, index) => `S${index};benzil;${index + 1} g`);
  // Pressed by the page itself as soon as the file is being read: a test that comes late would find it read.
  await page.evaluate(() => {
    new MutationObserver((_changes, watch) => {
      const stop = [...document.querySelectorAll('button')].find((one) => one.textContent?.trim() === 'Stop');
      if (!stop || !document.querySelector('[role=progressbar], progress')) return;
      watch.disconnect();
      stop.click();
    }).observe(document.body, { childList: true, subtree: true, attributes: true });
  });
  await takeIn(page, fileOf('long.csv', ['Label;Substance;Amount', ...lines].join('\n')));
  await page.getByText(/The file was not taken in\. Stopped\. Nothing was written\./).waitFor();
  expect(complaints).toEqual([]);
  await page.context().close();
});
