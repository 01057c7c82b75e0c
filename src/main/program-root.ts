import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/**
 * The folder that holds package.json, resources and out. Found by walking up, because the same code runs from
 * src/main (Node) and from out/main (bundled).
 */
export function programRoot(from: string = import.meta.dirname): string {
  for (let folder = from; ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'package.json'))) return folder;
    if (folder === dirname(folder)) throw new Error(`program folder needs a package.json above it (got ${from})`);
  }
}

/** Version of the program, from package.json. */
export function programVersion(): string {
  const data: unknown = JSON.parse(readFileSync(join(programRoot(), 'package.json'), 'utf8'));
  return data !== null && typeof data === 'object' && 'version' in data ? String(data.version) : 'unknown';
}
