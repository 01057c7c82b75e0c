// `npm run check`: everything that can be known in under a minute. Stops at the first part that fails.
import { spawnSync } from 'node:child_process';

const parts: readonly (readonly [name: string, command: string, ...args: string[]])[] = [
  ['types', 'tsc', '-b'],
  ['lint and layers', 'oxlint', '--deny-warnings', 'src', 'tests'],
  ['format', 'biome', 'format', '.'],
  ['dead code', 'knip', '--no-progress'],
  ['unit tests', 'vitest', 'run', '--project', 'unit', '--project', 'renderer', '--reporter', 'dot'],
];

for (const [name, command, ...args] of parts) {
  const start = performance.now();
  const { status } = spawnSync(command, args, { stdio: 'inherit', shell: process.platform === 'win32' });
  console.log(`${status === 0 ? 'ok  ' : 'FAIL'} ${name} (${((performance.now() - start) / 1000).toFixed(1)} s)`);
  if (status !== 0) process.exit(status ?? 1);
}
