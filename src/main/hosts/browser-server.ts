// The HTTP side of the browser host: files of the window, calls, and one stream of changes.
import { randomBytes } from 'node:crypto';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { FRAGMENT } from '../../core/port/wire.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Program } from '../index.ts';
import { answer } from '../procedures/index.ts';
import { decideRequest, type Gate } from './browser-gate.ts';
import { pageFor } from './bundle.ts';
import { type ChangeStreams, makeStreams } from './change-streams.ts';
import { readBody, redirect, sendFile, sendJson, turnAway } from './http-answers.ts';
import { makeTickets, type Tickets } from './tickets.ts';

const ADDRESS = '127.0.0.1';
const LIMITS = {
  maxHeaderSize: 16_384,
  headersTimeout: 10_000,
  requestTimeout: 60_000,
  keepAliveTimeout: 5_000,
  connectionsCheckingInterval: 5_000,
} as const;
const MOST_CONNECTIONS = 64;

export interface HostServer {
  /** "http://127.0.0.1:" and the port. */
  readonly origin: string;
  readonly token: string;
  /** An address for a window's command line, where others can read it. */
  ticketAddress(): string;
  /** Called whenever a window opens or closes its stream, with the number still open. */
  onStreams(changed: (open: number) => void): void;
  close(): Promise<void>;
}

interface Serving {
  readonly program: Program;
  /** Folder of the built windows. */
  readonly bundle: string;
}

export async function serveProgram({ program, bundle }: Serving): Promise<HostServer> {
  const token = randomBytes(32).toString('base64url');
  const tickets = makeTickets();
  const streams = makeStreams(program.topics);
  const server = createServer(LIMITS);
  server.maxConnections = MOST_CONNECTIONS;
  const host = await listen(server);
  const parts: Parts = { program, bundle, tickets, streams, gate: { host, token } };
  server.on('request', (request, response) => {
    handle(parts, request, response).catch((error: unknown) => {
      // A window that went away in the middle is no error of the program.
      if (!request.destroyed && !response.destroyed) program.context.report(error);
      response.destroy();
    });
  });
  return {
    origin: `http://${host}`,
    token,
    ticketAddress: () => `http://${host}/?${tickets.make()}`,
    onStreams: streams.watch,
    close: () => closed(server, streams),
  };
}

interface Parts extends Serving {
  readonly tickets: Tickets;
  readonly streams: ChangeStreams;
  readonly gate: Gate;
}

async function handle(parts: Parts, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { program, bundle, tickets, streams, gate } = parts;
  const head = { method: request.method ?? '', target: request.url ?? '', rawHeaders: request.rawHeaders };
  const passage = decideRequest(head, gate);
  if (passage.kind === 'refused') return turnAway(request, response, passage.status);
  if (passage.kind === 'file') {
    const opens = passage.path === '/' && tickets.use(passage.query);
    if (opens) return redirect(response, `/#${FRAGMENT.token}=${gate.token}`);
    return sendFile(response, pageFor(passage.path, program), bundle);
  }
  const body = await readBody(request, passage.cap);
  if (body === null) return turnAway(request, response, 413);
  if (passage.kind === 'subscribe') return streams.open(response);
  const input = parseJson(body);
  if (!input.ok) return sendJson(response, 400, { ok: false, code: 'invalid input', detail: mainWords.notJson });
  sendJson(response, 200, await answer(program.context, decoded(passage.procedure), input.value));
}

async function listen(server: Server): Promise<string> {
  await new Promise<void>((done, failed) => {
    server.once('error', failed);
    server.listen(0, ADDRESS, done);
  });
  return `${ADDRESS}:${(server.address() as AddressInfo).port}`;
}

function closed(server: Server, streams: ChangeStreams): Promise<void> {
  return new Promise((done) => {
    streams.end();
    server.close(() => done());
    server.closeAllConnections();
  });
}

function parseJson(body: Buffer): { readonly ok: true; readonly value: unknown } | { readonly ok: false } {
  try {
    return { ok: true, value: JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(body)) };
  } catch {
    return { ok: false };
  }
}

function decoded(procedure: string): string {
  try {
    return decodeURIComponent(procedure);
  } catch {
    return procedure;
  }
}
