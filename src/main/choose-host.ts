import { startLines } from '../core/words/main-words.ts';

export interface Circumstances {
  /** BACKWEIGH_HOST, where it is set. */
  readonly forced: string | undefined;
  readonly display: boolean;
  readonly root: boolean;
  readonly platform: string;
  /** Looks for Electron's binary, and fetches it where that is possible; asked only where it would be used. */
  readonly electron: () => 'here' | 'not to be had';
}

export type Choice =
  | { readonly host: 'electron' }
  | { readonly host: 'browser'; readonly reason: string }
  | { readonly host: 'none'; readonly reason: string };

/** Which window stands in front of the program, and why where it is not Electron's. */
export function chooseHost({ forced, display, root, platform, electron }: Circumstances): Choice {
  if (forced !== undefined && forced !== 'electron' && forced !== 'browser') {
    return { host: 'none', reason: startLines.unknownHost(forced) };
  }
  if (forced === 'browser') return { host: 'browser', reason: startLines.asked };
  const reason = against({ display, root, platform, electron });
  if (reason === null) return { host: 'electron' };
  return forced === 'electron' ? { host: 'none', reason: startLines.noElectron(reason) } : { host: 'browser', reason };
}

/** What is said before the window opens: nothing where it is Electron's, or where no window was asked for. */
export function lineBefore(choice: Choice, window: string | undefined): string | null {
  return choice.host === 'browser' && window !== 'none' ? startLines.browser(choice.reason) : null;
}

function against({ display, root, platform, electron }: Omit<Circumstances, 'forced'>): string | null {
  if (!display) return startLines.noDisplay;
  // Electron's sandbox refuses to run as root, and it is never started without one.
  if (root && platform === 'linux') return startLines.root;
  return electron() === 'here' ? null : startLines.notFetched;
}
