import { chmodSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { spawn } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { programRoot } from '../../src/main/program-root.ts';
import { startProgram } from '../browser.ts';
import { describeOnPosix, openBook } from '../main/workbook-fixture.ts';

// How the browser host begins and ends, with a stand-in for the browser where its command line matters.

const root = programRoot();

function folderForTest(): string {
  const folder = mkdtempSync(join(tmpdir(), 'backweigh-life-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** A "browser" that writes down who it is and how it was called, and stays until it is sent away or ended. */
function standInBrowser(folder: string): { readonly file: string; readonly called: () => string; readonly sendAway: () => void } {
  const file = join(folder, 'browser');
  // Renamed when it is whole: it may be read at any moment.
  const script = [
    '#!/bin/sh',
    `printf '%s\\n' $$ "$@" > '${folder}/calling'`,
    `mv '${folder}/calling' '${folder}/called'`,
    `while [ ! -e '${folder}/away' ]; do sleep 0.1; done`,
    '',
  ];
  writeFileSync(file, script.join('\n'));
  chmodSync(file, 0o755);
  return {
    file,
    called: () => (existsSync(join(folder, 'called')) ? readFileSync(join(folder, 'called'), 'utf8') : ''),
    sendAway: () => writeFileSync(join(folder, 'away'), ''),
  };
}

function lives(process_: number): boolean {
  try {
    return process.kill(process_, 0);
  } catch {
    return false;
  }
}

interface Started {
  readonly output: () => string;
  readonly code: Promise<number | null>;
  readonly kill: (signal: NodeJS.Signals) => void;
}

function startHost(env: Readonly<Record<string, string>>, ...command: readonly string[]): Started {
  const args = command.length > 0 ? command : [join(root, 'out', 'main', 'browser.js')];
  const child = spawn(process.execPath, args, {
    cwd: root,
    env: { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (text: Buffer) => (output += text.toString()));
  onTestFinished(() => void child.kill('SIGKILL'));
  return { output: () => output, code: new Promise((done) => child.once('exit', done)), kill: (signal) => child.kill(signal) };
}

const until = (true_: () => boolean): Promise<void> => expect.poll(true_).toBe(true);

test.each(['SIGINT', 'SIGTERM'] as const)('%s ends the program cleanly, with its log folded in', async (signal) => {
  const folder = folderForTest();
  const program = await startProgram(folder);
  const gone = new Promise((done) => program.process.once('exit', done));
  program.process.kill(signal);
  expect(await gone).toBe(0);
  expect(readdirSync(folder)).toEqual(['backweigh.db']);
  expect(program.output()).not.toMatch(/error/i);
});

describeOnPosix('with a display and a browser', () => {
  test('opens a window of its own, without the token on the command line, and ends when the window goes', async () => {
    const folder = folderForTest();
    const data = join(folder, 'data');
    const browser = standInBrowser(folder);
    const host = startHost({ BACKWEIGH_DATA: data, BACKWEIGH_BROWSER: browser.file, DISPLAY: ':99' });
    await until(() => browser.called() !== '' && host.output().includes('Backweigh is open in a window of its own.'));
    expect(host.output()).not.toContain('token=');
    const called = browser.called().split('\n');
    expect(called).toContain(`--user-data-dir=${join(data, 'window')}`);
    for (const quiet of ['--no-first-run', '--disable-background-networking', '--disable-sync']) expect(called).toContain(quiet);
    expect(called.includes('--no-sandbox')).toBe(process.getuid?.() === 0);
    expect(host.output().includes('--no-sandbox')).toBe(process.getuid?.() === 0);
    const address = called.find((flag) => flag.startsWith('--app='))?.slice('--app='.length) ?? '';
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/\?ticket=[\w-]{43}$/);

    const first = await fetch(address, { redirect: 'manual' });
    expect([first.status, first.headers.get('location')]).toEqual([303, expect.stringMatching(/^\/#token=[\w-]{43}$/)]);
    const second = await fetch(address, { redirect: 'manual' });
    expect([second.status, second.headers.get('location')]).toEqual([200, null]);
    browser.sendAway();
    expect(await host.code).toBe(0);
    expect(host.output()).not.toMatch(/error/i);
  });

  test('closes the window when it is ended itself', async () => {
    const folder = folderForTest();
    const browser = standInBrowser(folder);
    const host = startHost({ BACKWEIGH_DATA: join(folder, 'data'), BACKWEIGH_BROWSER: browser.file, DISPLAY: ':99' });
    await until(() => browser.called() !== '');
    const [id] = browser.called().split('\n');
    expect(lives(Number(id))).toBe(true);
    host.kill('SIGTERM');
    expect(await host.code).toBe(0);
    await until(() => !lives(Number(id)));
  });
});

test('with neither display nor browser it still serves, and prints the address', async () => {
  const folder = folderForTest();
  const host = startHost({ BACKWEIGH_DATA: folder, BACKWEIGH_BROWSER: join(folder, 'none') });
  await until(() => host.output().includes('#token='));
  const [, origin = '', token = ''] = /(http:\/\/127\.0\.0\.1:\d+)\/#token=(\S+)/.exec(host.output()) ?? [];
  const call = async (name: string, input: unknown): Promise<unknown> => {
    const headers = { authorization: `Bearer ${token}`, 'content-type': 'application/json' };
    return (await fetch(`${origin}/call/${name}`, { method: 'POST', headers, body: JSON.stringify(input) })).json();
  };
  expect(await call('program.about', {})).toMatchObject({ ok: true, value: { host: 'browser', dataFolder: folder } });
  const issued = await call('papers.issue', { planId: 1, state: 1, kind: 'k', title: 't', paper: {} });
  expect(issued).toMatchObject({ ok: true });
  expect(await call('papers.pdf', { id: 1 })).toMatchObject({
    ok: false,
    code: 'not here',
    detail: expect.stringContaining('browser'),
  });
  expect(await call('papers.print', { id: 1 })).toMatchObject({ ok: false, code: 'not here' });
  host.kill('SIGTERM');
  expect(await host.code).toBe(0);
});

test('changes are told through the stream, whoever made them', async () => {
  const folder = folderForTest();
  const program = await startProgram(folder);
  const headers = { authorization: `Bearer ${program.token}`, 'content-type': 'application/json' };
  const stream = await fetch(`${program.origin}/subscribe`, { method: 'POST', headers, body: '{}' });
  const reader = stream.body?.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  const reading = (async () => {
    for (let part = await reader?.read(); part && !part.done; part = await reader?.read()) text += part.value;
  })();
  const { call } = openBook({ folder });
  await fetch(`${program.origin}/call/settings.read`, { method: 'POST', headers, body: '{}' });
  const settings = (await call('settings.read', {})) as { value: object };
  await fetch(`${program.origin}/call/settings.save`, {
    method: 'POST',
    headers,
    body: JSON.stringify({ settings: settings.value }),
  });
  await until(() => text.includes('{"topic":"settings"}\n'));
  // The watch for other processes begins some time after the first paint: what was written before it is not news.
  const told = async (): Promise<boolean> => {
    await call('shelf.add', { material: { name: 'x' }, form: { kind: 'neat' }, amount: 1, unit: 'g' });
    return text.includes('{"topic":"shelf"}\n');
  };
  await expect.poll(told, { interval: 500 }).toBe(true);
  expect(await program.stop()).toBe(0);
  await reading;
  expect(readdirSync(join(folder, 'backups')).filter((name) => name.endsWith('-daily.db'))).toHaveLength(1);
});

describe('npm start', () => {
  const start = join('src', 'main', 'start.ts');
  test('on a machine without a display says why the browser is used, and where', async () => {
    const folder = folderForTest();
    const host = startHost({ BACKWEIGH_DATA: folder }, start);
    await until(() => host.output().includes('#token='));
    const lines = host.output().trim().split('\n');
    expect(lines[0]).toBe("Using the machine's own browser as the window: there is no display for a window.");
    host.kill('SIGTERM');
    expect(await host.code).toBe(0);
  });
  test.each([
    ['a host nobody knows', { BACKWEIGH_HOST: 'x' }, 'BACKWEIGH_HOST needs to be "electron" or "browser" (got "x").'],
    [
      'Electron without a display',
      { BACKWEIGH_HOST: 'electron' },
      'Electron was asked for, but there is no display for a window.',
    ],
  ])('with %s it says so and fails', async (_what, env, line) => {
    const host = startHost(env, start);
    expect(await host.code).toBe(1);
    expect(host.output().trim()).toBe(line);
  });
});
