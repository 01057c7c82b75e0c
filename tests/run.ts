// `npm test`: brings what is missing, builds once, runs every test, and says how many passed and failed.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { electronBinary } from '../src/main/find-electron.ts';
import { build } from '../src/main/fresh-build.ts';
import { programRoot } from '../src/main/program-root.ts';
import { bringTools } from './bring.ts';
import { COMPILED } from './compiled.ts';

/** What is read of vitest's JSON report. */
interface Report {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly numTodoTests: number;
  readonly success: boolean;
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly assertionResults: readonly { readonly status: string }[];
  }[];
}

const root = programRoot();
const REPORT = join(root, '.cache', 'tests.json');

if (!bringTools()) process.exit(1);
if (!build(root)) {
  console.error('The program could not be built; the lines above say why.');
  process.exit(1);
}
if (electronBinary(root) === null) {
  console.log(
    "Electron's binary is not here: what needs it is tested against a stand-in (tests/main/electron-wire.test.ts), " +
      'and the end-to-end tests run in the browser host.',
  );
}
mkdirSync(join(root, '.cache'), { recursive: true });
rmSync(REPORT, { force: true });
// Many tests wait for processes and browsers, so that even two cores carry two files at once.
const workers = Math.max(2, availableParallelism() - 1);
const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${REPORT}`];
const { status } = spawnSync('vitest', ['run', `--maxWorkers=${workers}`, ...reporters], {
  cwd: root,
  env: { ...process.env, ...COMPILED },
  stdio: 'inherit',
  shell: process.platform === 'win32',
});
const report = JSON.parse(readFileSync(REPORT, 'utf8')) as Report;
// A file that could not even be loaded has no tests to count; it is one failure.
const notLoaded = report.testResults.filter(
  (file) => file.status === 'failed' && !file.assertionResults.some((one) => one.status === 'failed'),
).length;
const failed = report.numFailedTests + notLoaded;
const skipped = report.numPendingTests + report.numTodoTests;
if (skipped > 0) console.log(`${skipped} skipped`);
console.log(`${report.numPassedTests} passed, ${failed} failed`);
process.exit(status === 0 && failed === 0 && report.success ? 0 : 1);
