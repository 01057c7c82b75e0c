// Talks to a headless Chromium over its own pipe: no port that others could reach, no address on a command line.
import { type ChildProcess, spawn } from 'node:child_process';
import type { Readable, Writable } from 'node:stream';

interface Reply {
  readonly id?: number;
  readonly result?: Record<string, unknown>;
  readonly error?: { readonly message: string };
}

export interface ChromiumPipe {
  send(method: string, params?: object, session?: string): Promise<Record<string, unknown>>;
  /** Ends the browser and waits until it is gone. */
  end(): Promise<void>;
}

const END_MILLISECONDS = 3000;

/** Starts a browser with a pipe. `flags` must hold everything but the pipe itself. */
export function startChromium(browser: string, flags: readonly string[]): ChromiumPipe {
  const child = spawn(browser, ['--headless', '--remote-debugging-pipe', ...flags], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe', 'pipe'],
  });
  const waiting = new Map<number, { readonly done: (reply: Reply) => void; readonly failed: (error: Error) => void }>();
  const fail = (error: Error): void => {
    for (const { failed } of waiting.values()) failed(error);
    waiting.clear();
  };
  const gone = new Promise<void>((done) => {
    child.once('error', (error) => {
      fail(error);
      done();
    });
    child.once('exit', () => {
      fail(new Error('the browser ended before it had answered'));
      done();
    });
  });
  const [, , , toBrowser, fromBrowser] = child.stdio as [null, null, null, Writable, Readable];
  toBrowser.on('error', fail);
  readMessages(fromBrowser, (reply) => {
    if (reply.id === undefined) return;
    waiting.get(reply.id)?.done(reply);
    waiting.delete(reply.id);
  });
  let number = 0;
  return {
    send: async (method, params = {}, session) => {
      const id = ++number;
      const reply = await new Promise<Reply>((done, failed) => {
        waiting.set(id, { done, failed });
        toBrowser.write(`${JSON.stringify({ id, method, params, ...(session ? { sessionId: session } : {}) })}\0`);
      });
      if (reply.error) throw new Error(`${method}: ${reply.error.message}`);
      return reply.result ?? {};
    },
    end: () => endChild(child, gone),
  };
}

/** Messages end with a NUL. */
function readMessages(stream: Readable, each: (reply: Reply) => void): void {
  let parts: string[] = [];
  stream.setEncoding('utf8');
  stream.on('data', (chunk: string) => {
    const pieces = chunk.split('\0');
    for (const [index, piece] of pieces.entries()) {
      parts.push(piece);
      if (index === pieces.length - 1) continue;
      each(JSON.parse(parts.join('')) as Reply);
      parts = [];
    }
  });
}

async function endChild(child: ChildProcess, gone: Promise<void>): Promise<void> {
  child.kill();
  const force = setTimeout(() => child.kill('SIGKILL'), END_MILLISECONDS);
  await gone;
  clearTimeout(force);
}
