import { type ChildProcess, spawn } from 'node:child_process';
import { join } from 'node:path';
import { QUIET_FLAGS } from './find-browser.ts';

const END_MILLISECONDS = 3000;

export interface AppWindow {
  /** Resolves when the browser's process has ended, or could not be started. */
  readonly gone: Promise<void>;
  end(): Promise<void>;
}

interface Opening {
  readonly browser: string;
  readonly flags: readonly string[];
  readonly dataFolder: string;
  readonly address: string;
}

/** Opens an address as a window of its own, with a profile of its own inside the data folder. */
export function openAppWindow({ browser, flags, dataFolder, address }: Opening): AppWindow {
  const profile = join(dataFolder, 'window');
  const child = spawn(
    browser,
    [...QUIET_FLAGS, ...flags, `--user-data-dir=${profile}`, '--window-size=1440,900', `--app=${address}`],
    { stdio: 'ignore' },
  );
  const gone = new Promise<void>((done) => {
    child.once('exit', () => done());
    child.once('error', () => done());
  });
  return { gone, end: () => endWindow(child, gone) };
}

async function endWindow(child: ChildProcess, gone: Promise<void>): Promise<void> {
  child.kill();
  const force = setTimeout(() => child.kill('SIGKILL'), END_MILLISECONDS);
  await gone;
  clearTimeout(force);
}
