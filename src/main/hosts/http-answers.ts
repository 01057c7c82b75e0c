// What the browser host sends back, always with every guard on it.
import { readFile } from 'node:fs/promises';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { PortResult } from '../../core/port/result.ts';
import { realPath } from './bundle.ts';
import { SECURITY_HEADERS, serveAppFile } from './policies.ts';

export async function sendFile(response: ServerResponse, path: string, bundle: string): Promise<void> {
  const found = serveAppFile({ method: 'GET', path }, bundle, realPath);
  if (found.status !== 200) return sendStatus(response, found.status);
  const bytes = await readFile(found.file);
  response.writeHead(200, { ...SECURITY_HEADERS, 'content-type': found.type, 'content-length': bytes.length });
  response.end(bytes);
}

export function redirect(response: ServerResponse, location: string): void {
  response.writeHead(303, { ...SECURITY_HEADERS, location, 'content-length': 0 }).end();
}

export function sendStatus(response: ServerResponse, status: number): void {
  response.writeHead(status, { ...SECURITY_HEADERS, 'content-type': 'text/plain; charset=utf-8' });
  response.end(`${status}\n`);
}

/** Refuses and hangs up: a client that is turned away has no further business on this connection. */
export function turnAway(request: IncomingMessage, response: ServerResponse, status: number): void {
  response.setHeader('connection', 'close');
  sendStatus(response, status);
  request.resume();
  response.once('finish', () => request.destroy());
}

export function sendJson(response: ServerResponse, status: number, result: PortResult<unknown>): void {
  const bytes = Buffer.from(JSON.stringify(result));
  response.writeHead(status, {
    ...SECURITY_HEADERS,
    'content-type': 'application/json; charset=utf-8',
    'content-length': bytes.length,
  });
  response.end(bytes);
}

/** The whole body, or null as soon as it passes the cap. */
export async function readBody(request: IncomingMessage, cap: number): Promise<Buffer | null> {
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
