// The program with the machine's own browser as its window. Serves machines where Electron's binary cannot be had.
import { mkdirSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { FRAGMENT } from '../../core/port/wire.ts';
import { hostWords, mainWords } from '../../core/words/main-words.ts';
import { dataFolder } from '../data-folder.ts';
import { type Program, startProgram } from '../index.ts';
import type { HostAbilities } from '../procedures/context.ts';
import { programRoot } from '../program-root.ts';
import { Refusal } from '../store/refusal.ts';
import { type HostServer, serveProgram } from './browser-server.ts';
import { type AppWindow, openAppWindow } from './browser-window.ts';
import { printPage } from './chromium-print.ts';
import { findBrowser, hasDisplay, runsOnThisMachine } from './find-browser.ts';
import { watchWindows } from './window-watch.ts';

const FIRST_PAINT_MILLISECONDS = 1500;
const NO_WINDOW_MILLISECONDS = 10_000;

/** Chromium's sandbox refuses to run as root; only then is it left out, and said so. */
const isRoot = process.getuid?.() === 0;
const flags = isRoot ? ['--no-sandbox'] : [];

const { env, platform } = process;
const folder = dataFolder({ env, platform, home: homedir() });
const browser = findBrowser({ env, platform, runs: runsOnThisMachine });
const windowed = browser !== null && env.BACKWEIGH_WINDOW !== 'none' && hasDisplay(env, platform);

let server: HostServer | null = null;
let appWindow: AppWindow | null = null;
/** Windows with a PDF to print; most are the app window's own process and end with it. */
const pdfWindows: AppWindow[] = [];

const host: HostAbilities = {
  kind: 'browser',
  pdf: (paper) => {
    if (browser === null || server === null) throw new Refusal('not here', mainWords.paper.noBrowser);
    const fragment = new URLSearchParams({ [FRAGMENT.token]: server.token, [FRAGMENT.paper]: String(paper) });
    return printPage({ browser, flags, dataFolder: folder, address: `${server.origin}/paper.html#${fragment}` });
  },
  print: async (paper, name) => {
    if (browser === null || !windowed) throw new Refusal('not here', mainWords.paper.noWindow);
    const bytes = await host.pdf(paper);
    const papers = join(folder, 'papers');
    mkdirSync(papers, { recursive: true });
    const file = join(papers, `${paper} ${name}`);
    writeFileSync(file, bytes);
    pdfWindows.push(openAppWindow({ browser, flags, dataFolder: folder, address: pathToFileURL(file).href }));
    return 'opened';
  },
};

const program = startProgram({ dataFolder: folder, host, rebuilt: env.BACKWEIGH_REBUILT });
server = await serveProgram({ program, bundle: join(programRoot(), 'out', 'renderer') });
keepUntilClosed(program, server);
openWindow(server);

function openWindow({ origin, token, ticketAddress }: HostServer): void {
  if (isRoot && browser !== null) console.log(hostWords.noSandbox);
  if (windowed) {
    console.log(hostWords.window);
    appWindow = openAppWindow({ browser, flags, dataFolder: folder, address: ticketAddress() });
  } else {
    console.log(hostWords.address(`${origin}/#${FRAGMENT.token}=${token}`));
  }
}

/** Ends the program with its last window, or when it is told to. */
function keepUntilClosed({ afterFirstPaint, close }: Program, serving: HostServer): void {
  let ending = false;
  const end = async (): Promise<void> => {
    if (ending) return;
    ending = true;
    await serving.close();
    close();
    await Promise.all([appWindow, ...pdfWindows].map((window) => window?.end()));
    process.exit(0);
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void end());

  setTimeout(afterFirstPaint, NO_WINDOW_MILLISECONDS).unref();
  const watch = watchWindows({ outlivesWindows: windowed && platform === 'darwin', leave: () => void end() });
  serving.onStreams((count) => {
    if (count > 0) setTimeout(afterFirstPaint, FIRST_PAINT_MILLISECONDS);
    watch.streams(count);
  });
  setImmediate(async () => {
    if (appWindow === null) return;
    await appWindow.gone;
    watch.processGone();
  });
}
