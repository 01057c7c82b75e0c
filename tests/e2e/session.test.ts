import { afterAll, beforeAll, expect, test } from 'vitest';
import { writeCode } from '../../src/core/code/code.ts';
import { violationsOn } from './accessible.ts';
import { codeIn, partOf, pdfPictures } from './pdf-picture.ts';
import { type Opened, openProgram, pdfText } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened?.close());

const sessions = () => opened.call('sessions.list', { planId: 1 });

test('a session picked, kept, changed, found again after a reload, printed in one go, archived and taken back', async () => {
  const { page, complaints } = await opened.page();
  await page.keyboard.press('Control+5');
  await page.getByRole('button', { name: 'Choose all batches' }).click();
  await page.getByLabel('name', { exact: true }).fill('Practical of Thursday');
  await page.getByLabel('day', { exact: true }).fill('2027-02-25');
  await page.getByLabel('begins').fill('8.30');
  await page.getByRole('button', { name: 'Keep this session' }).click();
  await page.getByText(/^kept /).waitFor();
  const [kept] = await sessions();
  expect(kept?.session).toMatchObject({ name: 'Practical of Thursday', date: '2027-02-25', starts: '08:30', hours: 8 });
  expect(kept?.session.batches).toHaveLength(5);

  // What is wrong is said at its place and not saved; what is right is saved by itself.
  await page.getByLabel('hours').fill('0');
  await page.getByText('The hours of the day need a number above 0').waitFor();
  await page.getByLabel('hours').fill('5.5');
  await expect.poll(async () => (await sessions())[0]?.session.hours).toBe(5.5);
  // Said where the hours are typed, and again over the times of the day.
  await page
    .locator('.session-notes')
    .getByText(/past the 5\sh 30\smin of this day/)
    .waitFor();
  await page
    .locator('.bench-day')
    .getByText(/past the 5\sh 30\smin of this day/)
    .waitFor();
  await page.getByText('Not over by 14:00, at the earliest').waitFor();
  await page.getByLabel('day', { exact: true }).fill('2020-02-25');
  await page.getByText('This day has gone by.').waitFor();
  await page.getByLabel('day', { exact: true }).fill('2027-02-25');
  await expect.poll(() => page.getByText('This day has gone by.').count()).toBe(0);
  await page.locator('.bench-batch', { hasText: 'quinoxaline' }).getByRole('checkbox').uncheck();
  await expect.poll(async () => (await sessions())[0]?.session.batches.length).toBe(4);
  await page.getByText('Test or purify benzaldehyde').waitFor();
  await page.getByText('Make up M1').waitFor();
  expect(await violationsOn(page)).toEqual([]);

  await page.reload();
  await page.getByText(/^kept /).waitFor();
  await expect.poll(() => page.getByLabel('hours').inputValue()).toBe('5.5');
  await page.getByRole('combobox', { name: 'Sessions of this plan' }).selectOption('a new session');
  await page.getByRole('button', { name: 'Choose none of the batches' }).click();
  await page.getByRole('combobox', { name: 'Sessions of this plan' }).selectOption({ index: 1 });
  await expect.poll(() => page.locator('.bench-batch input:checked').count()).toBe(4);
  expect((await sessions())[0]?.session.batches).toHaveLength(4);

  await page.getByRole('button', { name: 'Issue and open: All papers of the session' }).click();
  await page.waitForURL(/paper=\d+/);
  const id = Number(/paper=(\d+)/.exec(page.url())?.[1]);
  const { base64 } = await opened.call('papers.pdf', { id });
  const text = pdfText(base64, opened.folder);
  const pages = text.split('\f').slice(0, -1);
  expect(pages[0]).toContain('Day of Practical of Thursday');
  expect(pages[0]).toContain('25 Feb 2027, from 08:30');
  for (const head of ['Fetch list for', 'Make-up', 'sheet 1-1', 'sheet 2-2', 'sheet 3-1']) expect(text).toContain(head);
  // One count of pages over all of it, and each part under its own head and foot.
  expect(pages.map((one, at) => one.includes(`page ${at + 1} of ${pages.length}`))).toEqual(pages.map(() => true));
  expect(pages.filter((one) => one.includes('of 4 batches of this session')).length).toBeGreaterThan(0);
  const codes = pdfPictures(base64, opened.folder).map((one) => codeIn(partOf(one, { left: 0, top: 0, width: 215, height: 75 })));
  expect(codes.filter((one) => one !== null)).toEqual(
    ['1-1', '2-1', '2-2', '3-1'].map((sheet) => writeCode({ kind: 'sheet', paper: id, sheet })),
  );

  await page.getByRole('link', { name: 'Back to Backweigh' }).click();
  await page.getByText(/^kept /).waitFor();
  await page.getByRole('button', { name: 'Archive', exact: true }).click();
  await page.getByRole('button', { name: 'Take it out of the archive' }).waitFor();
  expect((await sessions())[0]).toMatchObject({ archived: true });
  await page.getByRole('button', { name: 'Take it out of the archive' }).click();
  await page.getByRole('button', { name: 'Archive', exact: true }).waitFor();
  expect((await sessions())[0]).toMatchObject({ archived: false });

  // The code of a sheet in the pack opens its batch.
  await page.locator('body').click({ position: { x: 640, y: 5 } });
  await page.keyboard.type(codes.find((one) => one?.includes('3-1')) ?? '', { delay: 4 });
  await page.keyboard.press('Enter');
  await page.getByText('Sheet 3-1 is chosen.').waitFor();
  await expect.poll(() => page.locator('.bench-batch input:checked').count()).toBe(1);
  // And so does what is printed under the code, typed by hand.
  expect(text).toContain(`S${id}.2-2`);
  await page.keyboard.type(`S${id}.2-2`, { delay: 4 });
  await page.keyboard.press('Enter');
  await page.getByText('Sheet 2-2 is chosen.').waitFor();
  await expect.poll(() => page.locator('.bench-batch input:checked').count()).toBe(1);
  await page.waitForTimeout(700);
  expect((await sessions())[0]?.session.batches).toHaveLength(4);
  expect(complaints).toEqual([]);
});

test('the Bench reads its lists when it is opened, and then leaves the program alone', async () => {
  const { page } = await opened.page();
  await page.keyboard.press('Control+5');
  await page.getByText('Issued from this plan').waitFor();
  // It comes to rest, however long a busy machine takes over the lists: a whole second without a question.
  let asked: string[] = [];
  page.on('request', (request) => asked.push(request.url()));
  const askedMeanwhile = async (): Promise<readonly string[]> => {
    asked = [];
    await page.waitForTimeout(1000);
    return asked.filter((url) => url.includes('/call/'));
  };
  await expect.poll(askedMeanwhile).toEqual([]);
  await page.close();
});

test('two windows: the one that saw an older state is refused and shows the newer', async () => {
  const [one] = await sessions();
  if (!one) throw new Error('no session');
  const more = { id: one.id, session: { ...one.session, name: 'A' }, archived: false };
  await opened.call('sessions.save', { ...more, after: one.state });
  await expect(opened.call('sessions.save', { ...more, after: one.state })).rejects.toThrow('changed in another window');
});
