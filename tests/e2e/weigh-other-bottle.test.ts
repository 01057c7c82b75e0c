import type { Page } from 'playwright';
import { expect, test } from 'vitest';
import { beginSheet, entriesOf, typeLine, writes } from './weigh-player.ts';
import { openProgram } from './window.ts';

const said = (page: Page) => page.locator('.weigh-line [role=status]');
const target = async (page: Page): Promise<string> =>
  ((await page.locator('.weigh-target').textContent()) ?? '').replaceAll('\u00a0', ' ').trim();

/** The field stands in a window of 1280 × 800, whatever is said above it. */
async function fieldInSight(page: Page): Promise<void> {
  const end = async (name: string): Promise<number> => {
    const box = await page.locator(name).boundingBox();
    return (box?.y ?? 0) + (box?.height ?? 0);
  };
  await expect.poll(async () => (await end('.weigh-field')) <= (await end('.weigh-main'))).toBe(true);
}

/** Sheet 2-1 of the ready example up to its nitric acid, B05 of 68 % w/w; three more bottles: of 65 % w/w, of no known strength, and 25 mL of 68 % w/w. */
async function atTheAcid() {
  const opened = await openProgram();
  const acid = { name: 'nitric acid', formula: 'HNO3', cas: '7697-37-2' };
  const bottle = { material: acid, amount: 100, unit: 'mL', place: 'acids cabinet' } as const;
  const strength = { value: 65, basis: '% w/w' } as const;
  const density = { gramsPerMillilitre: 1.391, celsius: 20 };
  const weak = await opened.call('shelf.add', {
    ...bottle,
    form: { kind: 'solution', strength, solvent: 'water', density },
    lot: 'HN65',
  });
  const unknown = await opened.call('shelf.add', { ...bottle, form: { kind: 'unknown' }, lot: 'HN-OLD' });
  const full = { kind: 'solution', strength: { value: 68, basis: '% w/w' }, solvent: 'water' } as const;
  const small = await opened.call('shelf.add', { ...bottle, amount: 25, form: full, lot: 'HN-SMALL' });
  const { page, complaints } = await opened.page();
  await beginSheet(page, '2-1', 'AB');
  await writes(opened, page, () => typeLine(page, 'AB'));
  await page.locator('.weigh-name', { hasText: 'benzoin' }).waitFor();
  await writes(opened, page, () => typeLine(page, '9.83 g'));
  await page.locator('.weigh-name', { hasText: 'nitric acid' }).waitFor();
  return { opened, page, complaints, weak: weak.id, unknown: unknown.id, small: small.id };
}

test('half way the bottle is empty and another one is of another strength: the rest is worked out for it, and a pending amount stays with its bottle over a reload', async () => {
  const { opened, page, complaints, weak, unknown } = await atTheAcid();
  expect(await target(page)).toBe('39.5 mL');
  await writes(opened, page, () => typeLine(page, '20.0 mL'));
  await page.getByText('below the range').waitFor();
  await writes(opened, page, () => page.keyboard.press('F4'));
  expect(await target(page)).toBe('19.5 mL');

  // Nobody knows how strong it is: no number, and nothing is taken by itself.
  await typeLine(page, 'HN-OLD');
  await page.locator('.weigh-from', { hasText: unknown }).waitFor();
  await page.getByText('no target can be told').waitFor();
  await page.getByText('put its strength and density on the Shelf and scan it, or scan another bottle').waitFor();
  expect(await page.locator('.weigh-target').count()).toBe(0);
  expect(await writes(opened, page, () => typeLine(page, '13.0 mL'))).toMatchObject({ kind: 'reading', bottle: unknown });
  await page.locator('.weigh-judged', { hasText: '13.0 mL' }).waitFor();
  await fieldInSight(page);

  // By hand: (39.5 − 20.0) mL · 1.405 g/mL · 0.68 ÷ 0.65 ÷ 1.391 g/mL = 20.6 mL.
  await typeLine(page, 'HN65');
  await page.locator('.weigh-from', { hasText: weak }).waitFor();
  await expect.poll(() => target(page)).toBe('20.6 mL');
  await page.getByText('Worked out for its strength and for what the parts before brought').waitFor();
  await page.locator('.weigh-from', { hasText: '65 % w/w' }).waitFor();
  await page.locator('.weigh-name', { hasText: 'planned 68 % w/w' }).waitFor();
  expect(await page.getByText('plan again').count()).toBe(0);

  // Out of range, its reason asked for, and the window is loaded again: it is still of the bottle that was chosen.
  await writes(opened, page, () => typeLine(page, '12.0 mL'));
  await page.getByText('below the range').waitFor();
  await fieldInSight(page);
  await page.keyboard.press('F2');
  await page.getByText('Why is it taken out of range?').waitFor();
  await page.reload();
  await page.locator('.weigh-from', { hasText: weak }).waitFor();
  await expect.poll(() => target(page)).toBe('20.6 mL');
  await page.locator('.weigh-judged', { hasText: '12.0 mL' }).waitFor();
  // Nor does it go to another bottle where the window kept nothing.
  await page.evaluate(() => {
    sessionStorage.removeItem('backweigh taken from');
    localStorage.removeItem('backweigh taken from');
  });
  const { page: other } = await opened.page();
  await other.keyboard.press('Control+5');
  await other.getByRole('button', { name: 'Go on with sheet 2-1' }).click();
  await other.getByRole('heading', { name: 'Who is weighing?' }).waitFor();
  await typeLine(other, 'CD');
  await other.locator('.weigh-judged', { hasText: '12.0 mL' }).waitFor();
  await other.locator('.weigh-from', { hasText: weak }).waitFor();

  await page.keyboard.press('F2');
  await page.getByText('Why is it taken out of range?').waitFor();
  const entry = await writes(opened, page, () => typeLine(page, 'no more of it here'));
  // By hand: 12.0 mL · 1.391 · 0.65 ÷ 63.012 g/mol = 172.2 mmol.
  expect(entry).toMatchObject({ kind: 'charged', net: 12, bottle: weak, lot: 'HN65', taken: 12, complete: true });
  expect(entry.kind === 'charged' ? entry.moles : null).toBeCloseTo(0.1722, 4);
  await said(page).filter({ hasText: '12.0 mL taken' }).waitFor();
  expect(complaints).toEqual([]);
  await opened.close();
});

test('an amount typed anew where the ledger asks, one that no record takes, a lot and an amount where an entry is put right', async () => {
  const { opened, page, complaints, weak, small } = await atTheAcid();
  // Said in the field's own words, at its place.
  await typeLine(page, '2000 kg');
  await said(page)
    .filter({ hasText: 'One weighing needs to be at most 1\u202f000\u202f000 g (got 2\u202f000\u202f000 g)' })
    .waitFor();
  await typeLine(page, 'HN-SMALL');
  await page.locator('.weigh-from', { hasText: small }).waitFor();
  await typeLine(page, '39.5 mL');
  await page.getByText('put the bottle’s ledger right').waitFor();
  await said(page).filter({ hasText: small }).waitFor();
  await page.locator('.weigh-key', { hasText: 'Back to the weighing' }).waitFor();
  expect(await page.locator('.weigh-key', { hasText: 'Leave weighing mode' }).count()).toBe(0);
  // Another amount is another answer: below the range, and no question any more.
  expect(await writes(opened, page, () => typeLine(page, '21.5 mL'))).toMatchObject({ kind: 'reading', amount: 21.5 });
  await page.getByText('below the range').waitFor();
  expect(await page.getByText('put the bottle’s ledger right').count()).toBe(0);
  expect(await writes(opened, page, () => page.keyboard.press('F4'))).toMatchObject({ net: 21.5, bottle: small });

  // It came from the other one: by its lot, as the field of the weighing takes it.
  const number = (await entriesOf(opened)).length;
  await page.keyboard.press('F8');
  await page.getByText('the last weighing').waitFor();
  await typeLine(page, String(number));
  await page.getByText('the label or the lot of the bottle').waitFor();
  await typeLine(page, 'HN65');
  await page.getByText('Why is it corrected?').waitFor();
  // With a unit or without, a reason that reads like an amount is asked about and stays; Enter alone takes it.
  for (const reason of ['460', '154 g']) {
    await typeLine(page, reason);
    await said(page)
      .filter({ hasText: `“${reason}” reads like what a balance types` })
      .waitFor();
    expect(await page.locator('.weigh-field').inputValue()).toBe(reason);
  }
  // The balance prints it again: that is no answer.
  await typeLine(page, '154 g');
  await page.waitForTimeout(300);
  expect((await entriesOf(opened)).length).toBe(number);
  const entry = await writes(opened, page, () => page.keyboard.press('Enter'));
  expect(entry).toMatchObject({
    kind: 'correction',
    of: number,
    reason: '154 g',
    instead: { bottle: weak, lot: 'HN65', taken: 21.5 },
  });
  expect(complaints).toEqual([]);
  await opened.close();
});
