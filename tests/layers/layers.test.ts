import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';

// Plants each forbidden import where it must not be and sees it refused: by the compiler, the linter, or both. In a copy of
// the program: whatever else reads the sources meanwhile must not find what was planted.
const root = join(import.meta.dirname, '..', '..');
let copy: string;

beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), 'backweigh-layers-'));
  for (const path of ['src', 'resources', 'package.json', 'tsconfig.base.json', '.oxlintrc.json']) {
    cpSync(join(root, path), join(copy, path), { recursive: true });
  }
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'), 'junction');
});
afterAll(() => rmSync(copy, { recursive: true, force: true }));

function plant(path: string, text: string): string {
  const file = join(copy, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
  return path;
}

function run(command: string, ...args: string[]): { readonly failed: boolean; readonly said: string } {
  const { status, stdout, stderr } = spawnSync(join(root, 'node_modules', '.bin', command), args, {
    cwd: copy,
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  return { failed: status !== 0, said: `${stdout}${stderr}` };
}

const planted: readonly (readonly [name: string, folder: string, text: string])[] = [
  ['core: node', 'core', "import { readFileSync } from 'node:fs';\nexport const x = readFileSync;\n"],
  ['core: main', 'core', "import { readReferenceRows } from '../main/tables.ts';\nexport const x = readReferenceRows;\n"],
  ['core: main, dynamically', 'core', "export const x = async () => import('../main/tables.ts');\n"],
  ['core: renderer types', 'core', "import type { x } from '../renderer/main.tsx';\nexport type Y = typeof x;\n"],
  ['core: preact', 'core', "import { h } from 'preact';\nexport const x = h;\n"],
  ['core: the clock', 'core', 'export const x = (): number => Date.now();\n'],
  ['core: chance', 'core', 'export const x = (): number => Math.random();\n'],
  ['main: renderer', 'main', "import { x } from '../renderer/port-client.ts';\nexport const y = x;\n"],
  ['renderer: main', 'renderer', "import { readReferenceRows } from '../main/tables.ts';\nexport const x = readReferenceRows;\n"],
  ['renderer: node', 'renderer', "import { join } from 'node:path';\nexport const x = join;\n"],
  ['renderer: electron', 'renderer', "import { ipcRenderer } from 'electron';\nexport const x = ipcRenderer;\n"],
];

describe('the linter', () => {
  /** What it says of each file, in one run over all. */
  const said = new Map<string, string>();
  const files = planted.map(([, folder], at) => `src/${folder}/planted-${at}-test.ts`);
  const [one, two, good] = ['one', 'two', 'good'].map((name) => `src/core/planted-${name}-test.ts`) as [string, string, string];

  beforeAll(() => {
    for (const [at, [, , text]] of planted.entries()) plant(files[at] ?? '', text);
    plant(one, "import { two } from './planted-two-test.ts';\nexport const one = (): unknown => two;\n");
    plant(two, "import { one } from './planted-one-test.ts';\nexport const two = (): unknown => one;\n");
    plant(good, "import { EXACT } from './quantity/figure.ts';\nexport const x = EXACT;\n");
    const all = [...files, one, two, good];
    const { diagnostics } = JSON.parse(run('oxlint', '--format', 'json', ...all).said) as {
      readonly diagnostics: readonly { readonly code: string; readonly filename: string }[];
    };
    for (const { code, filename } of diagnostics) said.set(filename, `${said.get(filename) ?? ''} ${code}`);
  });

  test.each(planted.map(([name], at) => [name, files[at] ?? ''] as const))('refuses %s', (_, file) => {
    expect(said.get(file)).toMatch(/no-restricted|no-cycle/);
  });
  test('refuses a cycle', () => {
    expect(said.get(two)).toContain('no-cycle');
  });
  test('refuses nothing in a file that keeps the rules', () => {
    expect(said.get(good)).toBeUndefined();
  });
});

describe('the compiler refuses in the core', () => {
  /** The options of the core, and of its files only this one: compiling all of it takes seconds and asks nothing more. */
  function compile(name: string, text: string): { readonly failed: boolean; readonly said: string } {
    plant(`src/core/${name}-test.ts`, text);
    plant(`src/core/${name}.json`, JSON.stringify({ extends: './tsconfig.json', include: [`${name}-test.ts`] }));
    const options = ['--emitDeclarationOnly', 'false', '--composite', 'false', '--incremental', 'false'];
    return run('tsc', '-p', `src/core/${name}.json`, '--noEmit', '--pretty', 'false', ...options);
  }

  test('the names of Node and the DOM', () => {
    const { failed, said } = compile('names', 'export const x = [process, document, console];\n');
    expect(failed).toBe(true);
    for (const name of ['process', 'document', 'console']) expect(said).toContain(`'${name}'`);
  });
  test('files of main, value or type', () => {
    const value = "import { readReferenceRows } from '../main/tables.ts';\nexport const x = readReferenceRows;\n";
    const type = "import type { Clock } from '../main/clock.ts';\nexport type X = Clock;\n";
    expect(compile('value', value).said).toMatch(/src\/main\/tables\.ts' is not under 'rootDir'/);
    expect(compile('type', type).said).toMatch(/src\/main\/clock\.ts' is not under 'rootDir'/);
  });
  test('nothing in a file that keeps the rules', () => {
    const { failed, said } = compile('good', "import { EXACT } from './quantity/figure.ts';\nexport const x = EXACT;\n");
    expect(failed, said).toBe(false);
  });
});
