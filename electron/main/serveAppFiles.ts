import { securityHeaders } from '../../src/host/contentSecurityPolicy.ts';
import { readStaticFile, type StaticFiles } from '../../src/host/staticFiles.ts';
import { isAppAddress } from './appAddress.ts';

const refuse = (status: number): Response => new Response(null, { status, headers: securityHeaders });

/** The path that an address names, decoded once; undefined where it is not one of ours or does not decode. */
const pathIn = (address: string): string | undefined => {
  if (!isAppAddress(address)) return undefined;
  try {
    return decodeURIComponent(new URL(address).pathname);
  } catch {
    // Bytes that are no UTF-8, or no address at all: it names nothing of ours.
    return undefined;
  }
};

/**
 * Answers requests of the `app:` scheme with the renderer's files and the page's security headers. Only what is in the
 * list of files exists, so no path, however it is written, leads out of the renderer's folder. What is refused is 403,
 * 404 or 405 and says nothing else.
 *
 * @param files from `listStaticFiles`
 */
export const serveAppFiles =
  (files: StaticFiles): ((request: Request) => Promise<Response>) =>
  async (request) => {
    if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(405);
    const path = pathIn(request.url);
    if (path === undefined) return refuse(403);
    const file = files.get(path);
    if (file === undefined) return refuse(404);
    const bytes = await readStaticFile(file);
    return new Response(request.method === 'HEAD' ? null : new Uint8Array(bytes), {
      headers: { ...securityHeaders, 'content-type': file.mediaType, 'cache-control': file.cacheControl },
    });
  };
