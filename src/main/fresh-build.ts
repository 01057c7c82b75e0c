// Builds the windows and the hosts where the sources are newer than what was built.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync, utimesSync, writeFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';

/** Touched after every good build; its time is the time of the build's beginning. */
export function buildStamp(root: string): string {
  return join(root, 'out', 'built');
}

const BUILT_FROM = ['src', 'electron.vite.config.ts', 'package-lock.json'] as const;

/** Whether anything that is built from has changed since the last build. */
export function isStale(root: string): boolean {
  const stamp = buildStamp(root);
  if (!existsSync(stamp)) return true;
  const built = statSync(stamp).mtimeMs;
  return BUILT_FROM.some((name) => newest(join(root, name)) > built);
}

function newest(path: string): number {
  const status = statSync(path, { throwIfNoEntry: false });
  if (!status) return 0;
  if (!status.isDirectory()) return status.mtimeMs;
  return readdirSync(path).reduce((latest, name) => Math.max(latest, newest(join(path, name))), status.mtimeMs);
}

/** Builds; true where it worked. What the builder has to say about a failure goes to the terminal. */
export function build(root: string): boolean {
  const began = new Date();
  const { status } = spawnSync('electron-vite', ['build', '--logLevel', 'error'], {
    cwd: root,
    stdio: ['ignore', 'ignore', 'inherit'],
    shell: process.platform === 'win32',
  });
  if (status !== 0) return false;
  mkdirSync(join(root, 'out'), { recursive: true });
  writeFileSync(buildStamp(root), '');
  utimesSync(buildStamp(root), began, began);
  return true;
}
