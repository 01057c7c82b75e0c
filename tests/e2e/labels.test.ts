import type { Page } from 'playwright';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { typedCode, writeCode } from '../../src/core/code/code.ts';
import type { LabelPaper } from '../../src/core/paper/paper.ts';
import type { LabelSize } from '../../src/core/reference-rows.ts';
import { readReferenceRows } from '../../src/main/tables.ts';
import { codeIn, partOf, pdfPictures } from './pdf-picture.ts';
import { type Opened, openProgram, pdfText } from './window.ts';

// Labels printed by the program itself, turned into pictures, every code read back by a decoder; then scanned.
let opened: Opened;
const sizes = readReferenceRows().labelSizes;
const KEEP = process.env['BACKWEIGH_KEEP_PICTURES'];

beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened?.close());

const LONG =
  '(2R,3R,4S,5S,6R)-2-[(2S,3S,4S,5R)-3,4-dihydroxy-2,5-bis(hydroxymethyl)oxolan-2-yl]oxy-6-(hydroxymethyl)oxane-3,4,5-triol octaacetate';

function labels(count: number): LabelPaper['labels'] {
  return Array.from({ length: count }, (_none, at) => ({
    label: `B-${at + 1}`,
    // The second is of the longest label there may be, as a table from elsewhere may bring it.
    code: writeCode({ kind: 'bottle', label: at === 1 ? `Säurenschrank ${'7'.repeat(66)}` : `B-${at + 1}` }),
    name: at % 3 === 0 ? LONG : at % 3 === 1 ? 'nitric acid' : 'α-D-Glucopyranose, β-anomer free',
    strength: at % 3 === 1 ? '68 % w/w in water' : 'assay 98.5 % w/w',
    more: 'C₆H₁₂O₆ · CAS 7697-37-2',
    signal: at % 2 === 0 ? 'Danger' : 'Warning',
    pictograms: ['GHS01', 'GHS02', 'GHS03', 'GHS05', 'GHS06', 'GHS08', 'GHS09'].slice(0, (at % 7) + 1),
    statements: ['H272', 'H290', 'H314', 'H331', 'H350', 'H410'].slice(0, (at % 6) + 1),
    unlisted: at % 4 === 0 ? 'No harmonised entry here: read the safety sheet.' : '',
    lot: `LOT-${at + 1}`,
    place: 'Cabinet for acids, second shelf',
    received: '1 Sept 2026',
    opened: at % 2 === 0 ? '' : '25 Nov 2026',
    useBy: '31 Aug 2027',
  }));
}

function paperOf({ name, page, ...lengths }: LabelSize, count: number, start: number): LabelPaper {
  const layout = { name, single: page === 'single', ...lengths };
  const size = page === 'single' ? 'A4' : page;
  const head = {
    backweigh: 'paper',
    version: 1,
    kind: 'labels',
    title: 'Labels',
    plan: '',
    route: '',
    asOf: '2026-11-25',
  } as const;
  return { ...head, size, layout, start, labels: labels(count) };
}

async function printed(paper: LabelPaper): Promise<string> {
  const { id } = await opened.call('papers.issue', { planId: null, state: null, kind: paper.kind, title: paper.title, paper });
  return (await opened.call('papers.pdf', { id })).base64;
}

describe.each(sizes)('$name', (size) => {
  test('every label stands whole in its place and its code is read back', async () => {
    const places = size.columns * size.rows;
    const start = Math.min(places, 2);
    const count = size.page === 'single' ? 3 : places;
    const paper = paperOf(size, count, start);
    const pdf = await printed(paper);
    if (KEEP) writeFileSync(join(KEEP, `${size.name.replaceAll(/[^\w]+/g, '-')}.pdf`), Buffer.from(pdf, 'base64'));
    const pages = pdfPictures(pdf, opened.folder, 200);
    expect(pages).toHaveLength(Math.ceil((count + start - 1) / places));
    for (const [at, label] of paper.labels.entries()) {
      const place = at + start - 1;
      const picture = pages[Math.floor(place / places)];
      if (!picture) throw new Error('no page');
      const on = place % places;
      const left = size.left + (on % size.columns) * size.across;
      const top = size.top + Math.floor(on / size.columns) * size.down;
      const part = partOf(picture, { left, top, width: size.width, height: size.height });
      expect(codeIn(part), `${label.label} on ${size.name}`).toBe(label.code);
    }
    const text = pdfText(pdf, opened.folder).replaceAll(/\s+/g, ' ');
    for (const { lot, label } of paper.labels) {
      expect(text.match(new RegExp(`\\b${lot}\\b`, 'g')), lot).toHaveLength(1);
      expect(text.match(new RegExp(`(?<![\\w-])${label}(?![\\w-])`, 'g')), label).toHaveLength(1);
    }
  });
});

/** A scanner types without a pause, however busy this machine is; outside of all fields. */
async function scan(page: Page, code: string): Promise<void> {
  await page.evaluate((text) => {
    for (const key of [...text, 'Enter'])
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true }));
  }, code);
}

describe('from the Shelf, and back by a scan', () => {
  test('a bottle’s label is made on its page, and its code opens it from any place', async () => {
    const { page, complaints } = await opened.page();
    await page.keyboard.press('Control+3');
    await page.getByRole('searchbox').fill('benzaldehyde');
    await page.locator('.bottle-row', { hasText: 'benzaldehyde' }).first().click();
    await page.locator('.bottle summary', { hasText: 'Label' }).click();
    await page.getByRole('combobox', { name: 'Labels' }).selectOption('single 100 × 60 mm');
    await page.getByRole('button', { name: 'Print or save' }).click();
    await page.waitForURL(/paper=\d+/);
    await page.locator('.label').waitFor();
    const label = (await page.locator('.label').getAttribute('data-label')) ?? '';
    const id = Number(/paper=(\d+)/.exec(page.url())?.[1]);
    const [picture] = pdfPictures((await opened.call('papers.pdf', { id })).base64, opened.folder, 200);
    const code = picture ? codeIn(picture) : null;
    expect(code).toBe(writeCode({ kind: 'bottle', label }));
    await page.getByRole('link', { name: 'Back to Backweigh' }).click();
    await page.getByRole('main', { name: 'Shelf' }).waitFor();

    // In another place, with the cursor in a field where something was typed.
    await page.keyboard.press('Control+2');
    const field = page.getByRole('main', { name: 'Plan' }).getByRole('textbox').first();
    await field.focus();
    const before = await field.inputValue();
    await page.keyboard.press('End');
    await page.keyboard.type(code ?? '', { delay: 4 });
    await page.keyboard.press('Enter');
    await page.getByRole('main', { name: 'Shelf' }).waitFor();
    await page.locator('.bottle', { hasText: `bottle ${label}` }).waitFor();
    await page.keyboard.press('Control+2');
    await expect.poll(() => field.inputValue()).toBe(before);

    // With no field under the cursor.
    await page.keyboard.press('Control+5');
    await page.locator('body').click({ position: { x: 640, y: 5 } });
    await scan(page, code ?? '');
    await page.getByRole('main', { name: 'Shelf' }).waitFor();

    // A misread one is told.
    await page.keyboard.press('Control+5');
    await scan(page, `${code?.slice(0, -1) ?? ''}x`);
    await page.getByText('That code was misread.').waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  test('the code of a weighing sheet opens its batch', async () => {
    const { page } = await opened.page();
    await page.keyboard.press('Control+5');
    await page.getByRole('button', { name: 'Choose all batches' }).click();
    await page.getByRole('button', { name: 'Issue and open: Weighing sheets' }).click();
    await page.waitForURL(/paper=\d+/);
    const id = Number(/paper=(\d+)/.exec(page.url())?.[1]);
    const pdf = (await opened.call('papers.pdf', { id })).base64;
    if (KEEP) writeFileSync(join(KEEP, 'sheets.pdf'), Buffer.from(pdf, 'base64'));
    const found = pdfPictures(pdf, opened.folder, 150).map((picture) => codeIn(upperPart(picture)));
    const { paper } = await opened.call('papers.read', { id });
    const sheets = (paper as { sheets: readonly { id: string }[] }).sheets.map((one) => one.id);
    expect(found.filter((one) => one !== null)).toEqual(sheets.map((sheet) => writeCode({ kind: 'sheet', paper: id, sheet })));

    await page.goto(`${opened.program.address.replace(/#.*/, '')}#token=${opened.program.token}`);
    await page.getByRole('main', { name: 'Plan' }).waitFor();
    const [, second = ''] = sheets;
    await page.getByRole('button', { name: /^Step 1, / }).waitFor();
    await scan(page, typedCode({ kind: 'sheet', paper: id, sheet: second }));
    await page.getByRole('main', { name: 'Bench' }).waitFor();
    await page.getByText(`Sheet ${second} is chosen.`).waitFor();
    await expect.poll(() => page.locator('.bench-batch input:checked').count()).toBe(1);
    await page.close();
  });
});

function upperPart(picture: ReturnType<typeof pdfPictures>[number]) {
  return partOf(picture, { left: 0, top: 0, width: 215, height: 75 });
}
