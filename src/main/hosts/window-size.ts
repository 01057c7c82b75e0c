import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import * as z from 'zod/mini';
import type { WindowSize } from './policies.ts';

const USUAL: WindowSize = { width: 1440, height: 900 };
const Side = z.int().check(z.gte(480), z.lte(20_000));
const Kept = z.strictObject({ width: Side, height: Side });

/** The size the window had when it was last closed; the usual one where nothing sensible is kept. */
export function keptSize(dataFolder: string): WindowSize {
  try {
    return z.parse(Kept, JSON.parse(readFileSync(join(dataFolder, 'window.json'), 'utf8')));
  } catch {
    return USUAL;
  }
}

/** A size that cannot be kept is not worth a word to the person. */
export function keepSize(dataFolder: string, { width, height }: WindowSize): void {
  try {
    writeFileSync(join(dataFolder, 'window.json'), JSON.stringify({ width, height }));
  } catch {
    // The next start then uses the usual size.
  }
}
