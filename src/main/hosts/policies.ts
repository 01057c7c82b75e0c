// What a window may do and be served, as pure functions. The hosts attach them; nothing here touches a window.
import { isAbsolute, join, relative, sep } from 'node:path';

/** The same for both hosts: everything comes from the program itself, and nothing else is reached. */
export const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data:",
  "font-src 'self'",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
  "object-src 'none'",
].join('; ');

/** Sent with every answer of either host. */
export const SECURITY_HEADERS = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
} as const;

export const APP_SCHEME = 'app';
export const APP_HOST = 'backweigh';
export const APP_ORIGIN = `${APP_SCHEME}://${APP_HOST}`;

export interface WindowSize {
  readonly width: number;
  readonly height: number;
}

/** Options of the one window, for Electron's BrowserWindow. */
export function windowOptions(preload: string, icon: string, size: WindowSize) {
  return {
    ...size,
    minWidth: 720,
    minHeight: 480,
    show: false,
    title: 'Backweigh',
    icon,
    backgroundColor: '#faf8f3',
    autoHideMenuBar: true,
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      webSecurity: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webviewTag: false,
      spellcheck: false,
      navigateOnDragDrop: false,
      safeDialogs: true,
    },
  } as const;
}

/** Whether a window may go to an address: only to pages of our own, whatever the address looks like. */
export function decideNavigation(address: string, origin: string = APP_ORIGIN): 'allow' | 'deny' {
  const url = parse(address);
  if (!url || url.username !== '' || url.password !== '') return 'deny';
  // Node gives custom schemes the origin "null", so scheme and host are compared as they stand.
  return `${url.protocol}//${url.host}` === origin ? 'allow' : 'deny';
}

/** Only a file that a page of ours made itself (a PDF, a table) may be saved through the window. */
export function decideDownload(address: string, origin: string = APP_ORIGIN): 'allow' | 'deny' {
  return address.startsWith(`blob:${origin}/`) ? 'allow' : 'deny';
}

/** Requests that may leave a page at all; anything else is stopped before a socket is opened. */
export function decideRequestFrom(address: string, origin: string = APP_ORIGIN): 'allow' | 'deny' {
  if (address.startsWith('data:') || address.startsWith(`blob:${origin}/`)) return 'allow';
  return decideNavigation(address, origin);
}

/** What a page may use beyond itself. Copying a table to the clipboard is all that is used. */
const PERMITTED: ReadonlySet<string> = new Set(['clipboard-sanitized-write']);

export function decidePermission(name: string): 'allow' | 'deny' {
  return PERMITTED.has(name) ? 'allow' : 'deny';
}

/** The frame a call came from, as far as the decision needs it. */
export interface Sender {
  readonly url: string;
  /** The top frame has no parent. */
  readonly parent: unknown;
}

/** A call is answered only for the top frame of our own pages; a frame that is gone or unknown is refused. */
export function checkSender(frame: Sender | null | undefined): boolean {
  return frame !== null && frame !== undefined && frame.parent === null && decideNavigation(frame.url) === 'allow';
}

/** Sites a link may lead to, each shown to the person before it opens. None yet. */
const OUTSIDE: ReadonlySet<string> = new Set<string>([]);

export function mayOpenExternally(address: string, allowed: ReadonlySet<string> = OUTSIDE): boolean {
  const url = parse(address);
  if (!url || url.protocol !== 'https:' || url.username !== '' || url.password !== '' || url.port !== '') return false;
  return allowed.has(url.hostname);
}

const MIME: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  json: 'application/json; charset=utf-8',
  svg: 'image/svg+xml',
  png: 'image/png',
  woff2: 'font/woff2',
  ico: 'image/x-icon',
  wasm: 'application/wasm',
};

export type FileAnswer = { readonly status: 200; readonly file: string; readonly type: string } | { readonly status: 404 | 405 };

export interface FileRequest {
  readonly method: string;
  /** Path of the address as it was sent, still percent-encoded. */
  readonly path: string;
}

/** Reads nothing itself: `realPath` resolves links (null where nothing is there), so that this stays pure. */
export function serveAppFile(
  { method, path }: FileRequest,
  bundle: string,
  realPath: (path: string) => string | null,
): FileAnswer {
  if (method !== 'GET') return { status: 405 };
  const name = plainName(path);
  if (name === null) return { status: 404 };
  const type = MIME[name.slice(name.lastIndexOf('.') + 1)];
  const root = realPath(bundle);
  const file = realPath(join(bundle, name));
  if (!type || root === null || file === null) return { status: 404 };
  // A link inside the bundle may point out of it; only what truly lies inside is served.
  const inside = relative(root, file);
  if (inside === '' || inside === '..' || inside.startsWith(`..${sep}`) || isAbsolute(inside)) return { status: 404 };
  return { status: 200, file, type };
}

/** Decoded path of plain names only: no step up, no empty or hidden part, no back-slash, colon, or control character. */
function plainName(path: string): string | null {
  let decoded: string;
  try {
    decoded = decodeURIComponent(path);
  } catch {
    return null;
  }
  const name = decoded === '/' ? '/index.html' : decoded;
  return /^(\/[A-Za-z0-9_-][A-Za-z0-9_.-]*)+$/.test(name) ? name.slice(1) : null;
}

function parse(address: string): URL | null {
  try {
    return new URL(address);
  } catch {
    return null;
  }
}
