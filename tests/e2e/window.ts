// One window of the real program for an end-to-end test: the browser host on a data folder of its own.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContextOptions, Locator, Page } from 'playwright';
import type { ProcedureInput, ProcedureName, ProcedureOutput } from '../../src/core/port/port.ts';
import type { PortResult } from '../../src/core/port/result.ts';
import { launchChromium, type RunningProgram, startProgram } from '../browser.ts';
import { slowed } from './slow.ts';

export interface Opened {
  readonly program: RunningProgram;
  readonly browser: Browser;
  readonly folder: string;
  /** A new page on the program, with every word the browser complained about. */
  page(options?: BrowserContextOptions, slow?: string): Promise<{ readonly page: Page; readonly complaints: string[] }>;
  /** A procedure called as the window calls it. */
  call<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<ProcedureOutput<N>>;
  close(): Promise<void>;
}

export async function openProgram(folder = mkdtempSync(join(tmpdir(), 'backweigh-e2e-'))): Promise<Opened> {
  const program = await startProgram(folder);
  const browser = await launchChromium();
  return {
    program,
    browser,
    folder,
    async page(options = {}, slow = process.env.SLOW ?? '') {
      const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, locale: 'en-GB', ...options });
      // A slow machine is no failure: only a hang takes so long.
      context.setDefaultTimeout(60_000);
      const page = await context.newPage();
      await slowed(context, page, slow);
      const complaints: string[] = [];
      page.on('pageerror', (error) => complaints.push(error.message));
      page.on('console', (message) => {
        if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
      });
      await page.goto(program.address);
      await page.getByRole('main', { name: 'Plan' }).waitFor();
      return { page, complaints };
    },
    async call(name, input) {
      const answer = await fetch(`${program.origin}/call/${name}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', authorization: `Bearer ${program.token}` },
        body: JSON.stringify(input),
      });
      const result = (await answer.json()) as PortResult<never>;
      if (!result.ok) throw new Error(`${name}: ${result.code} ${result.detail}`);
      return result.value;
    },
    async close() {
      await browser.close();
      await program.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Drags one thing onto the middle of another, wherever the two stand when the mouse comes there. */
export async function drag(page: Page, from: Locator, to: Locator): Promise<void> {
  await from.hover({ position: { x: 4, y: 6 } });
  await page.mouse.down();
  await to.hover({ position: { x: 200, y: ((await to.boundingBox())?.height ?? 0) / 2 } });
  await page.mouse.up();
}

/** The text of a PDF as a reader sees it; µ and μ are the same letter. */
export function pdfText(base64: string, folder: string): string {
  const file = join(folder, 'paper.pdf');
  writeFileSync(file, Buffer.from(base64, 'base64'));
  const { stdout, status, stderr } = spawnSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  if (status !== 0) throw new Error(`pdftotext: ${stderr}`);
  return stdout.replaceAll('μ', 'µ');
}
