import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { makeTickets } from '../../src/main/hosts/tickets.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test('a ticket is good once', () => {
  const tickets = makeTickets();
  const ticket = tickets.make();
  expect(['', 'ticket=', `${ticket}x`, ticket, ticket].map(tickets.use)).toEqual([false, false, false, true, false]);
});

test('a ticket is good for a minute', () => {
  const tickets = makeTickets();
  const ticket = tickets.make();
  vi.advanceTimersByTime(61_000);
  expect(tickets.use(ticket)).toBe(false);
});

test('a new ticket ends the older one', () => {
  const tickets = makeTickets();
  const older = tickets.make();
  const newer = tickets.make();
  expect([tickets.use(older), tickets.use(newer)]).toEqual([false, true]);
});
