/** A window's first stream, or the next one after a reload, comes within these; after them the window is closed. */
const FIRST_STREAM_MILLISECONDS = 5000;
const RELOAD_MILLISECONDS = 2000;
/** Where a browser goes on running without a window, this long without any stream means that nobody will come back. */
const WINDOWLESS_MILLISECONDS = 600_000;

interface Watched {
  /** The browser goes on running when its last window is closed, as browsers do on macOS. */
  readonly outlivesWindows: boolean;
  readonly leave: () => void;
}

export interface WindowWatch {
  /** The number of windows that listen for changes now. */
  streams(open: number): void;
  /**
   * The browser's process has ended. Where one with this profile was open already, ours handed over to it and ended at
   * once; then only the streams tell when the window goes.
   */
  processGone(): void;
}

/** Decides when the last window has been closed. */
export function watchWindows({ outlivesWindows, leave }: Watched): WindowWatch {
  let open = 0;
  let seen = false;
  let gone = false;
  let leaving: NodeJS.Timeout | undefined;
  const consider = (): void => {
    clearTimeout(leaving);
    if (open > 0 || (!gone && !(outlivesWindows && seen))) return;
    const soon = seen ? RELOAD_MILLISECONDS : FIRST_STREAM_MILLISECONDS;
    leaving = setTimeout(leave, gone ? soon : WINDOWLESS_MILLISECONDS);
  };
  return {
    streams: (count) => {
      open = count;
      seen ||= count > 0;
      consider();
    },
    processGone: () => {
      gone = true;
      consider();
    },
  };
}
