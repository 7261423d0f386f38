import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inProject } from './projectPaths.mjs';
import { runProcess } from './runProcess.mjs';

const downloadLimitMs = 240_000;

/** Electron's binary, if it has been fetched; the package writes its name beside itself. */
export const findElectronBinary = (folder = inProject('node_modules', 'electron')) => {
  const nameFile = join(folder, 'path.txt');
  if (!existsSync(nameFile)) return undefined;
  const binary = join(folder, 'dist', readFileSync(nameFile, 'utf8').trim());
  return existsSync(binary) ? binary : undefined;
};

/**
 * Why no window can open whatever is installed, in a few words; `undefined` where one may.
 *
 * @param {string} platform as in process.platform
 * @param {Readonly<Record<string, string | undefined>>} environment
 * @param {number | undefined} userId 0 for root
 */
export const findObstacle = (platform, environment, userId) => {
  if (platform !== 'linux') return undefined;
  if (!environment.DISPLAY && !environment.WAYLAND_DISPLAY) return 'there is no display';
  if (userId === 0) return "Electron's sandbox does not run as root";
  return undefined;
};

/**
 * Fetches Electron's binary with the package's own script. Resolves to whether it ended well.
 *
 * @param {string} node
 */
const fetchElectron = async (node) => {
  console.log("Fetching Electron's binary (about 110 MB, once) …");
  const limit = new AbortController();
  const timer = setTimeout(() => limit.abort(), downloadLimitMs);
  try {
    const code = await runProcess(node, [inProject('node_modules', 'electron', 'install.js')], {
      stdio: ['ignore', 'ignore', 'ignore'],
      signal: limit.signal,
    });
    return code === 0;
  } catch (error) {
    if (error instanceof Error && error.name === 'AbortError') return false;
    throw error;
  } finally {
    clearTimeout(timer);
  }
};

/**
 * Electron's binary, fetched if need be, or the reason why no desktop window can open here.
 *
 * @param {string} node the Node that fetches
 * @returns {Promise<{binary: string} | {reason: string}>}
 */
export const findDesktop = async (node) => {
  const obstacle = findObstacle(process.platform, process.env, process.getuid?.());
  if (obstacle) return { reason: obstacle };
  const present = findElectronBinary();
  if (present) return { binary: present };
  const fetched = existsSync(inProject('node_modules', 'electron')) && (await fetchElectron(node));
  const binary = fetched ? findElectronBinary() : undefined;
  return binary ? { binary } : { reason: "Electron's binary could not be fetched" };
};
