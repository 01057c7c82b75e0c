import type { FetchLine } from '../plan/result.ts';

/** Whether a line has to be bought: something is missing, whatever the reason. */
export function isShort(line: FetchLine): boolean {
  return line.short !== null && line.short.value > 0;
}
