import { mkdtempSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { type Opened, openProgram } from './window.ts';

async function type(page: Page, text: string): Promise<void> {
  await page.locator('.weigh-field[aria-busy=false]').focus();
  await page.keyboard.press('Control+a');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

const entriesOf = async (opened: Opened): Promise<readonly RunEntry[]> =>
  (await opened.call('runs.read', { id: 1 })).entries.map((one) => one.entry);

/** Does something and waits until one more entry is written; gives the entry. */
async function writes(opened: Opened, page: Page, act: () => Promise<void>): Promise<RunEntry> {
  const before = (await entriesOf(opened)).length;
  await act();
  await expect.poll(async () => (await entriesOf(opened)).length, { timeout: 20_000 }).toBe(before + 1);
  // The window shows it: what is typed next is meant for what stands there then.
  await page
    .getByText(`${before + 1} of ${before + 1} entries`)
    .first()
    .waitFor({ state: 'attached' });
  return (await entriesOf(opened)).at(-1) ?? expect.fail();
}

/** A simulated balance and a patient person: whatever is asked is answered as planned, up to the product. */
async function playOn(opened: Opened, page: Page): Promise<void> {
  for (let round = 0; round < 80; round += 1) {
    if (await page.getByRole('textbox', { name: /Mass of the product/ }).isVisible()) return;
    const label = (await page.locator('.weigh-line label').textContent()) ?? '';
    const target =
      (await page
        .locator('.weigh-target')
        .textContent({ timeout: 300 })
        .catch(() => '')) ?? '';
    const answer = label.includes('initials') ? 'AB' : label.startsWith('Enter') ? '' : target.replaceAll('\u00a0', ' ').trim();
    await writes(opened, page, () => type(page, answer));
  }
  throw new Error('the sheet did not come to its product');
}

test('a whole dish, a check, every kind of entry put right, wet and dry, two crops, a file; finished too early, gone on with', {
  timeout: 240_000,
}, async () => {
  const opened = await openProgram(mkdtempSync(join(tmpdir(), 'backweigh-correct-')));
  const { page, complaints } = await opened.page();
  await page.keyboard.press('Control+5');
  await page.getByRole('button', { name: 'Weigh sheet 2-1' }).click();
  await page.getByRole('heading', { name: 'Who is weighing?' }).waitFor();
  await type(page, 'AB');
  await page.getByRole('heading', { name: 'Read first' }).waitFor();
  await writes(opened, page, () => type(page, 'AB'));

  // The dish of step 1 goes in as it is: counted as planned, and the record says that it was not weighed.
  await page.locator('.weigh-name', { hasText: 'benzoin' }).waitFor();
  await page.getByText('Type “all”').waitFor();
  const { start } = await opened.call('runs.read', { id: 1 });
  const dish = start.sheet.charges.find((one) => one.isBasis);
  const all = await writes(opened, page, () => type(page, 'all'));
  expect(all).toMatchObject({ kind: 'charged', text: 'all', bottle: null, complete: true });
  expect(all.kind === 'charged' && [all.net, all.deviation]).toEqual([
    expect.closeTo(dish?.exact ?? 0, 5),
    expect.stringContaining('not weighed'),
  ]);

  await writes(opened, page, () => type(page, '62 °C'));
  const written = async (keys: string, text: string): Promise<RunEntry> => {
    await page.keyboard.press(keys);
    return writes(opened, page, () => type(page, text));
  };
  expect(await written('Control+g', 'pH 5')).toMatchObject({ kind: 'check', found: 'pH 5', passed: true });
  await written('Control+m', 'yelow');
  await written('Control+d', 'stirred by hand');

  const correct = async (number: number, instead: string, reason: string): Promise<RunEntry> => {
    await page.keyboard.press('F8');
    await page.getByText('Number of the entry that is wrong').waitFor();
    await type(page, String(number));
    await page.getByText('What should it say?').waitFor();
    await type(page, instead);
    await page.getByText('Why is it corrected?').waitFor();
    return writes(opened, page, () => type(page, reason));
  };
  // Entries 1 to 7: started, read, dish, temperature, check, remark, deviation.
  expect(await correct(4, '26 °C', 'digits exchanged')).toMatchObject({ of: 4, instead: { kind: 'temperature', celsius: 26 } });
  expect(await correct(5, 'not met: pH 3', 'wrong paper')).toMatchObject({ of: 5, instead: { passed: false, found: 'pH 3' } });
  expect(await correct(6, 'yellow', 'typed wrong')).toMatchObject({ of: 6, instead: { words: 'yellow' } });
  expect(await correct(7, 'stirred by magnet', 'wrong word')).toMatchObject({ of: 7, instead: { words: 'stirred by magnet' } });
  // What cannot be read is told and stays; a correction is put right at its entry.
  await page.keyboard.press('F8');
  await type(page, '4');
  await page.getByText('What should it say?').waitFor();
  await type(page, 'warm');
  await page.getByText('A temperature needs a number of °C').waitFor();
  expect(await page.locator('.weigh-field').inputValue()).toBe('warm');
  await page.keyboard.press('Escape');
  await page.keyboard.press('F8');
  await page.getByText('Number of the entry that is wrong').waitFor();
  await type(page, '8');
  await page.getByText('correct entry 4 again').waitFor();
  await page.keyboard.press('Escape');

  await playOn(opened, page);
  const product = async (mass: string, assay: string, wet: boolean): Promise<RunEntry> => {
    await page.getByRole('textbox', { name: /Mass of the product/ }).fill(mass);
    await page.getByRole('textbox', { name: /Assay/ }).fill(assay);
    await page.getByRole('checkbox', { name: 'still wet' }).setChecked(wet);
    return writes(opened, page, () => page.getByRole('button', { name: 'Record the product' }).click());
  };
  expect(await product('9.402 g', '', true)).toMatchObject({ crop: 1, wet: true, bottle: null });
  const dry = await product('8.310 g', '98', false);
  expect(dry).toMatchObject({ crop: 1, wet: false, assayPercent: 98 });
  await page.getByRole('button', { name: 'Another crop' }).click();
  const second = await product('0.412 g', '', false);
  expect(second).toMatchObject({ crop: 2, wet: false });

  // A file stays where it lies; its name and hash are in the record.
  const file = join(opened.folder, 'nmr benzil.txt');
  writeFileSync(file, 'δ 7.98 (d, 4 H)');
  const chooser = page.waitForEvent('filechooser');
  const named = await writes(opened, page, async () => {
    await page.getByRole('button', { name: 'Name a file in the record' }).click();
    await (await chooser).setFiles(file);
  });
  const sha256 = createHash('sha256').update('δ 7.98 (d, 4 H)').digest('hex');
  expect(named).toMatchObject({ kind: 'file', name: 'nmr benzil.txt', sha256 });

  // The assay put right: the bottle on the shelf follows.
  const numbers = (await entriesOf(opened)).map((one, at) => [at + 1, one] as const);
  const [of = 0] = numbers.find(([, one]) => one.kind === 'product' && one.crop === 1 && !one.wet) ?? [];
  expect(await correct(of, 'assay 97.5', 'second determination')).toMatchObject({ instead: { assayPercent: 97.5, grams: 8.31 } });
  const bottle = dry.kind === 'product' ? (dry.bottle ?? '') : '';
  expect((await opened.call('shelf.bottle', { id: bottle })).bottle).toMatchObject({
    left: 8.31,
    form: { kind: 'neat', assayPercent: 97.5 },
  });
  expect(await correct(of, 'place dry box', 'moved')).toMatchObject({ instead: { place: 'dry box', assayPercent: 97.5 } });
  expect((await opened.call('shelf.bottle', { id: bottle })).bottle.place).toBe('dry box');

  // Finished too early: taken out with a reason, and the run goes on.
  await page.keyboard.press('F7');
  await page.getByRole('button', { name: 'Back to the bench' }).waitFor();
  const end = (await entriesOf(opened)).length;
  await page.keyboard.press('F8');
  await page.getByText('Number of the entry that is wrong').waitFor();
  await type(page, String(end));
  await page.getByText('should not be there. Why?').waitFor();
  await writes(opened, page, () => type(page, 'a third crop is expected'));
  const record = await opened.call('runs.read', { id: 1 });
  expect([record.broken, foldRun(record.start.sheet, record.entries).phase]).toEqual([null, 'running']);
  // By hand: dry crops 8.310 g at 97.5 % and 0.412 g taken as 100 %.
  const [row] = await opened.call('runs.list', { planId: 1 });
  expect(row?.productGrams).toBeCloseTo(8.31 * 0.975 + 0.412, 6);
  expect(complaints).toEqual([]);
  await opened.close();
});
