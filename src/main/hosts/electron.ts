// The program as people install it: one window of Electron's own.
import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import * as electron from 'electron';
import { windowWords } from '../../core/words/main-words.ts';
import { dataFolder } from '../data-folder.ts';
import { type Program, startProgram } from '../index.ts';
import type { HostAbilities } from '../procedures/context.ts';
import { programRoot } from '../program-root.ts';
import { paperToPdf, paperToPrinter } from './electron-print.ts';
import { beforeReady, wire } from './electron-wire.ts';
import { APP_ORIGIN, windowOptions } from './policies.ts';
import { keepSize, keptSize } from './window-size.ts';

const { app, BrowserWindow, dialog, Menu, shell } = electron;
const FIRST_PAINT_MILLISECONDS = 1500;

const { env, platform } = process;
const root = programRoot();
const folder = dataFolder({ env, platform, home: homedir() });

// The window's own files lie beside the workbook, and one workbook has one window's process.
app.setPath('userData', join(folder, 'window'));
beforeReady(electron);
if (app.requestSingleInstanceLock()) void begin();
else app.quit();

async function begin(): Promise<void> {
  await app.whenReady();
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  const options = windowOptions(
    join(root, 'out', 'preload', 'preload.cjs'),
    join(root, 'resources', 'icons', 'backweigh.png'),
    keptSize(folder),
  );
  const host: HostAbilities = {
    kind: 'electron',
    pdf: (paper) => paperToPdf(BrowserWindow, options, paper),
    print: (paper) => paperToPrinter(BrowserWindow, options, paper),
  };
  const program = startProgram({ dataFolder: folder, host, rebuilt: env.BACKWEIGH_REBUILT });
  wire(electron, { program, bundle: join(root, 'out', 'renderer'), windowOptions: options, openOutside });
  if (platform !== 'darwin') Menu.setApplicationMenu(null);
  openWindow(program, options);
  app.on('window-all-closed', () => app.quit());
  app.on('will-quit', program.close);
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => app.quit());
}

function openWindow(program: Program, options: ReturnType<typeof windowOptions>): void {
  const window = new BrowserWindow(options);
  window.once('ready-to-show', () => {
    window.show();
    setTimeout(program.afterFirstPaint, FIRST_PAINT_MILLISECONDS);
  });
  window.on('close', () => keepSize(folder, window.getNormalBounds()));
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason === 'clean-exit') return;
    const choice = dialog.showMessageBoxSync(window, windowWords.gone);
    if (choice === 0) window.reload();
    else window.close();
  });
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  void window.loadURL(`${APP_ORIGIN}/index.html`);
}

/** Shows where a link leads before it opens. */
function openOutside(address: string): void {
  const choice = dialog.showMessageBoxSync(windowWords.outside(address));
  if (choice === 0) void shell.openExternal(address);
}
