import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { writeCode } from '../../src/core/code/code.ts';
import { type Opened, openProgram } from './window.ts';

/** Keys as fast as they can come, Enter and all, as a balance or a scanner sends them. */
async function send(page: Page, text: string): Promise<void> {
  for (const key of text) await page.keyboard.press(key === '\n' ? 'Enter' : key === ' ' ? 'Space' : key);
}

/** Lines without a moment between their keys, as a balance sends them however busy this machine is; the last may be empty. */
async function burst(page: Page, ...lines: readonly string[]): Promise<void> {
  await page.locator('.weigh-field').evaluate((field: HTMLInputElement, all) => {
    for (const line of all) {
      field.setRangeText(line, 0, field.value.length, 'end');
      field.dispatchEvent(new Event('input', { bubbles: true }));
      field.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true }));
    }
  }, lines);
}

async function entries(opened: Opened, run = 1): Promise<readonly RunEntry[]> {
  return (await opened.call('runs.read', { id: run })).entries.map((one) => one.entry);
}

const count = async (opened: Opened): Promise<number> => (await entries(opened)).length;
const said = (page: Page) => page.locator('.weigh-line [role=status]');
const name = (page: Page) => page.locator('.weigh-name');
const field = (page: Page) => page.locator('.weigh-field');

/** The first sheet of the ready example, its head read by AB. */
async function begun(opened: Opened): Promise<Page> {
  const { today } = await opened.call('program.about', {});
  await opened.call('shelf.test', { id: 'B03', done: 'tested', on: today, useBy: '2099-01-01', remark: 'colourless' });
  const { page } = await opened.page();
  await page.keyboard.press('Control+5');
  await page.getByRole('button', { name: 'Weigh sheet 1-1' }).click();
  // Figures alone are no person: a scanner may have typed them.
  await send(page, '4006381333931\n');
  await said(page).filter({ hasText: 'a letter among them' }).waitFor();
  await send(page, 'AB\n');
  await page.getByRole('heading', { name: 'Read first' }).waitFor();
  await send(page, 'AB\n');
  await name(page).filter({ hasText: 'benzaldehyde' }).waitFor();
  return page;
}

/** A second window, in which CD goes on with the same sheet. */
async function joined(opened: Opened): Promise<Page> {
  const { page: other } = await opened.page();
  await other.keyboard.press('Control+5');
  await other.getByRole('button', { name: 'Go on with sheet 1-1' }).click();
  await other.getByRole('heading', { name: 'Who is weighing?' }).waitFor();
  await send(other, 'CD\n');
  await name(other).filter({ hasText: 'benzaldehyde' }).waitFor();
  return other;
}

test('a balance that prints twice, ends its line twice, still moves, or prints where words are asked for', async () => {
  const own = await openProgram();
  const page = await begun(own);
  // What was refused is replaced by what comes next, without a hand on the keyboard.
  await send(page, 'US,+00036.16  g\n');
  await said(page).filter({ hasText: 'still moving' }).waitFor();
  await send(page, 'OL\n');
  await said(page).filter({ hasText: 'too much or too little' }).waitFor();
  await send(page, '-  0.02 g\n');
  await said(page).filter({ hasText: 'below zero' }).waitFor();
  // A hundred times the basis: a lost decimal point is not taken by itself.
  await send(page, '3609 g\n');
  await page.getByText('100 times what is planned').waitFor();
  expect(await count(own)).toBe(3);
  // Two ends of line: the basis is taken, and the second end does not scale what follows.
  await burst(page, '36.445 g', '');
  await page.getByRole('heading', { name: 'Scale what follows?' }).waitFor();
  await page.waitForTimeout(400);
  expect((await entries(own)).at(-1)).toMatchObject({ kind: 'charged', net: 36.445 });
  await send(page, '\n');
  await name(page).filter({ hasText: 'thiamine' }).waitFor();
  expect((await entries(own)).at(-1)).toMatchObject({ kind: 'rescaled' });
  // The same line twice at once: the second is held back and shown.
  await burst(page, '5.80 g', '5.80 g');
  await name(page).filter({ hasText: 'water' }).waitFor();
  await said(page).filter({ hasText: '5.80 g' }).waitFor();
  await page.waitForTimeout(300);
  expect((await entries(own)).filter((one) => one.kind === 'charged').map((one) => one.net)).toEqual([36.445, 5.8]);
  expect(await field(page).inputValue()).toBe('5.80 g');
  // What comes next takes its place.
  const before = await count(own);
  await send(page, '3.00 mL\n');
  await page.getByText('below the range').waitFor();
  expect(await count(own)).toBe(before + 1);
  await page.keyboard.press('F2');
  await page.getByText('Why is it taken out of range?').waitFor();
  await send(page, '3.00 mL\n');
  await said(page).filter({ hasText: 'words are needed' }).waitFor();
  await page.keyboard.press('Control+a');
  await page.keyboard.type('spilt, no more');
  await page.keyboard.press('Enter');
  await name(page).filter({ hasText: 'ethanol' }).waitFor();
  // A scanner's code where a remark is asked for picks no bottle and writes no remark.
  await page.keyboard.press('Control+m');
  await page.getByLabel('Remark').waitFor();
  await page.keyboard.type(writeCode({ kind: 'bottle', label: 'B01' }));
  await page.keyboard.press('Enter');
  await said(page)
    .filter({ hasText: /not now|finish|first|weigh/i })
    .waitFor();
  expect((await entries(own)).some((one) => one.kind === 'remark')).toBe(false);
  await own.close();
});

test('what was being typed when another window wrote is not taken for what stands there now', async () => {
  const own = await openProgram();
  const page = await begun(own);
  const other = await joined(own);
  await send(other, '5.8');
  // As planned, so that nothing is asked about scaling: the next charge stands there at once.
  await send(page, '36.09 g\n');
  await name(other).filter({ hasText: 'thiamine' }).waitFor();
  await send(other, '0 g\n');
  await said(other).filter({ hasText: 'While “5.80 g” was typed, another window wrote' }).waitFor();
  expect(await field(other).inputValue()).toBe('5.80 g');
  expect((await entries(own)).filter((one) => one.kind === 'charged')).toHaveLength(1);
  // Looked at, and Enter alone: it is what stands here.
  await other.waitForTimeout(150);
  await send(other, '\n');
  await name(other).filter({ hasText: 'water' }).waitFor();
  expect((await entries(own)).flatMap((one) => (one.kind === 'charged' ? [one.net] : []))).toEqual([36.09, 5.8]);
  await own.close();
});

test('two windows weigh one batch, its bottle is emptied and thrown away meanwhile, the page is closed', async () => {
  const own = await openProgram();
  const page = await begun(own);
  const other = await joined(own);
  // Both at once: one is written, the other is told.
  await Promise.all([send(page, '36.10 g'), send(other, '36.20 g')]);
  await Promise.all([page.keyboard.press('Enter'), other.keyboard.press('Enter')]);
  await expect.poll(async () => (await entries(own)).filter((one) => one.kind === 'charged').length).toBe(1);
  await page.waitForTimeout(500);
  const taken = (await entries(own)).flatMap((one) => (one.kind === 'charged' ? [one.net] : []));
  expect(taken).toHaveLength(1);
  const loser = taken[0] === 36.1 ? other : page;
  await said(loser).filter({ hasText: 'Not written' }).waitFor();
  const left = (await own.call('shelf.bottle', { id: 'B03' })).bottle.left;
  const { ledger } = await own.call('shelf.bottle', { id: 'B03' });
  expect(ledger.filter((line) => line.kind === 'used')).toHaveLength(1);
  expect(left).toBeGreaterThan(0);
  // The page is closed; another goes on where it was.
  await other.context().close();
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Backspace');
  const scaling = page.getByRole('heading', { name: 'Scale what follows?' });
  await scaling
    .or(name(page).filter({ hasText: 'thiamine' }))
    .first()
    .waitFor();
  if (await scaling.isVisible()) await page.keyboard.press('F3');
  await name(page).filter({ hasText: 'thiamine' }).waitFor();
  // The bottle that was planned is thrown away in another window: said at once.
  const thiamine = (await own.call('shelf.bottle', { id: 'B07' })).bottle.left;
  await own.call('shelf.move', { id: 'B07', kind: 'discarded', change: -thiamine, reason: 'caked' });
  await page.getByText('B07, which was planned for this, has been emptied or discarded since').waitFor();
  const before = await count(own);
  await send(page, 'B07\n');
  await said(page).filter({ hasText: 'B07' }).waitFor();
  expect(await count(own)).toBe(before);
  await own.close();
});

test('what a charge is taken from, by keys alone: a number, a bottle of the list, a name for what is on no shelf', async () => {
  const own = await openProgram();
  const page = await begun(own);
  const written = async (line: string): Promise<RunEntry | undefined> => {
    const before = await count(own);
    await send(page, `${line}\n`);
    await expect.poll(() => count(own)).toBe(before + 1);
    await page
      .getByText(`${before + 1} of ${before + 1} entries`)
      .first()
      .waitFor({ state: 'attached' });
    return (await entries(own)).at(-1);
  };
  await written('36.09 g');
  await name(page).filter({ hasText: 'thiamine' }).waitFor();
  await written('5.73 g');
  await name(page).filter({ hasText: 'water' }).waitFor();
  await written('18.0 mL');
  await name(page).filter({ hasText: 'ethanol' }).waitFor();
  await written('68.0 mL');
  await written('AB');
  await name(page).filter({ hasText: 'sodium hydroxide' }).waitFor();

  await page.keyboard.press('Control+b');
  const list = page.getByRole('list', { name: 'Bottles of it on the shelf' });
  await list.getByText('B02 · 50 % w/w').waitFor();
  // A balance answers no question; a number that is not there is said; Escape leaves all as it was.
  await send(page, '11.0 mL\n');
  await said(page).filter({ hasText: 'words are needed here' }).waitFor();
  await send(page, '7\n');
  await said(page).filter({ hasText: 'no number 7' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByText('Volume measured, or a label').waitFor();

  // By its number: what it holds is not what is asked for, which is said.
  await page.keyboard.press('Control+b');
  await list.waitFor();
  await send(page, '1\n');
  await said(page).filter({ hasText: 'Taken from B02.' }).waitFor();
  await page.locator('.weigh-from', { hasText: 'B02' }).waitFor();

  // A make-up in its beaker: named, written into the record, and no bottle is charged for it.
  const left = (await own.call('shelf.bottle', { id: 'B02' })).bottle.left;
  await page.keyboard.press('Control+b');
  await list.waitFor();
  await send(page, 'M1 of 25 Feb\n');
  await page.locator('.weigh-from', { hasText: 'from M1 of 25 Feb, on no shelf' }).waitFor();
  await page.reload();
  await page.locator('.weigh-from', { hasText: 'from M1 of 25 Feb, on no shelf' }).waitFor();
  expect(await written('11.0 mL')).toMatchObject({ kind: 'charged', bottle: null, lot: 'M1 of 25 Feb', taken: null, net: 11 });
  expect((await own.call('shelf.bottle', { id: 'B02' })).bottle.left).toBe(left);
  await own.close();
});
