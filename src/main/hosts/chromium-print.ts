import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from '../store/refusal.ts';
import { type ChromiumPipe, startChromium } from './chromium-pipe.ts';
import { QUIET_FLAGS } from './find-browser.ts';
import { READ_STATE, untilReady } from './paper-ready.ts';

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
    await untilReady(() => stateOf(chromium, session));
    const { data } = await chromium.send('Page.printToPDF', PDF_OPTIONS, session);
    return Buffer.from(String(data), 'base64');
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal('not here', mainWords.paper.failed);
  } finally {
    await chromium.end();
    await removeProfile(profile);
  }
}

const REMOVALS = 20;
const REMOVAL_PAUSE = 50;

/** Removes a profile for good: a browser's last helper may still write into it after the browser itself has ended. */
async function removeProfile(profile: string): Promise<void> {
  for (let round = 0; round < REMOVALS; round += 1) {
    rmSync(profile, { recursive: true, force: true, maxRetries: 3 });
    await new Promise((done) => setTimeout(done, REMOVAL_PAUSE));
    if (!existsSync(profile)) return;
  }
}

async function stateOf(chromium: ChromiumPipe, session: string): Promise<unknown> {
  const { result } = await chromium.send('Runtime.evaluate', { expression: READ_STATE, returnByValue: true }, session);
  return result !== null && typeof result === 'object' && 'value' in result ? result.value : null;
}
