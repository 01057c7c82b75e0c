// What the browser host lets in, as a pure function over the head of a request.
import { createHash, timingSafeEqual } from 'node:crypto';
import { CALL_PATH, SUBSCRIBE_PATH } from '../../core/port/wire.ts';

export interface RequestHead {
  readonly method: string;
  /** The request target as it was sent. */
  readonly target: string;
  /** Names and values in turn, as they came; a header sent twice stands twice. */
  readonly rawHeaders: readonly string[];
}

export interface Gate {
  /** "127.0.0.1:" and the port. The only name this host answers to: another one is a rebound address. */
  readonly host: string;
  readonly token: string;
}

export type Passage =
  | { readonly kind: 'file'; readonly path: string; readonly query: string }
  | { readonly kind: 'call'; readonly procedure: string; readonly cap: number }
  | { readonly kind: 'subscribe'; readonly cap: number }
  | { readonly kind: 'refused'; readonly status: RefusedStatus };

export type RefusedStatus = 400 | 401 | 403 | 404 | 405 | 411 | 413 | 415 | 421;

const refused = (status: RefusedStatus): Passage => ({ kind: 'refused', status });

/** Bytes a body may have. A file of 20,000,000 characters (60,000,000 of a shelf) can take three bytes each, and escapes. */
const CAPS: Readonly<Record<string, number>> = {
  'shelf.import': 180_000_000,
  'files.open': 72_000_000,
  'routes.import': 72_000_000,
  'routes.preview': 72_000_000,
  'routes.save': 72_000_000,
  'shelf.snapshot': 8_000_000,
  'papers.issue': 16_000_000,
  'plans.create': 4_000_000,
  'plans.save': 4_000_000,
};
const USUAL_CAP = 1_000_000;

/** Where a request may go, or the status it is turned away with. */
export function decideRequest(head: RequestHead, gate: Gate): Passage {
  const headers = headersOf(head.rawHeaders);
  if (headers === null) return refused(400);
  if (headers.get('host') !== gate.host) return refused(421);
  const origin = headers.get('origin');
  if (origin !== undefined && origin !== `http://${gate.host}`) return refused(403);
  const site = headers.get('sec-fetch-site');
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return refused(403);
  if (!/^\/(?!\/)/.test(head.target) || head.target.includes('#')) return refused(400);
  const [path = '', query = ''] = head.target.split('?', 2);
  const isCall = path.startsWith(CALL_PATH);
  if (!isCall && path !== SUBSCRIBE_PATH) {
    return head.method === 'GET' ? { kind: 'file', path, query } : refused(405);
  }
  if (head.method !== 'POST') return refused(405);
  const procedure = isCall ? path.slice(CALL_PATH.length) : '';
  const cap = (Object.hasOwn(CAPS, procedure) ? CAPS[procedure] : undefined) ?? USUAL_CAP;
  const status = decideBody(headers, gate.token, cap);
  if (status !== null) return refused(status);
  return isCall ? { kind: 'call', procedure, cap } : { kind: 'subscribe', cap };
}

function decideBody(headers: ReadonlyMap<string, string>, token: string, cap: number): RefusedStatus | null {
  if (!/^application\/json(;\s*charset=utf-8)?$/i.test(headers.get('content-type') ?? '')) return 415;
  if (headers.has('content-encoding')) return 415;
  if (!sameSecret(headers.get('authorization') ?? '', `Bearer ${token}`)) return 401;
  const length = headers.get('content-length');
  if (length !== undefined && !(Number(length) <= cap)) return 413;
  return null;
}

/** Headers that must not come twice: two readers could each believe another one. */
const ONCE: ReadonlySet<string> = new Set([
  'host',
  'origin',
  'authorization',
  'content-type',
  'content-length',
  'sec-fetch-site',
]);

function headersOf(raw: readonly string[]): ReadonlyMap<string, string> | null {
  const headers = new Map<string, string>();
  for (let index = 0; index + 1 < raw.length; index += 2) {
    const name = (raw[index] ?? '').toLowerCase();
    if (headers.has(name) && ONCE.has(name)) return null;
    headers.set(name, raw[index + 1] ?? '');
  }
  return headers;
}

/** Compares two secrets in a time that tells nothing of where they differ, nor of their length. */
export function sameSecret(given: string, expected: string): boolean {
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(given), digest(expected));
}
