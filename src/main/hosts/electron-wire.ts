// Attaches the policies to Electron. Takes Electron as an argument, so that tests can hand in a stand-in.
import { readFile } from 'node:fs/promises';
import type { PortResult } from '../../core/port/result.ts';
import { mainWords } from '../../core/words/main-words.ts';
import type { Program } from '../index.ts';
import { answer } from '../procedures/index.ts';
import { pageFor, realPath } from './bundle.ts';
import {
  APP_ORIGIN,
  APP_SCHEME,
  checkSender,
  decideDownload,
  decideNavigation,
  decidePermission,
  decideRequestFrom,
  mayOpenExternally,
  SECURITY_HEADERS,
  serveAppFile,
} from './policies.ts';

export type Electron = Pick<
  typeof import('electron'),
  'app' | 'BrowserWindow' | 'dialog' | 'ipcMain' | 'Menu' | 'protocol' | 'session'
>;

/** What must be said before Electron is ready. */
export function beforeReady({ app, protocol }: Pick<Electron, 'app' | 'protocol'>): void {
  app.enableSandbox();
  protocol.registerSchemesAsPrivileged([
    { scheme: APP_SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
}

export interface Wiring {
  readonly program: Program;
  /** Folder of the built windows. */
  readonly bundle: string;
  /** Options every window of the program is made with. */
  readonly windowOptions: Electron.BrowserWindowConstructorOptions;
  /** Shows an address to the person and opens it outside if they want it. */
  readonly openOutside: (address: string) => void;
}

/** Attaches everything once Electron is ready. Whatever is not allowed here is denied. */
export function wire(electron: Electron, wiring: Wiring): void {
  serveApp(electron, wiring);
  guardSession(electron);
  guardContents(electron, wiring);
  answerCalls(electron, wiring.program);
  tellWindows(electron, wiring.program);
}

function serveApp({ protocol }: Electron, { bundle, program }: Wiring): void {
  protocol.handle(APP_SCHEME, async (request) => {
    const { pathname, host } = new URL(request.url);
    if (`${APP_SCHEME}://${host}` !== APP_ORIGIN) return plainResponse(404);
    const path = pageFor(pathname, program);
    const found = serveAppFile({ method: request.method, path }, bundle, realPath);
    if (found.status !== 200) return plainResponse(found.status);
    return new Response(await readFile(found.file), { headers: { ...SECURITY_HEADERS, 'content-type': found.type } });
  });
}

function plainResponse(status: number): Response {
  return new Response(`${status}\n`, { status, headers: { ...SECURITY_HEADERS, 'content-type': 'text/plain; charset=utf-8' } });
}

function guardSession({ session }: Electron): void {
  const ours = session.defaultSession;
  // Electron grants what nobody asks about; so every kind of asking is answered.
  ours.setPermissionRequestHandler((_contents, permission, callback) => callback(decidePermission(permission) === 'allow'));
  ours.setPermissionCheckHandler((_contents, permission) => decidePermission(permission) === 'allow');
  ours.setDevicePermissionHandler(() => false);
  ours.setDisplayMediaRequestHandler((_request, callback) => callback({}));
  ours.setBluetoothPairingHandler((_details, callback) => callback({ confirmed: false }));
  ours.on('will-download', (event, item) => {
    if (decideDownload(item.getURL()) === 'deny') event.preventDefault();
  });
  ours.webRequest.onBeforeRequest(({ url }, callback) => callback({ cancel: decideRequestFrom(url) === 'deny' }));
  ours.setSpellCheckerEnabled(false);
}

function guardContents({ app }: Electron, { windowOptions, openOutside }: Wiring): void {
  app.on('web-contents-created', (_created, contents) => {
    const stop = (event: { readonly url: string; preventDefault(): void }): void => {
      if (decideNavigation(event.url) === 'deny') event.preventDefault();
    };
    contents.on('will-navigate', stop);
    contents.on('will-frame-navigate', stop);
    contents.on('will-redirect', stop);
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(({ url }) => {
      if (decideNavigation(url) === 'allow') {
        return { action: 'allow', overrideBrowserWindowOptions: { ...windowOptions, show: true } };
      }
      if (mayOpenExternally(url)) openOutside(url);
      return { action: 'deny' };
    });
  });
}

/** The one door. */
function answerCalls({ ipcMain }: Electron, { context }: Program): void {
  ipcMain.handle('call', (event, name: unknown, input: unknown): Promise<PortResult<unknown>> | PortResult<unknown> => {
    if (!checkSender(event.senderFrame) || typeof name !== 'string') {
      return { ok: false, code: 'refused', detail: mainWords.notOurWindow };
    }
    return answer(context, name, input);
  });
}

function tellWindows({ BrowserWindow }: Electron, { topics }: Program): void {
  topics.listen((topic) => {
    for (const window of BrowserWindow.getAllWindows()) window.webContents.send('changed', topic);
  });
}
