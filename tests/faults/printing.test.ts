import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { weighingPaper } from '../../src/core/paper/weighing-sheet.ts';
import { untilReady } from '../../src/main/hosts/paper-ready.ts';
import { type RunningProgram, startProgram } from '../browser.ts';
import { context, DEMO } from '../core/paper-fixture.ts';

// A paper issued through the port and printed by the browser host, read back with poppler.

let folder = '';
let program: RunningProgram;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'backweigh-printing-'));
  program = await startProgram(folder);
});
afterAll(async () => {
  expect(await program.stop()).toBe(0);
  rmSync(folder, { recursive: true, force: true });
});

type Answer = {
  readonly ok: boolean;
  readonly code?: string;
  readonly detail?: string;
  readonly value?: Record<string, unknown>;
};

async function call(name: string, input: unknown): Promise<Answer> {
  const headers = { authorization: `Bearer ${program.token}`, 'content-type': 'application/json' };
  return (
    await fetch(`${program.origin}/call/${name}`, { method: 'POST', headers, body: JSON.stringify(input) })
  ).json() as Promise<Answer>;
}

function poppler(command: 'pdftotext' | 'pdfinfo', ...args: readonly string[]): string {
  const { status, stdout } = spawnSync(command, args, { encoding: 'utf8' });
  expect([command, status]).toEqual([command, 0]);
  return stdout;
}

describe.each(['A4', 'Letter'] as const)('on %s', (size) => {
  test('the sheet has its own size and margins, nothing of the browser on it, and nothing is left behind', async () => {
    const paper = weighingPaper([{ step: 'benzil', batch: 1 }], { ...context(DEMO), size });
    const issued = await call('papers.issue', { planId: 1, state: 1, kind: 'weighing', title: 'Weighing sheet 2-1', paper });
    const printed = await call('papers.pdf', { id: issued.value?.['id'] });
    expect(printed).toMatchObject({ ok: true, value: { name: 'Weighing sheet 2-1, revision 1.pdf' } });
    const file = join(folder, `${size}.pdf`);
    writeFileSync(file, Buffer.from(String(printed.value?.['base64']), 'base64'));
    const info = poppler('pdfinfo', file);
    expect(info).toMatch(size === 'A4' ? /Page size:\s+59[45]\.\d+ x 84[12]\.\d+ pts/ : /Page size:\s+612 x 792 pts/);
    expect(info).toMatch(/Tagged:\s+yes/);
    const text = poppler('pdftotext', '-layout', file, '-');
    for (const name of ['benzoin', 'nitric acid', 'ethanol', 'revision 1']) expect(text).toContain(name);
    expect(text).not.toMatch(/http|127\.0\.0\.1|token/);
    rmSync(file);
    await expect.poll(() => readdirSync(folder).filter((name) => name.startsWith('printing'))).toEqual([]);
  });
});

test('two papers printed at once do not disturb each other', async () => {
  const paper = weighingPaper([{ step: 'benzil', batch: 1 }], context(DEMO));
  const { value } = await call('papers.issue', { planId: 1, state: 1, kind: 'weighing', title: 'Sheet', paper });
  const both = await Promise.all([call('papers.pdf', { id: value?.['id'] }), call('papers.pdf', { id: value?.['id'] })]);
  expect(both.map(({ ok }) => ok)).toEqual([true, true]);
});

describe('waiting for a page', () => {
  const states = (...all: readonly string[]) => {
    let number = 0;
    return () => Promise.resolve(all[Math.min(number++, all.length - 1)]);
  };
  test('goes on when it is laid out', () => expect(untilReady(states('', '', 'yes'), 5000)).resolves.toBeUndefined());
  test('ends at once where there is no paper', () =>
    expect(untilReady(states('', 'no'), 5000)).rejects.toThrow('cannot be read'));
  test('does not wait for ever', () => expect(untilReady(states(''), 200)).rejects.toThrow('did not finish'));
});
