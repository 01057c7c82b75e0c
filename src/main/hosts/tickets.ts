import { randomBytes } from 'node:crypto';
import { sameSecret } from './browser-gate.ts';

const GOOD_FOR_MILLISECONDS = 60_000;

/** Stands in for the token on a command line, which other people of this machine can read: good once, for a minute. */
export interface Tickets {
  /** A new ticket as the query of an address; an older one is good no more. */
  make(): string;
  /** Whether the query is the ticket; it is then used up. */
  use(query: string): boolean;
}

export function makeTickets(): Tickets {
  let ticket: { readonly text: string; readonly until: number } | null = null;
  return {
    make: () => {
      const text = `ticket=${randomBytes(32).toString('base64url')}`;
      ticket = { text, until: Date.now() + GOOD_FOR_MILLISECONDS };
      return text;
    },
    use: (query) => {
      if (!ticket || Date.now() > ticket.until || !sameSecret(query, ticket.text)) return false;
      ticket = null;
      return true;
    },
  };
}
