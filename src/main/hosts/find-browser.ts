import { accessSync, constants, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';

interface Machine {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: string;
  /** Whether a path is a program that can be run. */
  readonly runs: (path: string) => boolean;
}

const ON_PATH = [
  'chromium',
  'chromium-browser',
  'google-chrome',
  'google-chrome-stable',
  'microsoft-edge',
  'microsoft-edge-stable',
  'brave-browser',
  'vivaldi',
] as const;

const ON_MAC = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  '/Applications/Brave Browser.app/Contents/MacOS/Brave Browser',
  '/Applications/Vivaldi.app/Contents/MacOS/Vivaldi',
] as const;

const ON_WINDOWS = [
  ['Google', 'Chrome', 'Application', 'chrome.exe'],
  ['Microsoft', 'Edge', 'Application', 'msedge.exe'],
  ['Chromium', 'Application', 'chrome.exe'],
  ['BraveSoftware', 'Brave-Browser', 'Application', 'brave.exe'],
  ['Vivaldi', 'Application', 'vivaldi.exe'],
] as const;

/** The machine's Chromium-family browser: BACKWEIGH_BROWSER where it is set, else the first found. Null where none is. */
export function findBrowser({ env, platform, runs }: Machine): string | null {
  if (env.BACKWEIGH_BROWSER) return runs(env.BACKWEIGH_BROWSER) ? env.BACKWEIGH_BROWSER : null;
  return places(env, platform).find(runs) ?? null;
}

function places(env: Machine['env'], platform: string): readonly string[] {
  if (platform === 'darwin') return ON_MAC;
  if (platform === 'win32') {
    const roots = [env.PROGRAMFILES, env['PROGRAMFILES(X86)'], env.LOCALAPPDATA].filter((root) => root !== undefined);
    return roots.flatMap((root) => ON_WINDOWS.map((parts) => join(root, ...parts)));
  }
  const folders = (env.PATH ?? '').split(delimiter).filter((folder) => folder !== '');
  return ON_PATH.flatMap((name) => folders.map((folder) => join(folder, name)));
}

/** Whether there is a screen to open a window on. */
export function hasDisplay(env: Machine['env'], platform: string): boolean {
  return platform === 'win32' || platform === 'darwin' || Boolean(env.DISPLAY) || Boolean(env.WAYLAND_DISPLAY);
}

export function runsOnThisMachine(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return statSync(path).isFile();
  } catch {
    return false;
  }
}

/** Keeps a Chromium to itself: no first-run pages, and nothing sent to or fetched from anywhere. */
export const QUIET_FLAGS = [
  '--no-first-run',
  '--no-default-browser-check',
  '--disable-quic',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-breakpad',
  '--disable-features=Translate,OptimizationHints,MediaRouter,AutofillServerCommunication',
  '--password-store=basic',
] as const;
