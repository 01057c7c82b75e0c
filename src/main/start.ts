// `npm start` and `npm run dev`: builds what is stale, then opens the program in the window this machine can show.
import { type ChildProcess, spawn } from 'node:child_process';
import { watch } from 'node:fs';
import { join } from 'node:path';
import { startLines } from '../core/words/main-words.ts';
import { type Choice, chooseHost, lineBefore } from './choose-host.ts';
import { electronBinary, fetchElectron } from './find-electron.ts';
import { build, buildStamp, isStale } from './fresh-build.ts';
import { hasDisplay } from './hosts/find-browser.ts';
import { programRoot } from './program-root.ts';

/** An Electron that ends with an error this soon could not open a window at all. */
const FAILED_START_MILLISECONDS = 5000;
const SETTLE_MILLISECONDS = 150;

const { env, platform } = process;
const root = programRoot();
const watching = process.argv.includes('--watch');

const choice = chooseHost({
  forced: env.BACKWEIGH_HOST,
  display: hasDisplay(env, platform),
  root: process.getuid?.() === 0,
  platform,
  electron: () => {
    const here = electronBinary(root) !== null || fetchElectron(root, env.BACKWEIGH_HOST === 'electron');
    return here ? 'here' : 'not to be had';
  },
});
if (choice.host !== 'none' && isStale(root) && !build(root)) leave(1, startLines.buildFailed);

let child: ChildProcess | null = null;
let restarting = false;
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => child?.kill(signal));
open(choice);
if (watching) watchSources();

function open(chosen: Choice): void {
  if (chosen.host === 'none') return leave(1, chosen.reason);
  const line = lineBefore(chosen, env.BACKWEIGH_WINDOW);
  if (line !== null && !restarting) console.log(line);
  restarting = false;
  const began = Date.now();
  const [command, ...args] = commandOf(chosen.host);
  const rebuilt = watching ? { BACKWEIGH_REBUILT: buildStamp(root) } : {};
  child = spawn(command, args, { cwd: root, stdio: 'inherit', env: { ...env, ...rebuilt } });
  child.on('error', (error) => leave(1, startLines.notStarted(error.message)));
  child.on('exit', (code, signal) => {
    if (restarting) return open(chosen);
    const failedAtOnce =
      chosen.host === 'electron' && code !== 0 && signal === null && Date.now() - began < FAILED_START_MILLISECONDS;
    if (failedAtOnce && env.BACKWEIGH_HOST === undefined) return open({ host: 'browser', reason: startLines.electronFailed });
    leave(code ?? (signal === 'SIGINT' ? 130 : 1));
  });
}

function commandOf(host: 'electron' | 'browser'): [string, ...string[]] {
  if (host === 'electron') return [electronBinary(root) ?? 'electron', root];
  return [process.execPath, join(root, 'out', 'main', 'browser.js')];
}

/** Builds again after every change: windows load themselves again, a change of the main process starts it again. */
function watchSources(): void {
  let settle: NodeJS.Timeout | undefined;
  let main = false;
  watch(join(root, 'src'), { recursive: true }, (_event, name) => {
    main ||= name === null || !name.startsWith('renderer');
    clearTimeout(settle);
    settle = setTimeout(() => {
      if (!build(root)) return console.error(startLines.buildFailed);
      if (main) {
        restarting = true;
        child?.kill();
      }
      main = false;
    }, SETTLE_MILLISECONDS);
  });
}

function leave(code: number, line?: string): never {
  if (line !== undefined) console.error(line);
  process.exit(code);
}
