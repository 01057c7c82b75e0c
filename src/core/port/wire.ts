import type { Topic } from './port.ts';

/**
 * How the port travels over HTTP in the browser host. A call is a POST of its input to CALL_PATH + name; the answer is
 * a PortResult. One POST to SUBSCRIBE_PATH stays open and sends one JSON line for every change.
 */
export const CALL_PATH = '/call/';
export const SUBSCRIBE_PATH = '/subscribe';

/** One line of the stream; an empty object only shows that the connection lives. */
export type StreamLine = { readonly topic: Topic } | Readonly<Record<string, never>>;

/** Names in the fragment of a page's address (URLSearchParams). */
export const FRAGMENT = { token: 'token', paper: 'paper' } as const;

/**
 * Set on the paper page's document element: data-ready="yes" when everything is laid out, "no" where there is no paper
 * to lay out.
 */
export const READY = { name: 'ready', value: 'yes', failed: 'no' } as const;
