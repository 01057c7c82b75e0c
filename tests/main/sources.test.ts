import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { programRoot } from '../../src/main/program-root.ts';

// What may stand in one file only, or nowhere.
const root = programRoot();
const sources = readdirSync(join(root, 'src'), { recursive: true, encoding: 'utf8' })
  .filter((name) => /\.(ts|tsx|cjs|html)$/.test(name))
  .map((name) => ({ name: `src/${name.replaceAll('\\', '/')}`, text: readFileSync(join(root, 'src', name), 'utf8') }));

const filesWith = (pattern: RegExp): readonly string[] =>
  sources.filter(({ text }) => pattern.test(text)).map(({ name }) => name);

test.each([
  ['opens SQLite', /from 'better-sqlite3'/, ['src/main/store/database.ts']],
  ['leaves the sandbox out', /['"]--no-sandbox['"]/, ['src/main/hosts/browser.ts']],
  ['switches a guard of the window off', /(sandbox|webSecurity|contextIsolation):\s*false/, []],
  ['lets Node into a window', /nodeIntegration(InWorker|InSubFrames)?:\s*true|webviewTag:\s*true/, []],
  ['opens a debugging port', /remote-debugging-port/, []],
  ['bypasses the content policy', /bypassCSP|unsafe-inline|unsafe-eval/, []],
  ['makes the one door', /ipcMain\.(handle|on)\b/, ['src/main/hosts/electron-wire.ts']],
  ['listens to the network', /server\.listen\(|createServer\(/, ['src/main/hosts/browser-server.ts']],
  ['allows other origins', /access-control-allow/i, []],
] as const)('%s', (_what, pattern, allowed) => {
  expect(filesWith(pattern)).toEqual(allowed);
});

test('the port is all that the preload script exposes', () => {
  const preload = sources.find(({ name }) => name === 'src/main/hosts/preload.ts')?.text ?? '';
  expect(preload.match(/exposeInMainWorld\([^)]*\)/g)).toEqual(["exposeInMainWorld('backweigh', port)"]);
});
