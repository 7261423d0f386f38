import { existsSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { hashFiles, readStamp, writeStamp } from './fileStamp.mjs';
import { inProject } from './projectPaths.mjs';
import { projectEnvironment, runProcess } from './runProcess.mjs';

/** @typedef {'node' | 'electron' | 'renderer'} Bundle */

/** What each bundle is made from; a change in any of these files makes it out of date. */
const sources = {
  node: ['src', 'build/bundle', 'package-lock.json', 'tsconfig.json'],
  electron: ['src', 'electron', 'build/bundle', 'package-lock.json', 'tsconfig.json'],
  renderer: ['src', 'renderer', 'build/bundle', 'package-lock.json', 'tsconfig.json'],
};

/** @param {Bundle} bundle */
const stampPath = (bundle) => inProject('build', 'out', 'stamps', bundle);

/**
 * The bundles that are missing or out of date, of those named.
 *
 * @param {Bundle[]} bundles
 */
export const findStaleBundles = (bundles) =>
  bundles.filter((bundle) => readStamp(stampPath(bundle)) !== hashFiles(sources[bundle]));

/** Whether what bundling needs is installed at all; it is not after `npm ci --omit=dev`. */
export const canBundle = () => existsSync(inProject('node_modules', 'esbuild', 'package.json'));

const lockPath = () => inProject('build', 'out', 'lock');

/** @param {number} processId */
const isRunning = (processId) => {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    // EPERM: it runs, as somebody else.
    return /** @type {NodeJS.ErrnoException} */ (error).code === 'EPERM';
  }
};

/** Takes the lock, or takes it away from a process that was killed while it built. Says whether it could. */
const takeLock = () => {
  try {
    writeFileSync(lockPath(), String(process.pid), { flag: 'wx' });
    return true;
  } catch (error) {
    if (/** @type {NodeJS.ErrnoException} */ (error).code !== 'EEXIST') throw error;
    const holder = Number(readStamp(lockPath()));
    if (holder > 0 && !isRunning(holder)) rmSync(lockPath(), { force: true });
    return false;
  }
};

/**
 * Runs `work` while no other process builds in this checkout.
 *
 * @param {() => Promise<void>} work
 */
const whileAlone = async (work) => {
  mkdirSync(inProject('build', 'out'), { recursive: true });
  while (!takeLock()) await pause(100);
  const unlock = () => rmSync(lockPath(), { force: true });
  process.once('exit', unlock);
  try {
    await work();
  } finally {
    unlock();
    process.off('exit', unlock);
  }
};

/**
 * Builds those of the named bundles ('node', 'electron', 'renderer') whose sources changed since they were built.
 *
 * @param {string} node the Node that runs the bundler
 * @param {Bundle[]} bundles which bundles
 * @param {'inherit' | 'stderr'} output where the bundler's lines go: 'stderr' keeps stdout for a command's answer
 */
export const ensureBuilt = async (node, bundles, output = 'inherit') => {
  if (findStaleBundles(bundles).length === 0) return;
  await whileAlone(async () => {
    const stale = findStaleBundles(bundles);
    if (stale.length === 0) return;
    const stamps = stale.map((bundle) => ({ path: stampPath(bundle), hash: hashFiles(sources[bundle]) }));
    const code = await runProcess(node, [inProject('build', 'bundle', 'bundle.ts'), ...stale], {
      env: projectEnvironment(),
      stdio: output === 'stderr' ? ['ignore', process.stderr, 'inherit'] : ['ignore', 'inherit', 'inherit'],
    });
    if (code !== 0)
      throw new Error(`Building ${stale.join(', ')} failed; the bundler's lines above say where.`);
    for (const { path, hash } of stamps) writeStamp(path, hash);
  });
};
