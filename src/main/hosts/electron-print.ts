import type { BrowserWindow, BrowserWindowConstructorOptions } from 'electron';
import { FRAGMENT, READY } from '../../core/port/wire.ts';
import { mainWords } from '../../core/words/main-words.ts';
import { Refusal } from '../store/refusal.ts';
import { PDF_OPTIONS } from './chromium-print.ts';
import { APP_ORIGIN } from './policies.ts';

const READY_MILLISECONDS = 20_000;
const LOOK_EVERY_MILLISECONDS = 40;
const IS_READY = `document.documentElement.dataset[${JSON.stringify(READY.name)}] === ${JSON.stringify(READY.value)}`;

type MakeWindow = new (options: BrowserWindowConstructorOptions) => BrowserWindow;

/** Loads a paper's page into a hidden window, waits until it is laid out, and hands it to `use`. */
async function withPaper<T>(
  Window: MakeWindow,
  options: BrowserWindowConstructorOptions,
  paper: number,
  use: (window: BrowserWindow) => Promise<T>,
): Promise<T> {
  const window = new Window({ ...options, show: false });
  try {
    await window.loadURL(`${APP_ORIGIN}/paper.html#${new URLSearchParams({ [FRAGMENT.paper]: String(paper) })}`);
    for (const until = Date.now() + READY_MILLISECONDS; ; ) {
      if ((await window.webContents.executeJavaScript(IS_READY)) === true) return await use(window);
      if (Date.now() > until) throw new Refusal('not here', mainWords.paper.notReady);
      await new Promise((done) => setTimeout(done, LOOK_EVERY_MILLISECONDS));
    }
  } finally {
    window.destroy();
  }
}

export function paperToPdf(Window: MakeWindow, options: BrowserWindowConstructorOptions, paper: number): Promise<Uint8Array> {
  return withPaper(Window, options, paper, (window) => window.webContents.printToPDF(PDF_OPTIONS));
}

/** Shows the system's print dialog for a paper; closing it without printing is no error. */
export function paperToPrinter(Window: MakeWindow, options: BrowserWindowConstructorOptions, paper: number): Promise<'dialog'> {
  return withPaper(Window, options, paper, async (window) => {
    await new Promise<void>((done) => {
      window.webContents.print({ printBackground: true }, () => done());
    });
    return 'dialog' as const;
  });
}
