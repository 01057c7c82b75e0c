import { connect, type Socket } from 'node:net';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type RunningProgram, startProgram } from '../browser.ts';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

// Raw bytes on the socket of the running browser host: what no browser would send, and what a hostile page would.

let folder = '';
let program: RunningProgram;
let host = '';
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'backweigh-requests-'));
  program = await startProgram(folder);
  host = program.origin.slice('http://'.length);
});
afterAll(async () => {
  expect(await program.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

const port = (): number => Number(host.split(':')[1]);

/** However busy the machine is, an answer has begun by then. */
const NO_ANSWER_MILLISECONDS = 60_000;

/** Sends bytes and reads until the other side hangs up, or until there is a whole answer and nothing follows it. */
function send(bytes: string | Buffer, quietMilliseconds = 400): Promise<string> {
  return new Promise((done) => {
    let text = '';
    const socket: Socket = connect(port(), '127.0.0.1', () => socket.write(bytes));
    const end = (): void => {
      socket.destroy();
      done(text);
    };
    let quiet = setTimeout(end, NO_ANSWER_MILLISECONDS);
    socket.on('data', (chunk) => {
      text += chunk.toString('latin1');
      clearTimeout(quiet);
      quiet = setTimeout(end, quietMilliseconds);
    });
    socket.on('error', end);
    socket.on('close', () => {
      clearTimeout(quiet);
      end();
    });
  });
}

const status = (answer: string): number => Number(/^HTTP\/1\.1 (\d{3})/.exec(answer)?.[1] ?? 0);

interface Parts {
  readonly method?: string;
  readonly target?: string;
  readonly headers?: Readonly<Record<string, string | undefined>>;
  readonly body?: string;
}

function request({ method = 'POST', target = '/call/plans.list', headers = {}, body = '{}' }: Parts = {}): string {
  const all = {
    host,
    connection: 'close',
    origin: program.origin,
    'sec-fetch-site': 'same-origin',
    'content-type': 'application/json',
    authorization: `Bearer ${program.token}`,
    'content-length': String(Buffer.byteLength(body)),
    ...headers,
  };
  const lines = Object.entries(all).flatMap(([name, value]) => (value === undefined ? [] : [`${name}: ${value}`]));
  return `${[`${method} ${target} HTTP/1.1`, ...lines].join('\r\n')}\r\n\r\n${body}`;
}

const GUARDS = [
  /content-security-policy: default-src 'none'/i,
  /x-content-type-options: nosniff/i,
  /cross-origin-opener-policy: same-origin/i,
  /cross-origin-resource-policy: same-origin/i,
  /referrer-policy: no-referrer/i,
  /cache-control: no-store/i,
];

test('the right request is answered, with every guard on it', async () => {
  const answer = await send(request());
  expect([status(answer), answer.includes('"ok":true')]).toEqual([200, true]);
  for (const guard of GUARDS) expect(answer).toMatch(guard);
  expect(answer).not.toMatch(/access-control-/i);
});

describe('is turned away', () => {
  test.each([
    ['a rebound name', { headers: { host: 'rebound.example.org' } }, 421],
    ['a rebound name with our port', { headers: { host: 'rebound.example.org:1' } }, 421],
    ['localhost', { headers: { host: 'localhost' } }, 421],
    ['a foreign page', { headers: { origin: 'https://example.org' } }, 403],
    ['a page of another port', { headers: { origin: 'http://127.0.0.1:1' } }, 403],
    ['a page without origin from elsewhere', { headers: { origin: undefined, 'sec-fetch-site': 'cross-site' } }, 403],
    ['a form', { headers: { 'content-type': 'text/plain' }, body: '{}' }, 415],
    ['no token', { headers: { authorization: undefined } }, 401],
    ['an empty token', { headers: { authorization: 'Bearer ' } }, 401],
    ['a guessed token', { headers: { authorization: `Bearer ${'A'.repeat(43)}` } }, 401],
    ['a stream without token', { target: '/subscribe', headers: { authorization: undefined } }, 401],
    ['a preflight', { method: 'OPTIONS', body: '', headers: { 'access-control-request-method': 'POST' } }, 405],
    ['a call by GET', { method: 'GET', body: '' }, 405],
    ['a page by POST', { target: '/' }, 405],
    ['an announced flood', { headers: { 'content-length': '99999999999' }, body: '' }, 413],
    ['a proxy request', { method: 'GET', target: 'http://example.org/', body: '' }, 400],
    ['a path up', { method: 'GET', target: '/../package.json', body: '' }, 404],
    ['a coded path up', { method: 'GET', target: '/%2e%2e/%2e%2e/package.json', body: '' }, 404],
    ['a coded path up in back-slashes', { method: 'GET', target: '/..%5c..%5cpackage.json', body: '' }, 404],
    ['an absolute path', { method: 'GET', target: '/etc/passwd', body: '' }, 404],
    ['a NUL', { method: 'GET', target: '/index.html%00.css', body: '' }, 404],
  ] as const)('%s', async (_what, parts, expected) => {
    const answer = await send(request(parts));
    expect(status(answer)).toBe(expected);
    for (const guard of GUARDS) expect(answer).toMatch(guard);
    expect(answer).not.toContain(program.token);
    expect(answer).not.toContain('root:');
    expect(answer).not.toContain('"name": "backweigh"');
  });

  test('two hosts, two origins, two tokens', async () => {
    for (const second of ['host: example.org', 'origin: https://example.org', 'authorization: Bearer x']) {
      expect(status(await send(request().replace('\r\n\r\n', `\r\n${second}\r\n\r\n`)))).toBe(400);
    }
  });

  test('a body in pieces that never ends well', async () => {
    const head = request({ headers: { 'content-length': undefined, 'transfer-encoding': 'chunked' }, body: '' });
    const piece = `${(65_536).toString(16)}\r\n${'x'.repeat(65_536)}\r\n`;
    expect(status(await send(head + piece.repeat(20)))).toBe(413);
  });

  test('what is not HTTP, and what is more than a head may be', async () => {
    expect(status(await send('\0\0\0\r\n\r\n'))).toBe(400);
    expect(status(await send('GET / HTTP/1.1\r\n\r\n'))).toBe(400);
    expect(status(await send(request({ headers: { 'x-long': 'y'.repeat(70_000) } })))).toBe(431);
    expect(status(await send(request({ headers: { 'content-length': '2', 'transfer-encoding': 'chunked' } })))).toBe(400);
  });
});

describe('is answered in words', () => {
  test.each([
    ['text that is not JSON', 'not json', 400],
    ['bytes that are not UTF-8', '"\xff\xfe"', 400],
    ['nothing', '', 400],
  ])('%s', async (_what, body, expected) => {
    const answer = await send(Buffer.from(request({ body, headers: { 'content-length': String(body.length) } }), 'latin1'));
    expect([status(answer), answer.includes('"invalid input"')]).toEqual([expected, true]);
  });
  test.each(['/call/', '/call/nonsense', '/call/__proto__', '/call/%ff', '/call/plans.list/..'])('%s', async (target) => {
    const answer = await send(request({ target }));
    expect([status(answer), answer.includes('"unknown procedure"')]).toEqual([200, true]);
  });
  test('a hostile depth', async () => {
    const body = `{"planId":1,"state":1,"kind":"k","title":"t","paper":${'['.repeat(100_000)}${']'.repeat(100_000)}}`;
    const answer = await send(request({ target: '/call/papers.issue', body }));
    expect([status(answer), answer.includes('nested deeper')]).toEqual([200, true]);
  });
});

describe('does not wear the program out', () => {
  test('a head that never ends is hung up on', { timeout: 40_000 }, async () => {
    const began = Date.now();
    await new Promise<void>((done) => {
      const socket = connect(port(), '127.0.0.1', () => socket.write(`GET / HTTP/1.1\r\nhost: ${host}\r\n`));
      const drip = setInterval(() => socket.write('x-drip: 1\r\n'), 500);
      socket.on('error', () => {});
      socket.on('close', () => {
        clearInterval(drip);
        done();
      });
      socket.resume();
    });
    expect(Date.now() - began).toBeLessThan(30_000);
  });

  test('more connections than it takes, and it still answers', async () => {
    const sockets = Array.from({ length: 120 }, () => connect(port(), '127.0.0.1'));
    let closed = 0;
    for (const socket of sockets) {
      socket.on('error', () => {});
      socket.on('close', () => {
        closed += 1;
      });
    }
    await expect.poll(() => closed).toBeGreaterThanOrEqual(120 - 64);
    for (const socket of sockets) socket.destroy();
    await expect.poll(async () => status(await send(request()))).toBe(200);
  });

  test('a window that goes away in the middle of a call', async () => {
    for (let number = 0; number < 20; number++) {
      await new Promise<void>((done) => {
        const socket = connect(port(), '127.0.0.1', () => {
          socket.write(request({ target: '/call/program.check' }).slice(0, number % 2 === 0 ? undefined : -1));
          setTimeout(() => socket.destroy(), number);
        });
        socket.on('error', () => {});
        socket.on('close', () => done());
      });
    }
    expect(status(await send(request()))).toBe(200);
    expect(program.output()).not.toMatch(/Error|error:/);
  });

  test('after all of it nothing was written', async () => {
    const answer = await send(request({ target: '/call/papers.list', body: '{"planId":1}' }));
    expect(answer).toContain('"value":[]');
  });
});
