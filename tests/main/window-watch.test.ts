import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { watchWindows } from '../../src/main/hosts/window-watch.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

type Event = 'gone' | number | `${number} s`;

/** Plays what happens in order; gives whether the program has left by the end. */
function plays(outlivesWindows: boolean, ...events: readonly Event[]): boolean {
  const leave = vi.fn();
  const watch = watchWindows({ outlivesWindows, leave });
  for (const event of events) {
    if (event === 'gone') watch.processGone();
    else if (typeof event === 'number') watch.streams(event);
    else vi.advanceTimersByTime(Number.parseFloat(event) * 1000);
  }
  return leave.mock.calls.length > 0;
}

test.each<[string, boolean, readonly Event[]]>([
  ['a window that was closed with its browser', true, [1, '60 s', 0, 'gone', '3 s']],
  ['a reload', false, [1, '60 s', 0, '0.5 s', 1, '600 s']],
  ['a reload where another process shows the window', false, ['gone', 1, '60 s', 0, '0.5 s', 1, '600 s']],
  ['a window of another process that was closed', true, ['gone', '1 s', 1, '60 s', 0, '3 s']],
  ['a window of another process that never came', true, ['gone', '6 s']],
  ['a slow first window of another process', false, ['gone', '4 s', 1, '600 s']],
  ['one of two windows closed', false, [2, '60 s', 1, '600 s']],
  ['a browser whose window sleeps', false, [1, '60 s', 0, '900 s']],
  ['no window asked for', false, ['900 s']],
])('%s: leaves %s', (_what, leaves, events) => expect(plays(false, ...events)).toBe(leaves));

test('a browser that outlives its windows is not waited for for ever, and a reload does not count', () => {
  expect(plays(true, 1, '60 s', 0, '500 s')).toBe(false);
  expect(plays(true, 1, '60 s', 0, '700 s')).toBe(true);
  expect(plays(true, 1, '60 s', 0, '1 s', 1, '700 s')).toBe(false);
  expect(plays(true, '700 s')).toBe(false);
});
