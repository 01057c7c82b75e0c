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

const FIRST_PAINT_MILLISECONDS = 1500;
const NO_WINDOW_MILLISECONDS = 10_000;
/** A reload closes its stream and opens another; a window that stays away longer is closed. */
const RELOAD_MILLISECONDS = 5000;

/** Chromium's sandbox refuses to run as root; only then is it left out, and said so. */
const isRoot = process.getuid?.() === 0;
const flags = isRoot ? ['--no-sandbox'] : [];

const { env, platform } = process;
const folder = dataFolder({ env, platform, home: homedir() });
const browser = findBrowser({ env, platform, runs: runsOnThisMachine });
const windowed = browser !== null && env.BACKWEIGH_WINDOW !== 'none' && hasDisplay(env, platform);

let server: HostServer | null = null;
let appWindow: AppWindow | null = null;

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
    openAppWindow({ browser, flags, dataFolder: folder, address: pathToFileURL(file).href });
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
  const end = async (code: number): Promise<void> => {
    if (ending) return;
    ending = true;
    await serving.close();
    close();
    await appWindow?.end();
    process.exit(code);
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => void end(0));

  setTimeout(afterFirstPaint, NO_WINDOW_MILLISECONDS).unref();
  let open = 0;
  let gone = false;
  let leaving: NodeJS.Timeout | undefined;
  const consider = (): void => {
    clearTimeout(leaving);
    if (gone && open === 0) leaving = setTimeout(() => void end(0), RELOAD_MILLISECONDS);
  };
  serving.onStreams((count) => {
    open = count;
    if (count > 0) setTimeout(afterFirstPaint, FIRST_PAINT_MILLISECONDS);
    consider();
  });
  // Where a browser with this profile is open already, ours hands over to it and ends at once; the streams then tell.
  setImmediate(async () => {
    if (appWindow === null) return;
    await appWindow.gone;
    gone = true;
    consider();
  });
}
