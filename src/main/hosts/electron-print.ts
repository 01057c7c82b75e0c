import type { BrowserWindow, BrowserWindowConstructorOptions } from 'electron';
import { FRAGMENT } from '../../core/port/wire.ts';
import { PDF_OPTIONS } from './chromium-print.ts';
import { READ_STATE, untilReady } from './paper-ready.ts';
import { APP_ORIGIN } from './policies.ts';

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
    await untilReady(() => window.webContents.executeJavaScript(READ_STATE));
    return await use(window);
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
