import type { Status } from '../plan/result.ts';

/** How a line of the fetch list stands, on screen and on paper. */
export const statusWords = {
  enough: 'enough',
  'make up': 'make up',
  short: 'short',
  'out of date': 'out of date',
  'unknown strength': 'unknown strength',
  'from a step': 'from a step',
  tap: 'tap',
} as const satisfies Record<Status, string>;
