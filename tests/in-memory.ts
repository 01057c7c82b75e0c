import { accessSync, constants, existsSync, statfsSync } from 'node:fs';

const MEMORY = '/dev/shm';
/** Bytes. Containers give as little as 64 MB, and browsers take of it, too. */
const ENOUGH = 1_000_000_000;

/**
 * Where tests put the folders they make: in memory, where Linux has room for it. Each opens a workbook of its own, and each
 * write waited for a disk that nothing in these tests asks about; faults, long and end-to-end tests stay on the disk.
 */
export function temporaryInMemory(): Readonly<Record<string, string>> {
  try {
    if (!existsSync(MEMORY)) return {};
    accessSync(MEMORY, constants.W_OK);
    const { bavail, bsize } = statfsSync(MEMORY);
    return bavail * bsize > ENOUGH ? { TMPDIR: MEMORY } : {};
  } catch {
    return {};
  }
}
