import { existsSync, readFileSync } from 'node:fs';
import { hashFiles, readStamp, writeStamp } from './fileStamp.mjs';
import { findNode, inProject, missingNodeAdvice } from './projectPaths.mjs';
import { runProcess } from './runProcess.mjs';

const installStamp = () => inProject('node_modules', '.footrail', 'install');
const lockHash = () => hashFiles(['package-lock.json']);

/** Says that node_modules now holds what package-lock.json asks for. */
export const recordInstall = () => writeStamp(installStamp(), lockHash());

/**
 * @typedef {{version?: string, integrity?: string, optional?: boolean, devOptional?: boolean}} LockedPackage
 * @typedef {Record<string, LockedPackage>} LockedPackages
 */

/** @type {(path: string) => LockedPackages | undefined} */
const readPackages = (path) =>
  existsSync(path) ? JSON.parse(readFileSync(path, 'utf8')).packages : undefined;

/**
 * Whether npm's own record of what it installed agrees with package-lock.json. Optional packages may be absent: npm
 * leaves out those of other platforms.
 *
 * @param {LockedPackages} locked
 * @param {LockedPackages} installed
 */
export const matchesLock = (locked, installed) =>
  Object.entries(locked).every(([path, wanted]) => {
    if (path === '') return true;
    const found = installed[path];
    if (found === undefined) return wanted.optional === true || wanted.devOptional === true;
    return found.version === wanted.version && found.integrity === wanted.integrity;
  });

const isInstalled = () => {
  if (readStamp(installStamp()) === lockHash()) return true;
  const locked = readPackages(inProject('package-lock.json'));
  const installed = readPackages(inProject('node_modules', '.package-lock.json'));
  if (!locked || !installed || !matchesLock(locked, installed)) return false;
  recordInstall();
  return true;
};

/**
 * Runs npm: the one that started us, or the one on the search path. Resolves with its exit code.
 *
 * @param {string[]} args
 */
const runNpm = (args) => {
  const script = process.env.npm_execpath;
  if (script?.endsWith('.js') && existsSync(script)) return runProcess(process.execPath, [script, ...args]);
  return runProcess(process.platform === 'win32' ? 'npm.cmd' : 'npm', args, {
    shell: process.platform === 'win32',
  });
};

/**
 * Installs the dependencies where they are missing or differ from package-lock.json, and sees that a Node new enough
 * is there. Resolves with that Node's path; throws an error that says what to do.
 */
export const ensureInstalled = async () => {
  if (!isInstalled()) {
    console.log('Installing dependencies (once, and again when package-lock.json changes) …');
    const code = await runNpm(['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error']);
    if (code !== 0) {
      throw new Error(
        `"npm ci" ended with ${code}. See its lines above; once the cause is gone, run "npm ci" in the project folder.`,
      );
    }
    recordInstall();
  }
  if (findNode() === undefined) {
    console.log('The bundled Node is missing; fetching it …');
    await runNpm(['rebuild', 'node', '--ignore-scripts=false', '--loglevel=error']);
  }
  const node = findNode();
  if (node === undefined) throw new Error(missingNodeAdvice);
  return node;
};
