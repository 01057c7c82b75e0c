import { describe, expect, test } from 'vitest';
import { chooseHost, type Circumstances, lineBefore } from '../../src/main/choose-host.ts';
import { dataFolder } from '../../src/main/data-folder.ts';
import { findBrowser, hasDisplay } from '../../src/main/hosts/find-browser.ts';
import { keepSize, keptSize } from '../../src/main/hosts/window-size.ts';
import { mountsOfLinux, mountsOfMac, networkShare, shareAbove } from '../../src/main/store/network-share.ts';
import { temporaryFolder } from './workbook-fixture.ts';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';

describe('the host', () => {
  const usual: Circumstances = { forced: undefined, display: true, root: false, platform: 'linux', electron: () => 'here' };
  test.each([
    ['a display and Electron', {}, { host: 'electron' }],
    ['no display', { display: false }, { host: 'browser', reason: 'there is no display for a window' }],
    [
      'no binary',
      { electron: () => 'not to be had' },
      { host: 'browser', reason: expect.stringContaining('could not be fetched') },
    ],
    ['root on Linux', { root: true }, { host: 'browser', reason: expect.stringContaining('root') }],
    ['root on macOS', { root: true, platform: 'darwin' }, { host: 'electron' }],
    ['the browser by wish', { forced: 'browser' }, { host: 'browser', reason: expect.any(String) }],
    ['Electron by wish, without a display', { forced: 'electron', display: false }, { host: 'none', reason: expect.any(String) }],
    ['a wish nobody knows', { forced: 'x' }, { host: 'none', reason: expect.stringContaining('"electron" or "browser"') }],
  ] as const)('%s', (_what, more, choice) => expect(chooseHost({ ...usual, ...more })).toEqual(choice));

  test('a line says why the browser is the window, but not where no window was asked for', () => {
    const browser = chooseHost({ ...usual, display: false });
    expect(lineBefore(browser, undefined)).toContain('there is no display for a window');
    expect(lineBefore(browser, 'none')).toBeNull();
    expect(lineBefore(chooseHost(usual), undefined)).toBeNull();
  });

  test('Electron is not fetched where it would not be used', () => {
    const electron = (): never => {
      throw new Error('fetched');
    };
    expect(chooseHost({ ...usual, display: false, electron }).host).toBe('browser');
    expect(chooseHost({ ...usual, forced: 'browser', electron }).host).toBe('browser');
  });
});

describe('the data folder', () => {
  const home = '/home/anna';
  test.each([
    [{ BACKWEIGH_DATA: '/lab/data' }, 'linux', '/lab/data'],
    [{}, 'linux', '/home/anna/.local/share/backweigh'],
    [{ XDG_DATA_HOME: '/x' }, 'linux', '/x/backweigh'],
    [{}, 'darwin', '/home/anna/Library/Application Support/Backweigh'],
  ])('%o on %s', (env, platform, folder) => expect(dataFolder({ env, platform, home })).toBe(folder));
});

describe('the browser of this machine', () => {
  const runs = (...paths: string[]) => ({ runs: (path: string) => paths.includes(path) });
  test('is the first on PATH by kind, then by folder', () => {
    const env = { PATH: '/a:/b' };
    const found = findBrowser({ env, platform: 'linux', ...runs('/a/google-chrome', '/b/chromium') });
    expect(found).toBe('/b/chromium');
  });
  test('is the one that was named, or none', () => {
    const env = { PATH: '/a', BACKWEIGH_BROWSER: '/c/browser' };
    expect(findBrowser({ env, platform: 'linux', ...runs('/a/chromium', '/c/browser') })).toBe('/c/browser');
    expect(findBrowser({ env, platform: 'linux', ...runs('/a/chromium') })).toBeNull();
  });
  test('is none on a bare machine', () => expect(findBrowser({ env: {}, platform: 'linux', ...runs() })).toBeNull());
  test('is looked for where macOS keeps programs', () => {
    const chrome = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome';
    expect(findBrowser({ env: {}, platform: 'darwin', ...runs(chrome) })).toBe(chrome);
  });
  test.each([
    [{}, 'linux', false],
    [{ DISPLAY: '' }, 'linux', false],
    [{ DISPLAY: ':0' }, 'linux', true],
    [{ WAYLAND_DISPLAY: 'wayland-0' }, 'linux', true],
    [{}, 'darwin', true],
    [{}, 'win32', true],
  ])('%o on %s has a display: %s', (env, platform, display) => expect(hasDisplay(env, platform)).toBe(display));
});

describe('network shares', () => {
  const mounts = mountsOfLinux(
    [
      '22 1 8:1 / / rw,relatime shared:1 - ext4 /dev/sda1 rw',
      '23 22 0:20 / /home/anna/lab\\040share rw - cifs //server/lab rw',
      '24 22 0:21 / /mnt/n rw shared:2 master:1 - nfs4 server:/n rw',
      '25 24 8:2 / /mnt/n/local rw - xfs /dev/sdb1 rw',
      '26 22 0:22 / /mnt/s rw - fuse.sshfs anna@server: rw',
      '27 22 0:23 / /mnt/o rw - nfs server:/o rw',
      '28 22 8:3 / /mnt/o rw - ext4 /dev/sdc1 rw',
      'rubbish',
    ].join('\n'),
  );
  test.each([
    ['/home/anna/.local/share/backweigh', null],
    ['/home/anna/lab share/x', 'cifs'],
    ['/home/anna/lab share', 'cifs'],
    ['/home/anna/lab shareholders', null],
    ['/mnt/n/x', 'nfs4'],
    ['/mnt/n/local/x', null],
    ['/mnt/s', 'fuse.sshfs'],
    ['/mnt/o/x', null],
    ['/', null],
  ])('%s: %s', (folder, share) => expect(shareAbove(folder, mounts)).toBe(share));

  test('as macOS lists them', () => {
    const mac = mountsOfMac(
      '/dev/disk1s1 on / (apfs, local, journaled)\n//anna@server/lab on /Volumes/lab data (smbfs, nodev)\n',
    );
    expect([shareAbove('/Volumes/lab data/x', mac), shareAbove('/Users/anna', mac)]).toEqual(['smbfs', null]);
  });

  test('a folder on this disk is none, even before it exists', () =>
    expect(networkShare(join(temporaryFolder(), 'not', 'yet'))).toBeNull());
});

describe('the size of the window', () => {
  test('is remembered', () => {
    const folder = temporaryFolder();
    keepSize(folder, { width: 1200, height: 800 });
    expect(keptSize(folder)).toEqual({ width: 1200, height: 800 });
  });
  test.each(['', '{', '{"width":1,"height":1}', '{"width":"1200","height":800}', '{"width":1e9,"height":800}', '[]'])(
    'is the usual one where %j is kept',
    (text) => {
      const folder = temporaryFolder();
      writeFileSync(join(folder, 'window.json'), text);
      expect(keptSize(folder)).toEqual({ width: 1440, height: 900 });
    },
  );
  test('that cannot be kept is no trouble', () =>
    expect(() => keepSize('/nowhere/at/all', { width: 1, height: 1 })).not.toThrow());
});
