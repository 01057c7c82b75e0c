// `npm run check`: everything that can be known in under a minute. Tests run beside the other parts; the first part that
// fails ends the rest.
import { type ChildProcess, spawn } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { FEW_CASES } from './cases.ts';
import { COMPILED } from './compiled.ts';

type Part = readonly [name: string, command: string, ...args: string[]];

/** Nothing else is meant to run meanwhile: every core, and on one core two, for some tests wait for processes. */
const workers = Math.max(2, availableParallelism());

const lanes: readonly (readonly Part[])[] = [
  [['unit tests', 'vitest', 'run', '--project', 'unit', '--project', 'renderer', '--reporter', 'dot', `--maxWorkers=${workers}`]],
  [
    ['types', 'tsc', '-b'],
    ['lint and layers', 'oxlint', '--deny-warnings', 'src', 'tests'],
    ['format', 'biome', 'format', '.'],
    ['dead code', 'knip', '--no-progress'],
  ],
];

const running = new Set<ChildProcess>();
const env = { ...process.env, ...COMPILED, ...FEW_CASES, ...(process.stdout.isTTY ? { FORCE_COLOR: '1' } : {}) };

/** Runs one part and shows what it said once it has ended, so that two parts do not talk at once. */
async function passes([name, command, ...args]: Part): Promise<boolean> {
  const start = performance.now();
  const child = spawn(command, args, { env, stdio: ['ignore', 'pipe', 'pipe'], shell: process.platform === 'win32' });
  running.add(child);
  const said: Buffer[] = [];
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (part: Buffer) => said.push(part));
  const status = await new Promise((done) => {
    child.once('error', (error) => {
      said.push(Buffer.from(`${error.message}\n`));
      done(error.message);
    });
    child.once('close', done);
  });
  running.delete(child);
  process.stdout.write(Buffer.concat(said));
  console.log(`${status === 0 ? 'ok  ' : 'FAIL'} ${name} (${((performance.now() - start) / 1000).toFixed(1)} s)`);
  return status === 0;
}

async function passAll(parts: readonly Part[]): Promise<void> {
  for (const part of parts) {
    if (await passes(part)) continue;
    for (const child of running) child.kill();
    process.exit(1);
  }
}

const start = performance.now();
await Promise.all(lanes.map(passAll));
console.log(`all in ${((performance.now() - start) / 1000).toFixed(1)} s`);
