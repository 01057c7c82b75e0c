// What both hosts need to serve the built windows.
import { realpathSync } from 'node:fs';
import type { Program } from '../index.ts';

const WINDOWS: ReadonlySet<string> = new Set(['/', '/index.html', '/paper.html']);

/** While no workbook is open every window shows the start-up screen instead. */
export function pageFor(path: string, { context }: Pick<Program, 'context'>): string {
  return WINDOWS.has(path) && context.keeper.trouble() !== null ? '/start-up.html' : path;
}

export function realPath(path: string): string | null {
  try {
    return realpathSync(path);
  } catch {
    return null;
  }
}
