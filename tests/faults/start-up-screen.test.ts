import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, expect, onTestFinished, test } from 'vitest';
import { openDatabase } from '../../src/main/store/database.ts';
import { migrations, NEWEST_VERSION } from '../../src/main/store/migrations/index.ts';
import { launchChromium, startProgram } from '../browser.ts';
import { newBottle, openBook } from '../main/workbook-fixture.ts';

// What a person sees when the workbook could not be opened, in a real window.

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

/** A closed workbook with one backup and a bottle named in it. */
async function closedBook(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'backweigh-screen-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const { must, keeper } = openBook({ folder });
  await must('shelf.add', newBottle({ lot: 'in the backup' }));
  await must('program.backUp', {});
  keeper.close();
  return folder;
}

const workbook = (folder: string): string => join(folder, 'backweigh.db');

async function openWindow(folder: string): Promise<{ readonly page: Page; readonly said: readonly string[] }> {
  const program = await startProgram(folder);
  const page = await browser.newPage();
  const said: string[] = [];
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  onTestFinished(async () => {
    await page.close();
    expect(await program.stop()).toBe(0);
  });
  await page.goto(program.address);
  // Where it does not come, what stands there instead says why.
  await page
    .locator('main.start-up')
    .waitFor()
    .catch(async (error: unknown) => {
      throw new Error(`${error}\n${said.join('\n')}\n${await page.locator('body').innerText()}`);
    });
  return { page, said };
}

test('a damaged workbook: says where it lies, and a backup is put back with one press', async () => {
  const folder = await closedBook();
  const bytes = readFileSync(workbook(folder)).fill(0xff, 4096 * 4, 4096 * 12);
  writeFileSync(workbook(folder), bytes);
  const { page, said } = await openWindow(folder);
  expect(await page.getByRole('heading', { level: 1 }).innerText()).toBe('The workbook is damaged');
  const lies = await page.locator('.start-up-lies').innerText();
  expect(lies.startsWith(join(folder, 'backweigh-damaged-'))).toBe(true);
  expect(readFileSync(lies).equals(bytes)).toBe(true);
  await page.getByRole('button', { name: 'Put this one back' }).click();
  await page.locator('#app > *').first().waitFor();
  const { must } = openBook({ folder });
  expect((await must('shelf.list', { search: 'in the backup', from: 0, count: 1, sort: 'name' })).total).toBe(1);
  expect(said.filter((line) => /policy|error/i.test(line))).toEqual([]);
});

test('a damaged workbook: an empty one is started only when that is pressed', async () => {
  const folder = await closedBook();
  writeFileSync(workbook(folder), 'no workbook at all'.repeat(100));
  const { page } = await openWindow(folder);
  await page.getByRole('button', { name: 'Start an empty workbook' }).click();
  await page.locator('#app > *').first().waitFor();
  const { must } = openBook({ folder });
  expect((await must('shelf.list', { search: 'in the backup', from: 0, count: 1, sort: 'name' })).total).toBe(0);
});

test('a newer workbook: says so, offers nothing that would change it, and opens when it can', async () => {
  const folder = await closedBook();
  const good = readFileSync(workbook(folder));
  const next = { version: NEWEST_VERSION + 1, name: 'next', statements: ['CREATE TABLE of_the_future (x INTEGER) STRICT'] };
  openDatabase(workbook(folder), { list: [...migrations, next] }).close();
  const { page } = await openWindow(folder);
  expect(await page.getByRole('heading', { level: 1 }).innerText()).toBe('The workbook was made by a newer version');
  expect(await page.getByRole('button').allInnerTexts()).toEqual(['Try again']);
  writeFileSync(workbook(folder), good);
  await page.getByRole('button', { name: 'Try again' }).click();
  await page.locator('#app > *').first().waitFor();
});

test('a workbook that is not where it was: asks before a new one is made', async () => {
  const folder = await closedBook();
  rmSync(workbook(folder));
  const { page } = await openWindow(folder);
  expect(await page.getByRole('heading', { level: 1 }).innerText()).toBe('The workbook is not where it was');
  expect(await page.getByRole('button').allInnerTexts()).toEqual(['Put this one back', 'Start an empty workbook']);
});
