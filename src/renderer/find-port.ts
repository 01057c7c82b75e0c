import type { Port } from '../core/port/port.ts';
import { type ConnectionState, httpPort, type Surroundings, takeToken } from './port-client.ts';

declare global {
  interface Window {
    /** The port as the Electron host offers it; absent in a browser window. */
    readonly backweigh?: Port;
  }
}

/** Electron's bridge, or HTTP with the key from the address; null where there is neither. */
export function findPort(tell: (state: ConnectionState) => void = () => {}): Port | null {
  if (window.backweigh) return window.backweigh;
  const around: Surroundings = {
    fetch: (...request) => fetch(...request),
    location,
    history,
    sessionStorage,
    wait: (milliseconds) => new Promise((done) => setTimeout(done, milliseconds)),
  };
  const token = takeToken(around);
  return token === null ? null : httpPort(token, around, tell);
}
