import { spawnSync } from 'node:child_process';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';

// Plants each forbidden import where it must not be and sees it refused: by the compiler, the linter, or both.
const root = join(import.meta.dirname, '..', '..');
const planted: string[] = [];

function plant(path: string, text: string): string {
  const file = join(root, path);
  mkdirSync(join(file, '..'), { recursive: true });
  writeFileSync(file, text);
  planted.push(file);
  return file;
}

afterEach(() => {
  for (const file of planted.splice(0)) rmSync(file, { force: true });
});

function run(command: string, ...args: string[]): { readonly failed: boolean; readonly said: string } {
  const { status, stdout, stderr } = spawnSync(join(root, 'node_modules', '.bin', command), args, {
    cwd: root,
    encoding: 'utf8',
  });
  return { failed: status !== 0, said: `${stdout}${stderr}` };
}
const lint = (file: string) => run('oxlint', file);
const compile = (project: string) =>
  run('tsc', '-p', project, '--noEmit', '--emitDeclarationOnly', 'false', '--composite', 'false', '--incremental', 'false');

describe('the linter refuses', () => {
  test.each([
    ['core: node', 'src/core/planted-test.ts', "import { readFileSync } from 'node:fs';\nexport const x = readFileSync;\n"],
    [
      'core: main',
      'src/core/planted-test.ts',
      "import { readReferenceRows } from '../main/tables.ts';\nexport const x = readReferenceRows;\n",
    ],
    ['core: main, dynamically', 'src/core/planted-test.ts', "export const x = async () => import('../main/tables.ts');\n"],
    [
      'core: renderer types',
      'src/core/planted-test.ts',
      "import type { x } from '../renderer/main.tsx';\nexport type Y = typeof x;\n",
    ],
    ['core: preact', 'src/core/planted-test.ts', "import { h } from 'preact';\nexport const x = h;\n"],
    ['core: the clock', 'src/core/planted-test.ts', 'export const x = (): number => Date.now();\n'],
    ['core: chance', 'src/core/planted-test.ts', 'export const x = (): number => Math.random();\n'],
    ['main: renderer', 'src/main/planted-test.ts', "import { x } from '../renderer/port-client.ts';\nexport const y = x;\n"],
    [
      'renderer: main',
      'src/renderer/planted-test.ts',
      "import { readReferenceRows } from '../main/tables.ts';\nexport const x = readReferenceRows;\n",
    ],
    ['renderer: node', 'src/renderer/planted-test.ts', "import { join } from 'node:path';\nexport const x = join;\n"],
    [
      'renderer: electron',
      'src/renderer/planted-test.ts',
      "import { ipcRenderer } from 'electron';\nexport const x = ipcRenderer;\n",
    ],
  ])('%s', (_, path, text) => {
    const { failed, said } = lint(plant(path, text));
    expect(failed, said).toBe(true);
    expect(said).toMatch(/no-restricted|no-cycle/);
  });

  test('a cycle', () => {
    plant(
      'src/core/planted-one-test.ts',
      "import { two } from './planted-two-test.ts';\nexport const one = (): unknown => two;\n",
    );
    const file = plant(
      'src/core/planted-two-test.ts',
      "import { one } from './planted-one-test.ts';\nexport const two = (): unknown => one;\n",
    );
    expect(lint(file).said).toContain('no-cycle');
  });

  test('nothing in a file that keeps the rules', () => {
    const { failed, said } = lint(
      plant('src/core/planted-test.ts', "import { EXACT } from './quantity/figure.ts';\nexport const x = EXACT;\n"),
    );
    expect(failed, said).toBe(false);
  });
});

describe('the compiler refuses in the core', () => {
  test('the names of Node and the DOM', () => {
    plant('src/core/planted-test.ts', 'export const x = [process, document, console];\n');
    const { failed, said } = compile('src/core');
    expect(failed).toBe(true);
    for (const name of ['process', 'document', 'console']) expect(said).toContain(`'${name}'`);
  });
  test('files of main and renderer, value or type', () => {
    plant(
      'src/core/planted-test.ts',
      "import { readReferenceRows } from '../main/tables.ts';\nexport const x = readReferenceRows;\n",
    );
    expect(compile('src/core').failed).toBe(true);
  });
});
