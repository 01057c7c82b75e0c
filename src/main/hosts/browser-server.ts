// The HTTP side of the browser host: files of the window, calls, and one stream of changes.
import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { FRAGMENT, type StreamLine } from '../../core/port/wire.ts';
import type { PortResult } from '../../core/port/result.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Program } from '../index.ts';
import { answer } from '../procedures/index.ts';
import { decideRequest, sameSecret } from './browser-gate.ts';
import { pageFor, realPath } from './bundle.ts';
import { SECURITY_HEADERS, serveAppFile } from './policies.ts';

const ADDRESS = '127.0.0.1';
const LIMITS = {
  headerBytes: 16_384,
  headersMilliseconds: 10_000,
  requestMilliseconds: 60_000,
  idleMilliseconds: 5_000,
  connections: 64,
  streams: 16,
  heartbeatMilliseconds: 15_000,
  ticketMilliseconds: 60_000,
} as const;

export interface HostServer {
  /** "http://127.0.0.1:" and the port. */
  readonly origin: string;
  readonly token: string;
  /** An address for a window's command line, where others can read it: good once, for a minute. */
  ticketAddress(): string;
  /** Called whenever a window opens or closes its stream, with the number still open. */
  onStreams(changed: (open: number) => void): void;
  close(): Promise<void>;
}

export interface Serving {
  readonly program: Program;
  /** Folder of the built windows. */
  readonly bundle: string;
}

export async function serveProgram({ program, bundle }: Serving): Promise<HostServer> {
  const token = randomBytes(32).toString('base64url');
  const tickets = makeTickets();
  const streams = makeStreams(program);
  let host = '';
  const handle = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const passage = decideRequest(
      { method: request.method ?? '', target: request.url ?? '', rawHeaders: request.rawHeaders },
      { host, token },
    );
    if (passage.kind === 'refused') return turnAway(request, response, passage.status);
    if (passage.kind === 'file') {
      if (passage.path === '/' && tickets.use(passage.query)) return redirect(response, `/#${FRAGMENT.token}=${token}`);
      return sendFile(response, pageFor(passage.path, program), bundle);
    }
    const body = await readBody(request, passage.cap);
    if (body === null) return turnAway(request, response, 413);
    if (passage.kind === 'subscribe') return streams.open(response);
    const input = parseJson(body);
    if (!input.ok) return sendJson(response, 400, invalidJson());
    sendJson(response, 200, await answer(program.context, decoded(passage.procedure), input.value));
  };
  const server = createServer({
    maxHeaderSize: LIMITS.headerBytes,
    headersTimeout: LIMITS.headersMilliseconds,
    requestTimeout: LIMITS.requestMilliseconds,
    keepAliveTimeout: LIMITS.idleMilliseconds,
    connectionsCheckingInterval: LIMITS.idleMilliseconds,
  });
  server.maxConnections = LIMITS.connections;
  server.on('request', (request, response) => {
    handle(request, response).catch((error: unknown) => {
      // A window that went away in the middle is no error of the program.
      if (!request.destroyed && !response.destroyed) program.context.report(error);
      response.destroy();
    });
  });
  host = await listen(server);
  return {
    origin: `http://${host}`,
    token,
    ticketAddress: () => `http://${host}/?${tickets.make()}`,
    onStreams: streams.watch,
    close: () => closed(server, streams),
  };
}

async function listen(server: Server): Promise<string> {
  await new Promise<void>((done, failed) => {
    server.once('error', failed);
    server.listen(0, ADDRESS, done);
  });
  return `${ADDRESS}:${(server.address() as AddressInfo).port}`;
}

function closed(server: Server, streams: Streams): Promise<void> {
  return new Promise((done) => {
    streams.end();
    server.close(() => done());
    server.closeAllConnections();
  });
}

async function sendFile(response: ServerResponse, path: string, bundle: string): Promise<void> {
  const found = serveAppFile({ method: 'GET', path }, bundle, realPath);
  if (found.status !== 200) return sendStatus(response, found.status);
  const bytes = await readFile(found.file);
  response.writeHead(200, { ...SECURITY_HEADERS, 'content-type': found.type, 'content-length': bytes.length });
  response.end(bytes);
}

function redirect(response: ServerResponse, location: string): void {
  response.writeHead(303, { ...SECURITY_HEADERS, location, 'content-length': 0 }).end();
}

function sendStatus(response: ServerResponse, status: number): void {
  response.writeHead(status, { ...SECURITY_HEADERS, 'content-type': 'text/plain; charset=utf-8' });
  response.end(`${status}\n`);
}

/** Refuses and hangs up: a client that is turned away has no further business on this connection. */
function turnAway(request: IncomingMessage, response: ServerResponse, status: number): void {
  response.setHeader('connection', 'close');
  sendStatus(response, status);
  request.resume();
  response.once('finish', () => request.destroy());
}

function sendJson(response: ServerResponse, status: number, result: PortResult<unknown>): void {
  const bytes = Buffer.from(JSON.stringify(result));
  response.writeHead(status, {
    ...SECURITY_HEADERS,
    'content-type': 'application/json; charset=utf-8',
    'content-length': bytes.length,
  });
  response.end(bytes);
}

function invalidJson(): PortResult<never> {
  return { ok: false, code: 'invalid input', detail: mainWords.notJson };
}

/** The whole body, or null as soon as it passes the cap. */
async function readBody(request: IncomingMessage, cap: number): Promise<Buffer | null> {
  const chunks: Buffer[] = [];
  let size = 0;
  for await (const chunk of request.iterator({ destroyOnReturn: false })) {
    const bytes = chunk as Buffer;
    size += bytes.length;
    if (size > cap) return null;
    chunks.push(bytes);
  }
  return Buffer.concat(chunks);
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

interface Tickets {
  make(): string;
  use(query: string): boolean;
}

/** Stands in for the token on a command line, which other people of this machine can read. */
function makeTickets(): Tickets {
  let ticket: { readonly text: string; readonly until: number } | null = null;
  return {
    make: () => {
      const text = `ticket=${randomBytes(32).toString('base64url')}`;
      ticket = { text, until: Date.now() + LIMITS.ticketMilliseconds };
      return text;
    },
    use: (query) => {
      if (!ticket || Date.now() > ticket.until || !sameSecret(query, ticket.text)) return false;
      ticket = null;
      return true;
    },
  };
}

interface Streams {
  open(response: ServerResponse): void;
  watch(changed: (open: number) => void): void;
  end(): void;
}

/** Open streams of changes: one JSON line for each change, an empty object now and then to find those that are gone. */
function makeStreams(program: Program): Streams {
  const open = new Set<ServerResponse>();
  let changed: (open: number) => void = () => {};
  const send = (line: StreamLine): void => {
    for (const response of open) response.write(`${JSON.stringify(line)}\n`);
  };
  const forget = program.topics.listen((topic) => send({ topic }));
  const heartbeat = setInterval(() => send({}), LIMITS.heartbeatMilliseconds);
  heartbeat.unref();
  return {
    open: (response) => {
      if (open.size >= LIMITS.streams) return sendStatus(response, 503);
      response.writeHead(200, { ...SECURITY_HEADERS, 'content-type': 'application/x-ndjson; charset=utf-8' });
      response.write('{}\n');
      open.add(response);
      response.once('close', () => {
        open.delete(response);
        changed(open.size);
      });
      changed(open.size);
    },
    watch: (listener) => {
      changed = listener;
    },
    end: () => {
      forget();
      clearInterval(heartbeat);
      for (const response of open) response.end();
    },
  };
}
