import { join } from 'node:path';

interface Machine {
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly platform: string;
  readonly home: string;
}

/** Where the person's data lies: BACKWEIGH_DATA, or else the platform's usual place for a program's data. */
export function dataFolder({ env, platform, home }: Machine): string {
  if (env.BACKWEIGH_DATA) return env.BACKWEIGH_DATA;
  if (platform === 'win32') return join(env.APPDATA ?? join(home, 'AppData', 'Roaming'), 'Backweigh');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'Backweigh');
  return join(env.XDG_DATA_HOME ?? join(home, '.local', 'share'), 'backweigh');
}
