import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { READY } from '../../core/port/wire.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from '../store/refusal.ts';
import { type ChromiumPipe, startChromium } from './chromium-pipe.ts';
import { QUIET_FLAGS } from './find-browser.ts';

const READY_MILLISECONDS = 20_000;
const LOOK_EVERY_MILLISECONDS = 40;
const IS_READY = `document.documentElement.dataset[${JSON.stringify(READY.name)}] === ${JSON.stringify(READY.value)}`;

/** The paper's own CSS decides its size and margins; nothing of the browser's is printed on it. */
export const PDF_OPTIONS = {
  preferCSSPageSize: true,
  printBackground: true,
  displayHeaderFooter: false,
  generateTaggedPDF: true,
} as const;

interface Printing {
  readonly browser: string;
  readonly flags: readonly string[];
  /** Address of the paper's page. */
  readonly address: string;
  readonly dataFolder: string;
}

/** Opens a paper's page in a headless browser of its own, waits until it is laid out, and prints it. */
export async function printPage({ browser, flags, address, dataFolder }: Printing): Promise<Uint8Array> {
  const profile = mkdtempSync(join(dataFolder, 'printing-'));
  const chromium = startChromium(browser, [...QUIET_FLAGS, `--user-data-dir=${profile}`, ...flags]);
  try {
    const { targetId } = await chromium.send('Target.createTarget', { url: 'about:blank' });
    const { sessionId } = await chromium.send('Target.attachToTarget', { targetId, flatten: true });
    const session = String(sessionId);
    await chromium.send('Emulation.setEmulatedMedia', { features: [{ name: 'prefers-color-scheme', value: 'light' }] }, session);
    await chromium.send('Page.navigate', { url: address }, session);
    await untilReady(chromium, session);
    const { data } = await chromium.send('Page.printToPDF', PDF_OPTIONS, session);
    return Buffer.from(String(data), 'base64');
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal('not here', mainWords.paper.failed);
  } finally {
    await chromium.end();
    rmSync(profile, { recursive: true, force: true, maxRetries: 3 });
  }
}

async function untilReady(chromium: ChromiumPipe, session: string): Promise<void> {
  for (const until = Date.now() + READY_MILLISECONDS; Date.now() < until; ) {
    const { result } = await chromium.send('Runtime.evaluate', { expression: IS_READY, returnByValue: true }, session);
    if (result !== null && typeof result === 'object' && 'value' in result && result.value === true) return;
    await new Promise((done) => setTimeout(done, LOOK_EVERY_MILLISECONDS));
  }
  throw new Refusal('not here', mainWords.paper.notReady);
}
