import { mkdtempSync, rmSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launchChromium, type RunningProgram, startProgram } from '../browser.ts';

// A real Chromium on pages that are not ours: a name rebound to this machine, and a page that tries whatever a page can.

const FOREIGN = 'attacker.example.org';
const REBOUND = 'rebound.example.org';

let folder = '';
let program: RunningProgram;
let browser: Browser;
let foreign: Server;
let foreignOrigin = '';
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'backweigh-foreign-'));
  program = await startProgram(folder);
  // Chromium takes both names for this machine, as a rebinding name server would have it.
  browser = await launchChromium([`--host-resolver-rules=MAP ${FOREIGN} 127.0.0.1, MAP ${REBOUND} 127.0.0.1`]);
  foreign = createServer((_request, response) => {
    response.writeHead(200, { 'content-type': 'text/html' });
    response.end('<!doctype html><title>foreign</title>');
  });
  await new Promise<void>((done) => foreign.listen(0, '127.0.0.1', done));
  foreignOrigin = `http://${FOREIGN}:${(foreign.address() as AddressInfo).port}`;
});
afterAll(async () => {
  await browser.close();
  foreign.close();
  expect(await program.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

async function openPage(address: string): Promise<Page> {
  const page = await browser.newPage();
  await page.goto(address);
  return page;
}

/** Waits until the window shows something of the program, and has had time to do what is forbidden. */
async function drawn(page: Page): Promise<void> {
  await page.locator('#app > *').first().waitFor();
  await page.waitForTimeout(500);
}

/** Bottles on the shelf, asked the right way. */
async function bottles(): Promise<number> {
  const response = await fetch(`${program.origin}/call/shelf.list`, {
    method: 'POST',
    headers: { authorization: `Bearer ${program.token}`, 'content-type': 'application/json' },
    body: JSON.stringify({ search: '', from: 0, count: 1, sort: 'name' }),
  });
  return ((await response.json()) as { value: { total: number } }).value.total;
}

test('a rebound name gets nothing, not even the page', async () => {
  const page = await browser.newPage();
  const port = new URL(program.origin).port;
  const response = await page.goto(`http://${REBOUND}:${port}/`);
  expect([response?.status(), (await page.textContent('body'))?.trim()]).toEqual([421, '421']);
  const called = await page.evaluate(
    async ([token]) => {
      const answer = await fetch('/call/plans.list', {
        method: 'POST',
        headers: { authorization: `Bearer ${token}`, 'content-type': 'application/json' },
        body: '{}',
      });
      return answer.status;
    },
    [program.token],
  );
  expect(called).toBe(421);
  await page.close();
});

describe('a foreign page, even with the token', () => {
  test('cannot call, read, frame, load or send a form to us', async () => {
    const before = await bottles();
    const page = await openPage(foreignOrigin);
    const tried = await page.evaluate(
      async ([origin, token]) => {
        const body = JSON.stringify({ material: { name: 'x' }, form: { kind: 'neat' }, amount: 1, unit: 'g' });
        const attempt = async (init: RequestInit): Promise<string> => {
          try {
            const answer = await fetch(`${origin}/call/shelf.add`, { method: 'POST', body, ...init });
            return answer.type === 'opaque' ? 'opaque' : String(answer.status);
          } catch {
            return 'blocked';
          }
        };
        const load = (name: string, address: string): Promise<string> =>
          new Promise((done) => {
            const element = Object.assign(document.createElement(name), { src: address, href: address, rel: 'stylesheet' });
            element.addEventListener('load', () => done('loaded'));
            element.addEventListener('error', () => done('blocked'));
            document.body.append(element);
          });
        const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json' };
        return {
          call: await attempt({ headers }),
          simple: await attempt({ mode: 'no-cors', headers: { 'content-type': 'text/plain' } }),
          script: await load('script', `${origin}/index.html`),
          image: await load('img', `${origin}/index.html`),
          style: await load('link', `${origin}/index.html`),
        };
      },
      [program.origin, program.token] as const,
    );
    expect(tried).toMatchObject({ call: 'blocked', script: 'blocked', image: 'blocked', style: 'blocked' });
    // A simple request leaves, but its answer cannot be read and nothing came of it.
    expect(['opaque', 'blocked']).toContain(tried.simple);
    await page.evaluate((origin) => {
      document.body.innerHTML = `<form method="post" action="${origin}/call/shelf.add" enctype="text/plain"><input name='{"a":"' value='"}'></form>`;
      document.forms[0]?.submit();
    }, program.origin);
    await page.waitForTimeout(500);
    expect(await bottles()).toBe(before);
    await page.close();
  });

  test('cannot frame our window', async () => {
    const page = await openPage(foreignOrigin);
    await page.evaluate((origin) => {
      const frame = document.createElement('iframe');
      frame.src = `${origin}/`;
      document.body.append(frame);
    }, program.origin);
    await page.waitForTimeout(700);
    const inner = page.frames().find((frame) => frame !== page.mainFrame());
    const text = await inner?.evaluate(() => document.body?.innerText ?? '').catch(() => '');
    expect(text ?? '').not.toContain('Backweigh');
    await page.close();
  });
});

describe('our own window', () => {
  let page: Page;
  beforeAll(async () => {
    page = await browser.newPage();
  });
  afterAll(() => page.close());

  test('loses the token from its address at once, keeps it over a reload, and breaks no rule of its policy', async () => {
    const said: string[] = [];
    page.on('console', (message) => said.push(`${message.type()}: ${message.text()}`));
    page.on('pageerror', (error) => said.push(error.message));
    const outside: string[] = [];
    page.on('request', (request) => {
      if (!/^(data:|blob:)/.test(request.url()) && !request.url().startsWith(program.origin)) outside.push(request.url());
    });
    await page.goto(program.address);
    await drawn(page);
    expect(page.url()).not.toContain(program.token);
    await page.reload();
    await drawn(page);
    expect(page.url()).not.toContain(program.token);
    expect(said.filter((line) => /Content Security Policy|^error/i.test(line))).toEqual([]);
    expect(outside).toEqual([]);
  });

  test.each([
    [
      'an inline script',
      "const s = document.createElement('script'); s.textContent = 'window.broken = 1'; document.body.append(s)",
    ],
    ['eval', "setTimeout(() => { try { (0, eval)('window.broken = 1') } catch {} })"],
    ['a handler in markup', "document.body.insertAdjacentHTML('beforeend', '<img src=x onerror=\"window.broken = 1\">')"],
    [
      'a remote script',
      "const s = document.createElement('script'); s.src = 'https://example.org/x.js'; document.body.append(s)",
    ],
    ['a remote image', "const i = new Image(); i.src = 'https://example.org/x.png'; document.body.append(i)"],
    ['a remote call', "fetch('https://example.org/').catch(() => {})"],
    ['a socket', "try { new WebSocket('wss://example.org/') } catch {}"],
    ['a frame', "const f = document.createElement('iframe'); f.src = 'https://example.org/'; document.body.append(f)"],
    ['a plug-in', "const o = document.createElement('object'); o.data = '/index.html'; document.body.append(o)"],
    ['a base', "const b = document.createElement('base'); b.href = 'https://example.org/'; document.head.append(b)"],
    ['an inline style', "document.body.insertAdjacentHTML('beforeend', '<p style=\"color: red\">x</p>')"],
    ['a form', "const f = document.createElement('form'); f.action = '/x'; document.body.append(f); f.submit()"],
    ['a worker from text', "try { new Worker(URL.createObjectURL(new Blob(['1']))) } catch {}"],
  ])('stops %s', async (_what, script) => {
    await page.goto(program.origin);
    await page.evaluate(() => {
      const violations: string[] = [];
      Object.assign(window, { violations });
      document.addEventListener('securitypolicyviolation', (event) => violations.push(event.effectiveDirective));
    });
    await page.evaluate(script).catch(() => {});
    const violations = (): Promise<number> =>
      page.evaluate(() => (window as unknown as { violations: string[] }).violations.length);
    await expect.poll(violations).toBeGreaterThan(0);
    await page.waitForTimeout(100);
    expect(await page.evaluate(() => 'broken' in window)).toBe(false);
  });
});
