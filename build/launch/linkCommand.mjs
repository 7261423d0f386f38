import { chmodSync, existsSync, lstatSync, mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** @param {string} path */
const isThere = (path) => lstatSync(path, { throwIfNoEntry: false }) !== undefined;

/**
 * Puts the `footrail` command into a checkout's node_modules/.bin, which npm does for dependencies but not for the
 * root package itself. On Windows, where links need a privilege, writes a command file instead.
 *
 * @param {string} root the checkout
 * @param {string} platform as in process.platform
 * @returns {boolean} false where there is no node_modules to link into
 */
export const linkCommand = (root, platform = process.platform) => {
  if (!existsSync(join(root, 'node_modules'))) return false;
  const folder = join(root, 'node_modules', '.bin');
  mkdirSync(folder, { recursive: true });
  chmodSync(join(root, 'build', 'launch', 'footrail.mjs'), 0o755);
  if (platform === 'win32') {
    writeFileSync(
      join(folder, 'footrail.cmd'),
      '@ECHO off\r\nnode "%~dp0\\..\\..\\build\\launch\\footrail.mjs" %*\r\n',
    );
    return true;
  }
  const link = join(folder, 'footrail');
  if (isThere(link)) rmSync(link);
  symlinkSync(join('..', '..', 'build', 'launch', 'footrail.mjs'), link);
  return true;
};
