import { constants, readdirSync, realpathSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { extname, join, relative } from 'node:path';

/** A file that the host may give out. */
export interface StaticFile {
  readonly path: string;
  readonly mediaType: string;
  readonly cacheControl: string;
}

/** By the path of its address, such as `/assets/index-1a2b.js`; `/` is `index.html`. */
export type StaticFiles = ReadonlyMap<string, StaticFile>;

const mediaTypes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
};

/** The bundler names what lies in `assets` by its content, so that it never changes under its name. */
const cacheControlOf = (address: string): string => {
  if (address.startsWith('/assets/')) return 'private, max-age=31536000, immutable';
  return address.endsWith('.html') || address === '/' ? 'no-store' : 'private, no-cache';
};

/**
 * Lists every file of the built renderer once, at the start: what is not in the list does not exist for the host,
 * whatever an address says. Links are left out; so are source maps.
 *
 * @throws Error where the folder has no `index.html`
 */
export const listStaticFiles = (folder: string): StaticFiles => {
  const files = new Map<string, StaticFile>();
  const entries = readdirSync(folder, { withFileTypes: true, recursive: true });
  const root = realpathSync(folder);
  for (const entry of entries) {
    if (!entry.isFile() || entry.name.endsWith('.map')) continue;
    // A recursive listing goes through links to folders.
    if (realpathSync(entry.parentPath) !== join(root, relative(folder, entry.parentPath))) continue;
    const path = join(entry.parentPath, entry.name);
    const address = path.slice(folder.length).replaceAll('\\', '/').replace(/^\/*/, '/');
    const mediaType = mediaTypes[extname(entry.name).toLowerCase()] ?? 'application/octet-stream';
    files.set(address, { path, mediaType, cacheControl: cacheControlOf(address) });
  }
  const index = files.get('/index.html');
  if (!index) throw new Error(`There is no index.html in ${folder}. Build the renderer first: npm run build`);
  files.set('/', index);
  return files;
};

/** Reads a listed file, and refuses to follow a link that has taken its place since. */
export const readStaticFile = async ({ path }: StaticFile): Promise<Buffer> => {
  const file = await open(path, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0));
  try {
    return await file.readFile();
  } finally {
    await file.close();
  }
};
