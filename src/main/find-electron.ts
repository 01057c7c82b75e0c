// Electron's package brings no binary: it is fetched on first use, which a closed network does not allow.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

const FETCH_MILLISECONDS = 20_000;
/** A failed fetch is not tried again before this, so that a machine without network does not wait at every start. */
const TRY_AGAIN_MILLISECONDS = 24 * 3_600_000;

/** Path of Electron's binary, or null where it is not there. */
export function electronBinary(root: string): string | null {
  const folder = join(root, 'node_modules', 'electron');
  try {
    const binary = join(folder, 'dist', readFileSync(join(folder, 'path.txt'), 'utf8'));
    return existsSync(binary) ? binary : null;
  } catch {
    return null;
  }
}

/** Tries once to fetch the binary within a time limit; true where it is there afterwards. */
export function fetchElectron(root: string, evenIfItFailed: boolean): boolean {
  const failed = join(root, '.cache', 'electron-not-fetched');
  const last = statSync(failed, { throwIfNoEntry: false })?.mtimeMs ?? 0;
  if (!evenIfItFailed && Date.now() - last < TRY_AGAIN_MILLISECONDS) return false;
  spawnSync(process.execPath, [join(root, 'node_modules', 'electron', 'install.js')], {
    stdio: 'ignore',
    timeout: FETCH_MILLISECONDS,
    killSignal: 'SIGKILL',
  });
  const here = electronBinary(root) !== null;
  remember(failed, !here);
  return here;
}

/** Where nothing can be remembered, the next start only tries again. */
function remember(file: string, failed: boolean): void {
  try {
    if (!failed) return rmSync(file, { force: true });
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, '');
  } catch {
    // A program folder that may only be read.
  }
}
