// Brings what the tests need and the machine lacks: a Chromium, and poppler's tools to read PDFs back.
import { spawnSync } from 'node:child_process';
import { findChromium } from './browser.ts';

const FETCH_MILLISECONDS = 120_000;
const INSTALL_MILLISECONDS = 300_000;

function works(command: string, ...args: readonly string[]): boolean {
  return spawnSync(command, args, { stdio: 'ignore', shell: process.platform === 'win32' }).status === 0;
}

function hasPoppler(): boolean {
  return works('pdftotext', '-v') && works('pdfinfo', '-v');
}

/** True where everything is there, brought if need be; what is missing otherwise is said. */
export function bringTools(): boolean {
  if (findChromium() === null) {
    console.log('No Chromium was found: fetching one.');
    run('playwright', ['install', 'chromium'], FETCH_MILLISECONDS);
  }
  if (findChromium() === null || !hasPoppler()) installOnDebian();
  const chromium = findChromium();
  if (chromium === null) {
    console.error(
      'The tests need a Chromium, and none could be fetched. Install Chromium, Chrome or Edge, or name one in BACKWEIGH_BROWSER.',
    );
  } else process.env.BACKWEIGH_BROWSER = chromium;
  if (!hasPoppler()) console.error('The tests need pdftotext and pdfinfo (package "poppler-utils" or "poppler") on PATH.');
  return chromium !== null && hasPoppler();
}

/** Only as root and only where there is apt: a container or a machine made for this. */
function installOnDebian(): void {
  if (process.getuid?.() !== 0 || !works('apt-get', '--version')) return;
  console.log('Installing Chromium and poppler with apt-get.');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  run('apt-get', ['update', '-qq'], INSTALL_MILLISECONDS, env);
  const packages = ['chromium', 'poppler-utils', 'fonts-liberation'];
  run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', ...packages], INSTALL_MILLISECONDS, env);
}

/** Quiet unless it fails; then its last lines say why. */
function run(command: string, args: readonly string[], timeout: number, env: NodeJS.ProcessEnv = process.env): void {
  const { status, stdout, stderr } = spawnSync(command, args, {
    timeout,
    env,
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  if (status === 0) return;
  const said = `${stdout ?? ''}${stderr ?? ''}`.trim().split('\n').slice(-3).join('\n');
  console.log(`${[command, ...args].join(' ')} did not work${status === null ? ' in time' : ''}:\n${said}`);
}
