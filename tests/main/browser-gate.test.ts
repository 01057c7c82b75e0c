import { describe, expect, test } from 'vitest';
import { decideRequest, sameSecret } from '../../src/main/hosts/browser-gate.ts';

const GATE = { host: '127.0.0.1:4711', token: 'the-token' };
const RIGHT = {
  host: '127.0.0.1:4711',
  origin: 'http://127.0.0.1:4711',
  'sec-fetch-site': 'same-origin',
  'content-type': 'application/json',
  authorization: 'Bearer the-token',
  'content-length': '2',
};

function decide(target: string, more: Record<string, string | null> = {}, method = 'POST', extra: readonly string[] = []) {
  const headers = Object.entries({ ...RIGHT, ...more }).flatMap(([name, value]) => (value === null ? [] : [name, value]));
  return decideRequest({ method, target, rawHeaders: [...headers, ...extra] }, GATE);
}

describe('what is let in', () => {
  test('a call', () => expect(decide('/call/plans.list')).toEqual({ kind: 'call', procedure: 'plans.list', cap: 1_000_000 }));
  test('a large file', () => expect(decide('/call/shelf.import')).toMatchObject({ cap: 180_000_000 }));
  test('the stream of changes', () => expect(decide('/subscribe')).toMatchObject({ kind: 'subscribe' }));
  test('the page, opened by hand', () =>
    expect(decide('/?x=1', { origin: null, 'sec-fetch-site': 'none' }, 'GET')).toEqual({
      kind: 'file',
      path: '/',
      query: 'x=1',
    }));
  test('a client that is no browser', () =>
    expect(decide('/call/plans.list', { origin: null, 'sec-fetch-site': null })).toMatchObject({ kind: 'call' }));
  test('JSON that says its coding', () =>
    expect(decide('/call/plans.list', { 'content-type': 'application/json; charset=UTF-8' })).toMatchObject({ kind: 'call' }));
});

describe('what is turned away', () => {
  test.each([
    ['another name', { host: 'rebound.example.org:4711' }, 421],
    ['localhost', { host: 'localhost:4711' }, 421],
    ['another port', { host: '127.0.0.1:4712' }, 421],
    ['no port', { host: '127.0.0.1' }, 421],
    ['a trailing dot', { host: '127.0.0.1.:4711' }, 421],
    ['no host', { host: null }, 421],
    ['another origin', { origin: 'http://rebound.example.org:4711' }, 403],
    ['another origin on this machine', { origin: 'http://127.0.0.1:4712' }, 403],
    ['the origin of a local file', { origin: 'null' }, 403],
    ['https', { origin: 'https://127.0.0.1:4711' }, 403],
    ['a cross-site request', { 'sec-fetch-site': 'cross-site' }, 403],
    ['a same-site request from another port', { 'sec-fetch-site': 'same-site' }, 403],
    ['a form', { 'content-type': 'application/x-www-form-urlencoded' }, 415],
    ['plain text', { 'content-type': 'text/plain' }, 415],
    ['text that mentions JSON', { 'content-type': 'text/plain; application/json' }, 415],
    ['no type', { 'content-type': null }, 415],
    ['a packed body', { 'content-encoding': 'gzip' }, 415],
    ['no token', { authorization: null }, 401],
    ['another token', { authorization: 'Bearer the-tokem' }, 401],
    ['a token that begins right', { authorization: 'Bearer the-token2' }, 401],
    ['a token without its word', { authorization: 'the-token' }, 401],
    ['a body that is too long', { 'content-length': '1000001' }, 413],
    ['a length that is no number', { 'content-length': 'x' }, 413],
  ] as const)('%s', (_what, more, status) => expect(decide('/call/plans.list', more)).toEqual({ kind: 'refused', status }));

  test.each([
    ['GET', '/call/plans.list'],
    ['OPTIONS', '/call/plans.list'],
    ['PUT', '/call/plans.list'],
    ['GET', '/subscribe'],
    ['POST', '/index.html'],
    ['HEAD', '/'],
    ['TRACE', '/'],
  ])('%s %s', (method, target) => expect(decide(target, {}, method)).toEqual({ kind: 'refused', status: 405 }));

  test.each(['http://127.0.0.1:4711/', '//example.org/', '*', '', 'index.html', '/#token=x'])('the target %j', (target) =>
    expect(decide(target, {}, 'GET')).toEqual({ kind: 'refused', status: 400 }),
  );

  test.each(['host', 'Origin', 'AUTHORIZATION', 'content-type', 'Content-Length', 'sec-fetch-site'])('%s twice', (name) =>
    expect(decide('/call/plans.list', {}, 'POST', [name, 'x'])).toEqual({ kind: 'refused', status: 400 }),
  );
});

test.each([
  ['ab', 'ab', true],
  ['ab', 'abc', false],
  ['', 'a', false],
  ['AB', 'ab', false],
] as const)('the secrets %j and %j are the same: %s', (given, expected, same) => expect(sameSecret(given, expected)).toBe(same));
