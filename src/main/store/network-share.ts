import { spawnSync } from 'node:child_process';
import { readFileSync, realpathSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

/** File systems whose locks and shared memory cannot be relied on by SQLite's write-ahead log. */
const SHARES: ReadonlySet<string> = new Set([
  'nfs',
  'nfs4',
  'cifs',
  'smb',
  'smb2',
  'smb3',
  'smbfs',
  'afs',
  'afpfs',
  'webdav',
  'davfs',
  'ncpfs',
  'ceph',
  'glusterfs',
  'lustre',
  'beegfs',
  'fuse.sshfs',
  'fuse.davfs2',
  'fuse.glusterfs',
  'fuse.ceph',
  'fuse.rclone',
]);

export interface Mount {
  readonly at: string;
  readonly type: string;
}

/** Mounts as /proc/self/mountinfo lists them; octal escapes (\040 for a blank) are resolved. */
export function mountsOfLinux(mountinfo: string): readonly Mount[] {
  return mountinfo.split('\n').flatMap((line) => {
    const [before, after] = line.split(' - ');
    const at = before?.split(' ')[4];
    const type = after?.split(' ')[0];
    if (!at || !type) return [];
    return [{ at: at.replace(/\\([0-7]{3})/g, (_all, octal: string) => String.fromCharCode(Number.parseInt(octal, 8))), type }];
  });
}

/** Mounts as macOS' `mount` prints them: "//anna@server/lab on /Volumes/lab (smbfs, nodev)". */
export function mountsOfMac(output: string): readonly Mount[] {
  return output.split('\n').flatMap((line) => {
    const [, at, type] = /^.* on (.+) \(([^,)]+)/.exec(line) ?? [];
    return at && type ? [{ at, type }] : [];
  });
}

/** The kind of share a folder lies on, or null. The deepest mount above it decides. */
export function shareAbove(folder: string, mounts: readonly Mount[]): string | null {
  const above = mounts.filter(({ at }) => folder === at || folder.startsWith(at.endsWith('/') ? at : `${at}/`));
  // Of two mounts at one place the later hides the earlier.
  const deepest = above.reduce<Mount | null>((best, mount) => (best && best.at.length > mount.at.length ? best : mount), null);
  return deepest && SHARES.has(deepest.type) ? deepest.type : null;
}

/** Whether a folder (which need not exist yet) lies on a network share, as far as this system tells. */
export function networkShare(folder: string): string | null {
  const path = nearestReal(resolve(folder));
  if (process.platform === 'win32') return path.startsWith('\\\\') && !path.startsWith('\\\\?\\') ? 'UNC path' : null;
  try {
    if (process.platform === 'linux') return shareAbove(path, mountsOfLinux(readFileSync('/proc/self/mountinfo', 'utf8')));
    if (process.platform === 'darwin') {
      return shareAbove(path, mountsOfMac(spawnSync('/sbin/mount', { encoding: 'utf8', timeout: 5000 }).stdout ?? ''));
    }
  } catch {
    // Where mounts cannot be read the answer is "not known", and the folder is taken.
  }
  return null;
}

function nearestReal(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return dirname(path) === path ? path : nearestReal(dirname(path));
  }
}
