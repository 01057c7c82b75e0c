import { mkdtempSync, writeFileSync } from 'node:fs';
import { createHash } from 'node:crypto';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { RunEntry } from '../../src/core/run/entry.ts';
import { foldRun } from '../../src/core/run/state.ts';
import { beginSheet, entriesOf, playToProduct, typeLine, writes } from './weigh-player.ts';
import { openProgram } from './window.ts';

/** Sheet 2-1 of the ready example in weighing mode, its first words read; of a plan for these draws alone where they are named. */
async function begunSheet(folder: string, draws: readonly string[] = []) {
  const opened = await openProgram(mkdtempSync(join(tmpdir(), folder)));
  if (draws.length > 0) {
    const { ask, state } = await opened.call('plans.read', { id: 1 });
    const only = { ...ask, draws: ask.draws.filter((one) => draws.includes(one.id)) };
    await opened.call('plans.save', { id: 1, after: state, ask: only, words: 'fewer draws' });
  }
  const { page, complaints } = await opened.page();
  await beginSheet(page, '2-1', 'AB');
  await writes(opened, page, () => typeLine(page, 'AB'));
  return { opened, page, complaints };
}

test('spilled and weighed again: both are used up; the flask breaks: the run ends there, and its batch is on the Bench again', async () => {
  const { opened, page, complaints } = await begunSheet('backweigh-mishap-');
  // Half of the dish is for the other batch: “all” is neither offered nor taken.
  await page.locator('.weigh-name', { hasText: 'benzoin' }).waitFor();
  expect(await page.getByText('Type “all”').count()).toBe(0);
  await typeLine(page, 'all');
  await page.getByText('“all” is for a dish that goes in whole').waitFor();
  await writes(opened, page, () => typeLine(page, '9.83 g'));
  // Five long cautions, the amount, the field and what was said stand in a window of 1280 × 800 without a key.
  await page.locator('.weigh-name', { hasText: 'nitric acid' }).waitFor();
  await expect.poll(() => page.locator('.weigh-further').isVisible()).toBe(false);
  const main = await page.locator('.weigh-main').boundingBox();
  for (const one of ['.weigh-cautions li:last-child', '.weigh-notes', '.weigh-target', '.weigh-said']) {
    const box = await page.locator(one).first().boundingBox();
    expect(box && main && box.y >= main.y && box.y + box.height <= main.y + main.height, one).toBe(true);
  }
  const left = async (): Promise<number> => (await opened.call('shelf.bottle', { id: 'B05' })).bottle.left;
  const before = await left();
  await writes(opened, page, () => typeLine(page, '39.5 mL'));
  expect(await left()).toBeCloseTo(before - 39.5, 6);
  await page.keyboard.press('F8');
  await page.getByText('the last weighing').waitFor();
  await typeLine(page, '');
  await page.getByText('“spilled”').waitFor();
  await typeLine(page, 'spilled');
  await page.getByText('What happened?').waitFor();
  const entry = await writes(opened, page, () => typeLine(page, 'the cylinder fell over'));
  expect(entry).toMatchObject({ kind: 'correction', of: 4, instead: null, spilled: true });
  await page.locator('.weigh-name', { hasText: 'nitric acid' }).waitFor();
  await page.waitForTimeout(900);
  await writes(opened, page, () => typeLine(page, '39.5 mL'));
  expect(await left()).toBeCloseTo(before - 79, 6);

  // A balance that types meanwhile gives no reason; Escape goes on.
  await page.keyboard.press('F10');
  await page.getByText('Why does the run end here').waitFor();
  await page.keyboard.press('Escape');
  await page.locator('.weigh-name', { hasText: 'no brown gas' }).waitFor();
  await page.keyboard.press('F10');
  await page.getByText('Why does the run end here').waitFor();
  const end = await writes(opened, page, () => typeLine(page, 'the flask broke'));
  expect(end).toEqual({ kind: 'finished', by: 'AB', why: 'the flask broke' });
  await page.locator('.weigh-more', { hasText: 'Ended before its last operation: the flask broke.' }).waitFor();
  // What of it is kept is said where it is weighed, as on its sheet.
  const { keep } = (await opened.call('runs.read', { id: 1 })).start.sheet.sheet;
  expect(keep).toMatch(/Put aside to keep.*2\.00\sg/);
  expect(await page.locator('.weigh-keep').textContent()).toBe(keep);
  await page.getByRole('button', { name: 'Back to the bench' }).click();
  await page.getByText('ended early').waitFor();
  await page.getByRole('button', { name: 'Weigh sheet 2-1' }).waitFor();
  expect(complaints).toEqual([]);
  await opened.close();
});

test('a whole dish, a check, every kind of entry put right, wet and dry, two crops, a file; finished too early, gone on with', async () => {
  // In one batch: all of the dish of step 1 goes in.
  const { opened, page, complaints } = await begunSheet('backweigh-correct-', ['kits']);

  // The dish of step 1 goes in as it is: counted as planned, and the record says that it was not weighed.
  await page.locator('.weigh-name', { hasText: 'benzoin' }).waitFor();
  await page.getByText('Type “all”').waitFor();
  const { start } = await opened.call('runs.read', { id: 1 });
  const dish = start.sheet.charges.find((one) => one.isBasis);
  const all = await writes(opened, page, () => typeLine(page, 'all'));
  expect(all).toMatchObject({ kind: 'charged', text: 'all', bottle: null, complete: true });
  expect(all.kind === 'charged' && [all.net, all.deviation]).toEqual([
    expect.closeTo(dish?.exact ?? 0, 5),
    expect.stringContaining('not weighed'),
  ]);

  await writes(opened, page, () => typeLine(page, '62 °C'));
  const written = async (keys: string, text: string): Promise<RunEntry> => {
    await page.keyboard.press(keys);
    return writes(opened, page, () => typeLine(page, text));
  };
  expect(await written('Control+g', 'pH 5')).toMatchObject({ kind: 'check', found: 'pH 5', passed: true });
  await written('Control+m', 'yelow');
  await written('Control+d', 'stirred by hand');

  const correct = async (number: number, instead: string, reason: string): Promise<RunEntry> => {
    await page.keyboard.press('F8');
    await page.getByText('Number of the entry that is wrong').waitFor();
    await typeLine(page, String(number));
    await page.getByText('What should it say?').waitFor();
    await typeLine(page, instead);
    await page.getByText('Why is it corrected?').waitFor();
    return writes(opened, page, () => typeLine(page, reason));
  };
  // Entries 1 to 7: started, read, dish, temperature, check, remark, deviation.
  expect(await correct(4, '26 °C', 'digits exchanged')).toMatchObject({ of: 4, instead: { kind: 'temperature', celsius: 26 } });
  expect(await correct(5, 'not met: pH 3', 'wrong paper')).toMatchObject({ of: 5, instead: { passed: false, found: 'pH 3' } });
  expect(await correct(6, 'yellow', 'typed wrong')).toMatchObject({ of: 6, instead: { words: 'yellow' } });
  expect(await correct(7, 'stirred by magnet', 'wrong word')).toMatchObject({ of: 7, instead: { words: 'stirred by magnet' } });
  // What cannot be read is told and stays; a correction is put right at its entry.
  await page.keyboard.press('F8');
  await typeLine(page, '4');
  await page.getByText('What should it say?').waitFor();
  await typeLine(page, 'warm');
  await page.getByText('A temperature needs a number of °C').waitFor();
  expect(await page.locator('.weigh-field').inputValue()).toBe('warm');
  await page.keyboard.press('Escape');
  await page.keyboard.press('F8');
  await page.getByText('Number of the entry that is wrong').waitFor();
  await typeLine(page, '8');
  await page.getByText('correct entry 4 again').waitFor();
  await page.keyboard.press('Escape');

  await playToProduct(opened, page, 1, 'AB');
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
  await typeLine(page, String(end));
  await page.getByText('should not be there. Why?').waitFor();
  await writes(opened, page, () => typeLine(page, 'a third crop is expected'));
  const record = await opened.call('runs.read', { id: 1 });
  expect([record.broken, foldRun(record.start.sheet, record.entries).phase]).toEqual([null, 'running']);
  // By hand: dry crops 8.310 g at 97.5 % and 0.412 g taken as 100 %.
  const [row] = await opened.call('runs.list', { planId: 1 });
  expect(row?.productGrams).toBeCloseTo(8.31 * 0.975 + 0.412, 6);
  expect(complaints).toEqual([]);
  await opened.close();
});
