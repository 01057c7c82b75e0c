import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { PlanFile } from '../../src/core/plan/ask.ts';
import { plan } from '../../src/core/plan/plan.ts';
import type { PlanResult } from '../../src/core/plan/result.ts';
import { formatAmount } from '../../src/core/quantity/format.ts';
import { readFile } from '../../src/core/route/read-file.ts';
import { readRoute } from '../../src/core/route/read-route.ts';
import { readShelf } from '../../src/core/shelf/read-shelf.ts';
import { STANDING } from '../../src/core/words/sentences.ts';
import { settings } from '../core/build.ts';
import { reference } from '../reference/tables.ts';
import { type Opened, openProgram, pdfText } from './window.ts';

// The main job, through the real window, the real store and the real printer: first start → 25 g → amounts follow →
// a bottle is emptied → "short" → the sheet is issued → the PDF has every charge exactly once.

const demo = join(import.meta.dirname, '..', '..', 'resources', 'demo');
const text = (name: string): string => readFileSync(join(demo, name), 'utf8');

function must<T>(
  reading: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problems: readonly unknown[] },
): T {
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.value;
}

/** What the core says for the demonstration with so much of the first draw. */
async function expectedPlan(opened: Opened, grams: number): Promise<PlanResult> {
  const { ask } = must(readFile(text('practicals.plan.json'), PlanFile, () => []));
  const draws = ask.draws.map((draw, i) => (i === 0 ? { ...draw, amount: grams } : draw));
  const { today } = await opened.call('program.about', {});
  return plan({
    route: must(readRoute(text('practicals.route.json'))),
    shelf: must(readShelf(text('prep-room.shelf.json'))),
    ask: { ...ask, draws },
    settings,
    reference,
    asOf: today,
  });
}

let opened: Opened;
beforeAll(async () => {
  opened = await openProgram();
});
afterAll(() => opened.close());

describe('the main job', () => {
  test('first start opens the demonstration; typing 25 g moves every amount; undo brings it back', async () => {
    const { page, complaints } = await opened.page();
    const target = page.getByRole('textbox', { name: 'Amount of tetraphenylcyclopentadienone' });
    const startOf = async (grams: number): Promise<string> => {
      const { text, unit } = formatAmount(
        (await expectedPlan(opened, grams)).steps[0]?.basis.grams ?? { value: 0, unit: 'g', digits: 3 },
      );
      return `${text} ${unit}`;
    };
    const first = page.getByRole('button', { name: /^Step 1, / });
    const shows = async (grams: number): Promise<void> => {
      const start = await startOf(grams);
      await expect.poll(() => first.getAttribute('aria-label')).toContain(`: ${start} benzaldehyde`);
    };
    await shows(20);
    await target.fill('25 g');
    await shows(25);
    await target.press('Enter');
    await page.getByRole('button', { name: /^Undo/ }).click();
    await shows(20);
    await page.getByRole('button', { name: /^Redo/ }).click();
    await shows(25);
    await page.reload();
    await shows(25);
    // What was on its way when the page was loaded again is kept before this window is closed.
    await expect.poll(async () => (await opened.call('plans.read', { id: 1 })).ask.draws[0]?.amount).toBe(25);
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('a nonsense amount is refused at its place, keeps what was typed, and loses no plan', async () => {
    const { page } = await opened.page();
    const target = page.getByRole('textbox', { name: 'Amount of tetraphenylcyclopentadienone' });
    await target.fill('25 gg');
    await expect.poll(() => target.getAttribute('aria-invalid')).toBe('true');
    expect(await target.inputValue()).toBe('25 gg');
    expect(await page.getByText('is not a unit this takes: µg, mg, g, kg, t, µmol, mmol, mol or kmol').isVisible()).toBe(true);
    expect(await page.getByText(/^Still planned for \d+ g\.$/).isVisible()).toBe(true);
    expect(await page.getByRole('button', { name: /^Step 1, / }).count()).toBe(1);
    await page.context().close();
  });

  test('a bottle emptied on the shelf makes its line short, and the ledger keeps both', async () => {
    const { page, complaints } = await opened.page();
    const line = page
      .getByRole('region', { name: 'Fetch list' })
      .getByRole('listitem')
      .filter({ hasText: 'potassium hydroxide' });
    await expect.poll(() => line.textContent()).toContain('enough');
    await page.keyboard.press('Control+3');
    await page.getByRole('searchbox').fill('koh');
    await page.getByRole('row', { name: /potassium hydroxide/ }).click();
    await page.getByRole('radio', { name: 'Use' }).check();
    await page.getByRole('textbox', { name: 'how much was used' }).fill('310 g');
    await page.getByRole('button', { name: 'Record as used' }).click();
    await page.getByRole('row', { name: /used/ }).first().waitFor();
    await page.keyboard.press('Control+2');
    await expect.poll(() => line.textContent()).toContain('short');
    await page.keyboard.press('Control+4');
    await expect.poll(() => page.getByRole('main', { name: 'Buy' }).textContent()).toContain('potassium hydroxide');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('the sheets are issued, kept for ever, and their PDF has every charge exactly once', async () => {
    const { page, complaints } = await opened.page();
    await page.keyboard.press('Control+5');
    await page.getByRole('button', { name: 'Choose all batches' }).click();
    await page.getByRole('button', { name: 'Issue and open: Weighing sheets' }).click();
    const plans = await opened.call('plans.list', {});
    const planId = plans[0]?.id ?? 0;
    await expect.poll(async () => (await opened.call('papers.list', { planId })).length).toBe(1);
    const [paper] = await opened.call('papers.list', { planId });
    const pdf = await opened.call('papers.pdf', { id: paper?.id ?? 0 });
    const printed = pdfText(pdf.base64, opened.folder);
    const result = await expectedPlan(opened, 25);
    for (const step of result.steps) {
      const charges = step.operations.filter((operation) => operation.kind === 'charge').length;
      for (let batch = 1; batch <= step.batches.count; batch += 1) {
        const pages = printed.split('\f').filter((one) => one.includes(`sheet ${step.number}-${batch} ·`));
        const numbers = pages.flatMap((one) => [...one.matchAll(/^ ?(\d{1,3}) {3,}/gm)].map((match) => Number(match[1])));
        const made = pages.join('').includes('Make up first') ? 2 : 0;
        expect(numbers.slice(made), `sheet ${step.number}-${batch}`).toEqual(Array.from({ length: charges }, (_, i) => i + 1));
        expect(pages[0]).toContain(`${charges} of ${charges} charges on this sheet`);
      }
    }
    expect(printed).toContain(STANDING);
    expect(printed).not.toContain('undefined');
    const again = await opened.call('papers.read', { id: paper?.id ?? 0 });
    expect(JSON.stringify(again.paper)).toBe(JSON.stringify((await opened.call('papers.read', { id: paper?.id ?? 0 })).paper));
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});

describe('a second route, unlike the demonstration', () => {
  test('is imported, planned, drawn with its recycles and printed', async () => {
    const { page, complaints } = await opened.page();
    await page.keyboard.press('Control+1');
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Import a route file' }).click();
    await (await chooser).setFiles(join(import.meta.dirname, '..', 'fixtures', 'cinnamate.route.json'));
    await page.getByRole('heading', { name: 'Benzyl cinnamate' }).waitFor();
    await page.getByRole('button', { name: 'Plan this route' }).click();
    await page.getByRole('textbox', { name: 'Amount of benzyl cinnamate' }).fill('50 g');
    // 50 g ÷ 238.286 ÷ 0.85 mol of cinnamic acid, 148.161 g/mol.
    await expect
      .poll(() => page.getByRole('button', { name: /^Step 3, Esterification/ }).getAttribute('aria-label'))
      .toContain('36.6 g trans-cinnamic acid');
    expect(await page.getByRole('main').textContent()).toContain('comes back');
    await page.keyboard.press('Control+5');
    await page.getByRole('button', { name: 'Choose all batches' }).click();
    await page.getByRole('button', { name: 'Issue and open: Weighing sheets' }).click();
    const plans = await opened.call('plans.list', {});
    const planId = plans.find((one) => one.name === 'Benzyl cinnamate')?.id ?? 0;
    await expect.poll(async () => (await opened.call('papers.list', { planId })).length).toBe(1);
    const [paper] = await opened.call('papers.list', { planId });
    const printed = pdfText((await opened.call('papers.pdf', { id: paper?.id ?? 0 })).base64, opened.folder);
    for (const name of ['malonic acid', 'sodium borohydride', 'p-toluenesulfonic acid']) expect(printed).toContain(name);
    expect(printed).not.toContain('benzil');
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('a wrong file is refused with every problem at its place, and nothing is written', async () => {
    const { page } = await opened.page();
    const before = await opened.call('routes.list', {});
    await page.keyboard.press('Control+1');
    const chooser = page.waitForEvent('filechooser');
    await page.getByRole('button', { name: 'Import a route file' }).click();
    const wrong = { backweigh: 'route', version: 2, name: '', materials: {}, steps: [] };
    await (await chooser).setFiles({
      name: 'wrong.route.json',
      mimeType: 'application/json',
      buffer: Buffer.from(JSON.stringify(wrong)),
    });
    await page.getByText('/version').waitFor();
    for (const place of ['/name', '/steps']) expect(await page.getByText(place).count()).toBeGreaterThan(0);
    expect(await opened.call('routes.list', {})).toEqual(before);
    await page.context().close();
  });
});
