import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { demoContext } from '../core/demo-fixture.ts';
import { violationsOn } from './accessible.ts';
import { type Opened, openProgram, pdfText } from './window.ts';

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

/** What is said of a step's scale where its record of runs was read, and is empty. */
const NO_RUN = 'No run of this step is recorded';
const ACID = 'table.operations [data-operation="nitric-acid"]';

describe('cautions are read, and stay', () => {
  test('initials beside a caution of the step card: by keyboard, kept over a reload, and nothing goes', async () => {
    const { page, complaints } = await opened.page();
    await page.getByRole('button', { name: /^Step 2, / }).click();
    await page.locator(ACID).waitFor();
    const lines = page.locator('.caution-line');
    // What the record of runs has to say comes with it.
    await lines.filter({ hasText: NO_RUN }).first().waitFor();
    const said = await lines.locator('> p').allTextContents();
    const reaction = lines.filter({ hasText: 'The reaction itself brings nitric acid and benzoin together' });
    // What stands on no list of initials is refused at its place, and stays as typed.
    const button = reaction.getByRole('button', { name: /Write your initials: you have read “The reaction itself/ });
    await button.focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('!!');
    await page.keyboard.press('Enter');
    await reaction.getByRole('alert').filter({ hasText: 'Initials are needed' }).waitFor();
    expect(await reaction.getByRole('textbox', { name: 'initials' }).inputValue()).toBe('!!');
    await page.keyboard.press('Control+a');
    await page.keyboard.type('AB');
    await page.keyboard.press('Enter');
    await reaction.getByText(/^read by AB, /).waitFor();
    expect(await violationsOn(page)).toEqual([]);
    await page.reload();
    await page.getByRole('button', { name: /^Step 2, / }).click();
    await reaction.getByText(/^read by AB, /).waitFor();
    // Every sentence is still there, for the next person.
    const still = async (): Promise<readonly string[]> =>
      (await lines.locator('> p').allTextContents()).map((text) => text.replace(/read by AB, .*$/, ''));
    await expect.poll(still).toEqual(said);
    await button.waitFor();
    const kept = await opened.call('cautions.acknowledged', { planId: 1 });
    expect(kept.map((one) => [one.step, one.operation, one.code, one.by])).toEqual([
      ['benzil', 'nitric-acid', 'reaction itself', 'AB'],
    ]);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('a batch of ten times the size has to be read for again; back at the old size it stands as read', async () => {
    const { page } = await opened.page();
    await page.getByRole('button', { name: /^Step 1, / }).click();
    const line = page.locator('.caution-line').filter({ hasText: 'sodium hydroxide: Causes severe skin burns' });
    await line.getByRole('button', { name: /Write your initials/ }).click();
    await page.keyboard.type('EF');
    await page.keyboard.press('Enter');
    await line.getByText(/^read by EF, /).waitFor();
    const words = await line.locator('> p').textContent();
    const amount = page.getByRole('textbox', { name: 'Amount of tetraphenylcyclopentadienone' });
    const before = await amount.inputValue();
    await amount.fill('250 g');
    await amount.press('Enter');
    await line.getByText(/this, for a batch of less than half the size, was read by EF, .*: read it again$/).waitFor();
    expect(await line.getByText(/^read by EF, /).count()).toBe(0);
    // The caution says the same words as before: it is the scale that has changed.
    expect(words?.startsWith('sodium hydroxide: Causes severe skin burns and eye damage.')).toBe(true);
    await amount.fill(before.includes('g') ? before : `${before} g`);
    await amount.press('Enter');
    await line.getByText(/^read by EF, /).waitFor();
    await page.context().close();
  });

  test('while weighing it goes into the record of the run, and into its report', async () => {
    const { page } = await opened.page();
    await page.keyboard.press('Control+5');
    await page.getByRole('button', { name: 'Weigh sheet 1-1' }).click();
    await page.keyboard.type('CD');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Read first' }).waitFor();
    await page.keyboard.type('CD');
    await page.keyboard.press('Enter');
    await page.locator('.weigh-name').filter({ hasText: 'benzaldehyde' }).waitFor();
    const first = page.locator('.weigh-cautions li').first();
    const words = (await first.locator('> span').textContent()) ?? '';
    await page.keyboard.press('Control+e');
    await first.getByText(/^read by CD, /).waitFor();
    expect(await first.textContent()).toContain(words);
    const { entries } = await opened.call('runs.read', { id: 1 });
    expect(entries.at(-1)?.entry).toEqual({ kind: 'acknowledged', by: 'CD', operation: 'benzaldehyde', words });
    // What the sheet does not say cannot be read on it.
    const made = opened.call('runs.add', {
      id: 1,
      after: entries.length,
      entry: { kind: 'acknowledged', by: 'CD', operation: 'benzaldehyde', words: 'made up' },
    });
    await expect(made).rejects.toThrow('does not say this caution there');
    await page.context().close();
  });

  test('on paper each caution is there, with one place for initials before its operation, in A4 and Letter', async () => {
    for (const size of ['A4', 'Letter'] as const) {
      const paper = weighingPaper([{ step: 'benzil', batch: 1 }], { ...demoContext, size });
      const { id } = await opened.call('papers.issue', { planId: 1, state: 1, kind: paper.kind, title: paper.title, paper });
      const text = pdfText((await opened.call('papers.pdf', { id })).base64, opened.folder);
      const sheet = paper.sheets.flatMap((one) => [...one.makeUps, ...one.stages.flatMap((stage) => stage.entries)]);
      const cautions = sheet.flatMap((one) => one.before).filter((one) => one.kind !== 'note');
      expect(cautions.length).toBeGreaterThan(8);
      const places = sheet.filter((one) => one.before.some(({ kind }) => kind !== 'note'));
      expect(text.match(/(?:^|\s)read\s*$/gm)).toHaveLength(places.length);
      // However the paper breaks its lines; the places for initials taken out.
      const running = text.replaceAll(/\sread\s*$/gm, '').replaceAll(/\s/g, '');
      for (const { words } of cautions) expect(running.includes(words.replaceAll(/\s/g, '')), words).toBe(true);
    }
  });
});
