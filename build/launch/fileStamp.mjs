import { createHash } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join } from 'node:path';
import { inProject } from './projectPaths.mjs';

/** @type {(path: string) => string[]} */
const listFiles = (path) => {
  if (!existsSync(path)) return [];
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => listFiles(join(path, entry.name)));
};

/**
 * One SHA-256 over the names and contents of all files under the given project paths; missing ones count as empty.
 *
 * @param {string[]} paths
 */
export const hashFiles = (paths) => {
  const hash = createHash('sha256');
  for (const path of paths.flatMap((relative) => listFiles(inProject(relative)))) {
    const content = readFileSync(path);
    hash.update(`${path.slice(inProject().length)}\0${content.length}\0`).update(content);
  }
  return hash.digest('hex');
};

/**
 * The text of a stamp file, or `undefined` where there is none.
 *
 * @param {string} path
 */
export const readStamp = (path) => (existsSync(path) ? readFileSync(path, 'utf8') : undefined);

/**
 * Writes a stamp file in one step, so that a reader never sees half of it.
 *
 * @param {string} path
 * @param {string} text
 */
export const writeStamp = (path, text) => {
  mkdirSync(dirname(path), { recursive: true });
  const draft = `${path}.${process.pid}`;
  writeFileSync(draft, text);
  renameSync(draft, path);
};
