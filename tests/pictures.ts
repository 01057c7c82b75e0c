// `npm run pictures`: the pictures of README.md, taken from the running program on a fresh copy of its ready example.
import { spawnSync } from 'node:child_process';
import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { type Opened, openProgram, pdfText } from './e2e/window.ts';

const PICTURES = join(import.meta.dirname, '..', 'resources', 'screenshots');

/** The Plan and the Routes place, light. */
async function places(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Skip' }).click();
  await page
    .getByRole('textbox', { name: /^Amount of/ })
    .first()
    .waitFor();
  await page.getByRole('img', { name: 'benzoin' }).waitFor();
  await page.waitForTimeout(1000);
  await page.screenshot({ path: join(PICTURES, 'plan.png') });
  await page.keyboard.press('Control+1');
  await page.getByRole('group', { name: 'The route drawn' }).waitFor();
  await page.waitForTimeout(500);
  await page.screenshot({ path: join(PICTURES, 'routes.png') });
}

/** The first page of the weighing sheet of a step with cautions, as it is printed. */
async function sheet(page: Page, opened: Opened): Promise<void> {
  await page.keyboard.press('Control+5');
  await page.getByRole('button', { name: 'Choose all batches' }).click();
  await page.getByRole('button', { name: 'Issue and open: Weighing sheets' }).click();
  let papers = await opened.call('papers.list', { planId: 1 });
  while (papers.length === 0) {
    await page.waitForTimeout(200);
    papers = await opened.call('papers.list', { planId: 1 });
  }
  const { base64 } = await opened.call('papers.pdf', { id: papers[0]?.id ?? 0 });
  const pdf = join(opened.folder, 'sheet.pdf');
  writeFileSync(pdf, Buffer.from(base64, 'base64'));
  const pages = pdfText(base64, opened.folder).split('\f');
  const first = String(pages.findIndex((text) => text.includes('sheet 2-1')) + 1);
  const to = join(PICTURES, 'sheet');
  const drawn = spawnSync('pdftoppm', ['-png', '-r', '80', '-f', first, '-l', first, '-singlefile', pdf, to], {
    encoding: 'utf8',
  });
  rmSync(pdf);
  if (drawn.status !== 0) throw new Error(`pdftoppm: ${drawn.stderr}`);
}

const opened = await openProgram();
try {
  const { page } = await opened.page({ viewport: { width: 1440, height: 900 }, colorScheme: 'light' });
  await places(page);
  await sheet(page, opened);
} finally {
  await opened.close();
}
