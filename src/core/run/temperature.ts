import type { RunSheet } from './run-sheet.ts';

/** What a temperature comes to at an operation, by the procedure's own window and limit. */
export type TemperatureVerdict =
  /** The limit is passed: what the procedure says to do. */
  | { readonly kind: 'limit'; readonly side: 'above' | 'below'; readonly celsius: number; readonly action: string }
  | { readonly kind: 'outside'; readonly from: number; readonly to: number }
  | { readonly kind: 'inside'; readonly from: number; readonly to: number }
  /** The procedure gives neither a window nor a limit here. */
  | { readonly kind: 'recorded' };

/**
 * Holds a temperature against what the procedure gives for an operation; the limit first. No limit is ever a default.
 * @param celsius °C. @param operation null where it belongs to none.
 */
export function temperatureVerdict({ temperatures }: RunSheet, operation: string | null, celsius: number): TemperatureVerdict {
  const found = temperatures?.find((one) => one.operation === operation);
  const { limit = null, window = null } = found ?? {};
  if (limit && (limit.side === 'above' ? celsius > limit.celsius : celsius < limit.celsius)) return { kind: 'limit', ...limit };
  if (!window) return { kind: 'recorded' };
  return { kind: celsius < window.from || celsius > window.to ? 'outside' : 'inside', ...window };
}
