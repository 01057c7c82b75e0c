// A Chromium for the tests, and the program started in front of it.
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { type Browser, chromium } from 'playwright';
import { findBrowser, QUIET_FLAGS, runsOnThisMachine } from '../src/main/hosts/find-browser.ts';
import { programRoot } from '../src/main/program-root.ts';

const root = programRoot();

/** Playwright's own Chromium where it was fetched, else the machine's; null where there is none that runs. */
export function findChromium(): string | null {
  // Asking a browser takes a second; what was found once stays.
  return (found ??= lookForChromium());
}

let found: string | null = null;

function lookForChromium(): string | null {
  const { env, platform } = process;
  const own = chromium.executablePath();
  const candidates = [env.BACKWEIGH_BROWSER, own, findBrowser({ env: { ...env, BACKWEIGH_BROWSER: undefined }, platform, runs })];
  return candidates.find((path): path is string => typeof path === 'string' && path !== '' && runs(path)) ?? null;
}

/** A browser whose libraries are missing is there, and still does not run: it is asked for its version. */
function runs(path: string): boolean {
  if (!runsOnThisMachine(path)) return false;
  // Chrome on Windows opens a window when it is asked.
  return process.platform === 'win32' || spawnSync(path, ['--version'], { timeout: 20_000 }).status === 0;
}

/** Flags every Chromium of the tests gets: quiet, and without its sandbox as root only. */
export const CHROMIUM_FLAGS: readonly string[] = [...QUIET_FLAGS, ...(process.getuid?.() === 0 ? ['--no-sandbox'] : [])];

/** Starts a headless Chromium. `npm test` has made sure that there is one. */
export function launchChromium(more: readonly string[] = []): Promise<Browser> {
  const executablePath = findChromium();
  if (executablePath === null) throw new Error('a Chromium is needed for this test (got none; `npm test` brings one)');
  return chromium.launch({ executablePath, args: [...CHROMIUM_FLAGS, ...more] });
}

export interface RunningProgram {
  /** Address of the window, with its token. */
  readonly address: string;
  readonly origin: string;
  readonly token: string;
  readonly process: ChildProcess;
  /** Everything the program has written to the terminal so far. */
  output(): string;
  /** Ends it as a power cut would; resolves when it is gone and holds nothing any more. */
  kill(): Promise<void>;
  /** Ends it as Ctrl+C would; gives its exit code. */
  stop(): Promise<number | null>;
}

const START_MILLISECONDS = 60_000;

/** Starts the built browser host on a data folder, without a window of its own. Needs `out/` (made by `npm test`). */
export async function startProgram(dataFolder: string, env: Readonly<Record<string, string>> = {}): Promise<RunningProgram> {
  const child = spawn(process.execPath, [join(root, 'out', 'main', 'browser.js')], {
    cwd: root,
    env: {
      ...process.env,
      BACKWEIGH_BROWSER: findChromium() ?? '',
      ...env,
      BACKWEIGH_DATA: dataFolder,
      BACKWEIGH_WINDOW: 'none',
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  const gone = new Promise<number | null>((done) => child.once('exit', done));
  const address = await new Promise<string>((found, failed) => {
    const late = setTimeout(() => failed(new Error(`the program did not say its address:\n${output}`)), START_MILLISECONDS);
    const read = (text: Buffer): void => {
      output += text.toString();
      const [said] = /http:\/\/127\.0\.0\.1:\d+\/#token=\S+/.exec(output) ?? [];
      if (said === undefined) return;
      clearTimeout(late);
      found(said);
    };
    child.stdout.on('data', read);
    child.stderr.on('data', read);
    child.once('exit', () => failed(new Error(`the program ended before it had said its address:\n${output}`)));
  });
  const [origin = '', token = ''] = address.split('/#token=');
  return {
    address,
    origin,
    token,
    process: child,
    output: () => output,
    kill: async () => {
      child.kill('SIGKILL');
      await gone;
    },
    stop: () => {
      child.kill('SIGINT');
      return gone;
    },
  };
}
