import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder of the checkout, absolute, without a slash at its end. */
export const projectRoot = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '');

/**
 * A path inside the checkout.
 *
 * @param {string[]} parts
 */
export const inProject = (...parts) => join(projectRoot, ...parts);

/** The Node major version that the code is built for; better-sqlite3 ends the process on an older one. */
export const neededNodeMajor = 24;

/** Where the `node` package of the dev dependencies puts its binary. */
const bundledNodeBinary = () =>
  inProject('node_modules', 'node', 'bin', process.platform === 'win32' ? 'node.exe' : 'node');

/** The Node binary that can run the app: this one if it is new enough, else the bundled one, else `undefined`. */
export const findNode = () => {
  if (Number.parseInt(process.versions.node, 10) >= neededNodeMajor) return process.execPath;
  const bundled = bundledNodeBinary();
  return existsSync(bundled) ? bundled : undefined;
};

/** What to tell a person whose machine has neither a new enough Node nor the bundled one. */
export const missingNodeAdvice =
  `Footrail needs Node ${neededNodeMajor}; this is Node ${process.versions.node}, and the bundled one is not at ` +
  'node_modules/node/bin. Run "npm ci" in the project folder; if it is still missing after that (install scripts ' +
  `may be switched off), run "npm rebuild node", or install Node ${neededNodeMajor} yourself.`;
