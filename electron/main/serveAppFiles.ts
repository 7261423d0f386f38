import { readFile, realpath } from 'node:fs/promises';
import { extname, join, sep } from 'node:path';
import { isAppAddress } from './appAddress.ts';
import { contentSecurityPolicy } from './contentSecurityPolicy.ts';

const mediaTypes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.ttf': 'font/ttf',
  '.pfb': 'application/octet-stream',
  '.bcmap': 'application/octet-stream',
  '.icc': 'application/vnd.iccprofile',
  '.wasm': 'application/wasm',
};

const headers = (mediaType: string): Readonly<Record<string, string>> => ({
  'content-type': mediaType,
  'content-security-policy': contentSecurityPolicy,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(), geolocation=(), microphone=(), usb=(), serial=(), hid=(), midi=()',
});

const refuse = (status: number): Response =>
  new Response(null, { status, headers: headers('text/plain; charset=utf-8') });

/** The path that an address names, or undefined where it is not a plain path inside the folder. */
const plainPath = (address: string): string | undefined => {
  let path: string;
  try {
    path = decodeURIComponent(new URL(address).pathname);
  } catch {
    return undefined;
  }
  const parts = path.split('/').slice(1);
  const isPlain = parts.every((part) => part !== '' && !part.startsWith('.') && !/[\\:%\0]/.test(part));
  return isPlain ? parts.join(sep) : undefined;
};

/**
 * Answers requests of the `app:` scheme from one folder: only GET and HEAD, only files that lie in the folder when all
 * links are followed, only media types that the page is made of, always with the page's security headers. What is
 * refused is 403, 404 or 405 and says nothing else.
 */
export const serveAppFiles =
  (folder: string): ((request: Request) => Promise<Response>) =>
  async (request) => {
    if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405);
    const path = isAppAddress(request.url) ? plainPath(request.url) : undefined;
    if (path === undefined) return refuse(403);
    const mediaType = mediaTypes[extname(path).toLowerCase()];
    if (mediaType === undefined) return refuse(404);
    try {
      const root = await realpath(folder);
      const file = await realpath(join(root, path));
      if (!file.startsWith(`${root}${sep}`)) return refuse(403);
      const bytes = await readFile(file);
      return new Response(request.method === 'HEAD' ? null : new Uint8Array(bytes), {
        headers: headers(mediaType),
      });
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code;
      if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'EISDIR') return refuse(404);
      throw error;
    }
  };
