import type { Port, ProcedureInput, ProcedureName, ProcedureOutput, Topic } from '../core/port/port.ts';
import type { PortResult } from '../core/port/result.ts';
import { CALL_PATH, FRAGMENT, SUBSCRIBE_PATH } from '../core/port/wire.ts';

/** What a window must offer for the port over HTTP. Passed in, so that tests need no real browser. */
export interface Surroundings {
  readonly fetch: typeof fetch;
  readonly location: Pick<Location, 'hash' | 'pathname' | 'search'>;
  readonly history: Pick<History, 'replaceState'>;
  readonly sessionStorage: Pick<Storage, 'getItem' | 'setItem'>;
  readonly wait: (milliseconds: number) => Promise<void>;
}

export type ConnectionState = 'open' | 'lost';

const TOKEN = 'backweigh token';
const FIRST_WAIT = 500;
const LONGEST_WAIT = 8000;

/**
 * Takes the token out of the address (`#token=…`) and removes it from the address bar at once; keeps it for this tab
 * so that a reload works. Null where there is none.
 */
export function takeToken(around: Surroundings): string | null {
  const { location, history, sessionStorage } = around;
  const token = new URLSearchParams(location.hash.replace(/^#/, '')).get(FRAGMENT.token);
  if (token === null || token === '') return sessionStorage.getItem(TOKEN);
  sessionStorage.setItem(TOKEN, token);
  history.replaceState(null, '', location.pathname + location.search);
  return token;
}

/** The port over `fetch`: one POST per call, and one streamed POST that says which topics changed. */
export function httpPort(token: string, around: Surroundings, onState: (state: ConnectionState) => void): Port {
  const listeners = new Map<Topic, Set<() => void>>();
  let listening = false;

  const post = (path: string, body: unknown): Promise<Response> =>
    around.fetch(path, {
      method: 'POST',
      headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
      body: JSON.stringify(body),
      cache: 'no-store',
    });

  async function call<N extends ProcedureName>(name: N, input: ProcedureInput<N>): Promise<PortResult<ProcedureOutput<N>>> {
    try {
      const response = await post(CALL_PATH + name, input);
      const answer: unknown = await response.json();
      if (isPortResult<ProcedureOutput<N>>(answer)) {
        onState('open');
        return answer;
      }
      return { ok: false, code: 'internal', detail: `answer ${response.status}` };
    } catch {
      onState('lost');
      return { ok: false, code: 'not here', detail: '' };
    }
  }

  /** Reads change messages until the stream ends; after a break it tries again, waiting longer each time. */
  async function listen(): Promise<void> {
    let wait = FIRST_WAIT;
    let missed = false;
    while (listeners.size > 0) {
      try {
        const response = await post(SUBSCRIBE_PATH, {});
        if (!response.ok || response.body === null) throw new Error(`answer ${response.status}`);
        onState('open');
        wait = FIRST_WAIT;
        if (missed) tellMissed(listeners);
        await readLines(response.body, (line) => tell(line, listeners));
      } catch {
        // Falls through to the wait: a broken stream is not an error to show twice.
      }
      if (listeners.size === 0) break;
      onState('lost');
      missed = true;
      await around.wait(wait);
      wait = Math.min(wait * 2, LONGEST_WAIT);
    }
    listening = false;
  }

  function subscribe(topic: Topic, changed: () => void): () => void {
    const known = listeners.get(topic) ?? new Set();
    known.add(changed);
    listeners.set(topic, known);
    if (!listening) {
      listening = true;
      // Waits one turn, so that everything subscribed at start goes into one stream.
      void Promise.resolve().then(listen);
    }
    return () => {
      known.delete(changed);
      if (known.size === 0) listeners.delete(topic);
    };
  }

  return { call, subscribe };
}

/** Splits a stream of UTF-8 text into lines and hands over each whole line that is not empty. */
export async function readLines(body: ReadableStream<Uint8Array>, each: (line: string) => void): Promise<void> {
  const reader = body.getReader();
  const decoder = new TextDecoder();
  let rest = '';
  for (;;) {
    const { done, value } = await reader.read();
    rest += value ? decoder.decode(value, { stream: true }) : '';
    const lines = rest.split('\n');
    rest = lines.pop() ?? '';
    for (const line of lines) if (line.trim() !== '') each(line);
    if (done) return;
  }
}

function tell(line: string, listeners: ReadonlyMap<Topic, ReadonlySet<() => void>>): void {
  const message: unknown = JSON.parse(line);
  if (message === null || typeof message !== 'object' || !('topic' in message)) return;
  for (const [topic, known] of listeners) if (topic === message.topic) for (const changed of known) changed();
}

/** While nobody listened anything may have changed; that the whole program did, main tells each window by ending. */
function tellMissed(listeners: ReadonlyMap<Topic, ReadonlySet<() => void>>): void {
  for (const [topic, known] of listeners) if (topic !== 'program') for (const changed of known) changed();
}

function isPortResult<T>(answer: unknown): answer is PortResult<T> {
  return answer !== null && typeof answer === 'object' && 'ok' in answer && typeof answer.ok === 'boolean';
}
