// `npm start`: installs what is missing, builds, and opens the app with the demo project: in a desktop window where one
// can open, else in the browser from this machine. Options: `--browser` (no window), `--archive FOLDER`, `--no-open`,
// `--port N` (the address of the app in the browser; else the one that it had last).
import { existsSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { ensureBuilt } from './ensureBuilt.mjs';
import { ensureInstalled } from './ensureInstalled.mjs';
import { findDesktop } from './findDesktop.mjs';
import { inProject } from './projectPaths.mjs';
import { runProcess } from './runProcess.mjs';

/** A window that ends this soon with an error never opened; we then go on in the browser. */
const windowGraceMs = 15_000;

const { values: options } = parseArgs({
  options: {
    browser: { type: 'boolean', default: false },
    archive: { type: 'string' },
    port: { type: 'string' },
    'no-open': { type: 'boolean', default: false },
  },
});

/** Where none is named, the host and the shell choose the same folder. */
const archive = options.archive === undefined ? [] : [`--archive=${options.archive}`];

/** @param {string} binary */
const openWindow = async (binary) => {
  const startedAt = Date.now();
  const main = inProject('build', 'out', 'electron', 'main.mjs');
  const code = await runProcess(binary, [main, '--demo', ...archive]);
  return code === 0 || code >= 128 || Date.now() - startedAt > windowGraceMs
    ? { code }
    : { reason: `Electron ended with ${code} at once` };
};

/**
 * Opens the desktop window if that can be; resolves with how it ended, or with why there is none.
 *
 * @param {string} node
 * @returns {Promise<{code: number} | {reason: string}>}
 */
const tryWindow = async (node) => {
  if (options.browser) return { reason: 'the browser was asked for' };
  const desktop = await findDesktop(node);
  if ('reason' in desktop) return desktop;
  await ensureBuilt(node, ['electron', 'renderer']);
  return openWindow(desktop.binary);
};

/** @param {string} node */
const serve = async (node) => {
  await ensureBuilt(node, ['node', 'renderer']);
  const host = inProject('build', 'out', 'host.mjs');
  if (!existsSync(host))
    throw new Error('build/out/host.mjs is missing; run "npm run build" and read its lines.');
  const port = options.port === undefined ? [] : [`--port=${options.port}`];
  const open = options['no-open'] ? [] : ['--open'];
  return runProcess(node, [host, '--demo', ...archive, ...port, ...open]);
};

try {
  const node = await ensureInstalled();
  const window = await tryWindow(node);
  if ('code' in window) {
    process.exitCode = window.code;
  } else {
    console.log(`No desktop window (${window.reason}); serving the app on this machine instead.`);
    const code = await serve(node);
    // 130 and 143 are Ctrl-C and a polite request to end: the person's wish, not a failure.
    process.exitCode = code === 130 || code === 143 ? 0 : code;
  }
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
