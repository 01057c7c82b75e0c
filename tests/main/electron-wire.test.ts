import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { beforeReady, type Electron, wire } from '../../src/main/hosts/electron-wire.ts';
import { CONTENT_SECURITY_POLICY } from '../../src/main/hosts/policies.ts';
import { makeTopics } from '../../src/main/topics.ts';
import { openBook, temporaryFolder } from './workbook-fixture.ts';

// Electron's binary cannot be had everywhere; its side of the wire is played here, and every handler is called.

type Handler = (...parts: never[]) => unknown;

/** Remembers what was attached to it, by name. */
function standIn() {
  const attached = new Map<string, Handler>();
  const remember = (prefix: string) => (name: string, handler: Handler) => void attached.set(`${prefix} ${name}`, handler);
  const set = (name: string) => (handler: Handler) => void attached.set(name, handler);
  const windows: { webContents: { send: ReturnType<typeof vi.fn> } }[] = [];
  const enableSandbox = vi.fn();
  const registerSchemesAsPrivileged = vi.fn();
  const setSpellCheckerEnabled = vi.fn();
  const defaultSession = {
    setPermissionRequestHandler: set('permission request'),
    setPermissionCheckHandler: set('permission check'),
    setDevicePermissionHandler: set('device permission'),
    setDisplayMediaRequestHandler: set('display media'),
    setBluetoothPairingHandler: set('bluetooth'),
    setSpellCheckerEnabled,
    on: remember('session'),
    webRequest: { onBeforeRequest: set('request') },
  };
  const electron = {
    app: { on: remember('app'), enableSandbox },
    protocol: { handle: remember('protocol'), registerSchemesAsPrivileged },
    session: { defaultSession },
    ipcMain: { handle: remember('ipc') },
    BrowserWindow: { getAllWindows: () => windows },
  };
  const get = (name: string) => attached.get(name) as (...parts: unknown[]) => unknown;
  return { electron: electron as unknown as Electron, get, attached, windows, enableSandbox, registerSchemesAsPrivileged };
}

function wired() {
  const bundle = join(temporaryFolder(), 'renderer');
  mkdirSync(bundle);
  for (const name of ['index.html', 'paper.html', 'start-up.html']) writeFileSync(join(bundle, name), name);
  const book = openBook();
  const topics = makeTopics();
  const stand = standIn();
  const openOutside = vi.fn();
  const program = { context: book.context, topics, afterFirstPaint: () => {}, close: () => {} };
  wire(stand.electron, { program, bundle, windowOptions: { show: false }, openOutside });
  return { ...stand, book, topics, openOutside };
}

test('before Electron is ready the sandbox is on for all and our scheme is standard, secure, and bypasses nothing', () => {
  const { electron, enableSandbox, registerSchemesAsPrivileged } = standIn();
  beforeReady(electron);
  expect(enableSandbox).toHaveBeenCalledOnce();
  expect(registerSchemesAsPrivileged).toHaveBeenCalledWith([
    { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
});

describe('pages', () => {
  const serve = async (url: string, method = 'GET') => {
    const { get } = wired();
    return (await get('protocol app')({ url, method })) as Response;
  };
  test('come with the policy and their type', async () => {
    const response = await serve('app://backweigh/index.html');
    expect([response.status, await response.text()]).toEqual([200, 'index.html']);
    expect(response.headers.get('content-security-policy')).toBe(CONTENT_SECURITY_POLICY);
    expect(response.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(response.headers.get('x-content-type-options')).toBe('nosniff');
  });
  test.each([
    ['app://example/index.html', 'GET', 404],
    ['app://backweigh/%2e%2e/secret.js', 'GET', 404],
    ['app://backweigh/missing.js', 'GET', 404],
    ['app://backweigh/index.html', 'POST', 405],
  ])('%s by %s: %d, with the policy all the same', async (url, method, status) => {
    const response = await serve(url, method);
    expect([response.status, response.headers.get('content-security-policy')]).toEqual([status, CONTENT_SECURITY_POLICY]);
  });
});

describe('whatever Electron would grant is denied', () => {
  test('permissions', () => {
    const { get } = wired();
    const granted = (name: string) => {
      let answer: unknown;
      get('permission request')(null, name, (given: unknown) => {
        answer = given;
      });
      return [answer, get('permission check')(null, name)];
    };
    expect(granted('media')).toEqual([false, false]);
    expect(granted('clipboard-sanitized-write')).toEqual([true, true]);
    expect(get('device permission')({})).toBe(false);
  });

  test('screens, pairing, requests and downloads of others', () => {
    const { get } = wired();
    const answered = (name: string, question: unknown) => {
      const answer = vi.fn();
      get(name)(question, answer);
      return answer.mock.calls;
    };
    expect(answered('display media', {})).toEqual([[{}]]);
    expect(answered('bluetooth', {})).toEqual([[{ confirmed: false }]]);
    expect(answered('request', { url: 'https://example.org/' })).toEqual([[{ cancel: true }]]);
    expect(answered('request', { url: 'app://backweigh/index.html' })).toEqual([[{ cancel: false }]]);
    const stopped = (address: string) => {
      const preventDefault = vi.fn();
      get('session will-download')({ preventDefault }, { getURL: () => address });
      return preventDefault.mock.calls.length === 1;
    };
    expect([stopped('https://example.org/x.exe'), stopped('blob:app://backweigh/1')]).toEqual([true, false]);
  });

  test('navigation, frames, redirects, webviews and new windows', () => {
    const { get, openOutside } = wired();
    const handlers = new Map<string, Handler>();
    let opening: Handler = () => undefined;
    get('app web-contents-created')(null, {
      on: (name: string, handler: Handler) => void handlers.set(name, handler),
      setWindowOpenHandler: (handler: Handler) => {
        opening = handler;
      },
    });
    const stopped = (name: string, url: string) => {
      const preventDefault = vi.fn();
      (handlers.get(name) as (event: unknown) => void)({ url, preventDefault });
      return preventDefault.mock.calls.length === 1;
    };
    for (const name of ['will-navigate', 'will-frame-navigate', 'will-redirect']) {
      expect([name, stopped(name, 'https://example.org/'), stopped(name, 'app://backweigh/')]).toEqual([name, true, false]);
    }
    expect(stopped('will-attach-webview', 'app://backweigh/')).toBe(true);
    const open = opening as (details: { url: string }) => unknown;
    expect(open({ url: 'https://example.org/' })).toEqual({ action: 'deny' });
    expect(open({ url: 'app://backweigh/paper.html#paper=1' })).toEqual({
      action: 'allow',
      overrideBrowserWindowOptions: { show: true },
    });
    expect(openOutside).not.toHaveBeenCalled();
  });
});

describe('the one door', () => {
  const OURS = { url: 'app://backweigh/index.html', parent: null };
  test('answers the top frame of our page', async () => {
    const { get } = wired();
    expect(await get('ipc call')({ senderFrame: OURS }, 'plans.list', {})).toMatchObject({ ok: true, value: [{ id: 1 }] });
  });
  test.each([
    ['no frame', null, 'plans.list'],
    ['a foreign frame', { url: 'https://example.org/', parent: null }, 'plans.list'],
    ['a frame in a frame', { ...OURS, parent: OURS }, 'plans.list'],
    ['a name that is no text', OURS, ['plans.list']],
  ])('refuses %s', async (_what, senderFrame, name) => {
    const { get } = wired();
    expect(await get('ipc call')({ senderFrame }, name, {})).toMatchObject({ ok: false, code: 'refused' });
  });
  test('is the only one', () => {
    const { attached } = wired();
    expect([...attached.keys()].filter((name) => name.startsWith('ipc'))).toEqual(['ipc call']);
  });
});

test('every window is told what changed', () => {
  const { topics, windows } = wired();
  windows.push({ webContents: { send: vi.fn() } }, { webContents: { send: vi.fn() } });
  topics.tell('shelf');
  for (const { webContents } of windows) expect(webContents.send).toHaveBeenCalledExactlyOnceWith('changed', 'shelf');
});
