import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import type { Api } from '../app/createApi.ts';
import { securityHeaders } from './contentSecurityPolicy.ts';
import { sendError, sendNotice } from './hostAnswers.ts';
import { defaultHostLimits, type HostLimits } from './hostLimits.ts';
import { createRequestRate } from './requestRate.ts';
import { createCallServer } from './serveCall.ts';
import { createSession, type Session } from './session.ts';
import { listStaticFiles, readStaticFile, type StaticFiles } from './staticFiles.ts';

export interface LoopbackHostOptions {
  readonly api: Api;
  /** The built renderer. */
  readonly rendererDir: string;
  /** Default: any free one. */
  readonly port?: number;
  /** Default: a fresh one. Good once. */
  readonly token?: string;
  readonly limits?: Partial<HostLimits>;
  /** Told of each fault of the program itself; the client gets an error without its details. */
  readonly onDefect?: (error: unknown) => void;
}

export interface LoopbackHost {
  /** `http://127.0.0.1:PORT`, without the token. */
  readonly address: string;
  /** What to open: the address with the one-time token. */
  readonly url: string;
  readonly close: () => Promise<void>;
}

const loopback = '127.0.0.1';

const spentNotice =
  'This address has been used already, or is not one of this Footrail. Start Footrail again and open the address that it prints.';
const noSessionNotice =
  'Footrail runs here, but does not know this browser yet. Open the address that Footrail printed, in this browser; a window that is open already then goes on by itself.';

/**
 * Who asks, by the request's own words. `wrong-host`: another name leads here (DNS rebinding). `wrong-origin`: a page
 * that is not ours sent it.
 */
const findStranger = (request: IncomingMessage, address: string): 'wrong-host' | 'wrong-origin' | null => {
  const hosts = request.headersDistinct['host'] ?? [];
  if (hosts.length !== 1 || `http://${hosts[0]}` !== address) return 'wrong-host';
  const { origin } = request.headers;
  if (origin !== undefined && origin !== address) return 'wrong-origin';
  if (request.method === 'POST' && origin === undefined) return 'wrong-origin';
  return null;
};

/** A page of another site led or fetched here. Without Fetch Metadata the `Origin` check has to do. */
const comesFromElsewhere = (request: IncomingMessage): boolean => {
  const site = request.headers['sec-fetch-site'];
  return site !== undefined && site !== 'same-origin' && site !== 'none';
};

const isPrefetch = (request: IncomingMessage): boolean =>
  request.headers['sec-purpose'] !== undefined || request.headers['purpose'] !== undefined;

/** The path of a request and its token; null where the target is not a plain path of this host. */
const readTarget = (
  request: IncomingMessage,
): { readonly path: string; readonly token: string | null } | null => {
  const target = request.url ?? '';
  if (!target.startsWith('/')) return null;
  const [rawPath = '', query = ''] = target.split('?', 2);
  try {
    return { path: decodeURIComponent(rawPath), token: new URLSearchParams(query).get('token') };
  } catch {
    // Escapes that are no UTF-8: the caller turns the request away.
    return null;
  }
};

const words: Readonly<Record<string, string>> = {
  'wrong-host': 'This host answers only to its own address.',
  'wrong-origin': 'This host answers only to its own page.',
  'no-session': noSessionNotice,
  'too-many-requests': 'Too many requests. Try again in a moment.',
  'not-found': 'There is nothing at this address.',
  'wrong-http-method': 'This address does not take that kind of request.',
  'bad-request': 'The request’s target is not a path of this host.',
};

const refuse = (response: ServerResponse, code: string): void => {
  // What the client is still sending is of no interest.
  response.setHeader('connection', 'close');
  sendError(response, { code, message: words[code] ?? code, path: '' });
};

const admit = (request: IncomingMessage, response: ServerResponse, cookie: string): void => {
  response.setHeader('set-cookie', cookie);
  response.setHeader('cache-control', 'no-store');
  if (comesFromElsewhere(request)) {
    // A redirect would still count as the other site's, and a strict cookie would stay behind; a fresh start does not.
    response.writeHead(200, { 'content-type': 'text/html; charset=utf-8' });
    response.end('<!doctype html><title>Footrail</title><meta http-equiv="refresh" content="0; url=/">');
    return;
  }
  response.writeHead(303, { location: '/' });
  response.end();
};

const serveFile = async (
  files: StaticFiles,
  request: IncomingMessage,
  response: ServerResponse,
  path: string,
): Promise<void> => {
  const file = files.get(path);
  if (!file) return refuse(response, 'not-found');
  let content: Buffer;
  try {
    content = await readStaticFile(file);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'ENOENT' && code !== 'ELOOP') throw error;
    return refuse(response, 'not-found');
  }
  response.writeHead(200, {
    'content-type': file.mediaType,
    'content-length': content.length,
    'cache-control': file.cacheControl,
  });
  response.end(request.method === 'HEAD' ? undefined : content);
};

const listen = (server: Server, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once('error', reject);
    server.listen({ host: loopback, port, exclusive: true }, () => {
      server.off('error', reject);
      resolve((server.address() as AddressInfo).port);
    });
  });

/**
 * Serves the renderer and the API on 127.0.0.1, to whoever first brings the one-time token of `url`, and to nobody else.
 *
 * Rejects where the renderer is not built or the port is taken.
 */
export const startLoopbackHost = async (options: LoopbackHostOptions): Promise<LoopbackHost> => {
  const limits: HostLimits = { ...defaultHostLimits, ...options.limits };
  const files = listStaticFiles(options.rendererDir);
  const serveCall = createCallServer(options.api, limits);
  const nowMs = () => performance.now();
  const mayAsk = createRequestRate(limits.admittedRate, nowMs);
  const mayBeRefused = createRequestRate(limits.refusedRate, nowMs);
  let address = '';
  let session: Session | null = null;

  const turnAway = (response: ServerResponse, code: string): void =>
    refuse(response, mayBeRefused() ? code : 'too-many-requests');

  const serve = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    for (const [name, value] of Object.entries(securityHeaders)) response.setHeader(name, value);
    const stranger = findStranger(request, address);
    if (stranger) return turnAway(response, stranger);
    const target = readTarget(request);
    if (!target) return turnAway(response, 'bad-request');
    const isAdmitted = session?.admits(request.headers.cookie) === true;
    if (target.token !== null && target.path === '/' && request.method === 'GET' && !isPrefetch(request)) {
      const cookie = session?.exchange(target.token);
      if (cookie) return admit(request, response, cookie);
      if (!isAdmitted)
        return mayBeRefused()
          ? sendNotice(response, 403, spentNotice)
          : refuse(response, 'too-many-requests');
    }
    if (comesFromElsewhere(request)) return turnAway(response, 'wrong-origin');
    if (!isAdmitted) {
      if (target.path.startsWith('/api/')) return turnAway(response, 'no-session');
      return mayBeRefused()
        ? sendNotice(response, 401, noSessionNotice)
        : refuse(response, 'too-many-requests');
    }
    if (!mayAsk()) return refuse(response, 'too-many-requests');
    if (target.path.startsWith('/api/'))
      return request.method === 'POST'
        ? serveCall(request, response, target.path.slice('/api/'.length))
        : refuse(response, 'wrong-http-method');
    if (request.method !== 'GET' && request.method !== 'HEAD') return refuse(response, 'wrong-http-method');
    return serveFile(files, request, response, target.path);
  };

  const server = createServer(
    {
      maxHeaderSize: limits.headerBytesMost,
      headersTimeout: limits.headersTimeoutMs,
      requestTimeout: limits.requestTimeoutMs,
      connectionsCheckingInterval: Math.min(1000, limits.headersTimeoutMs),
      // Longer than a person thinks between two edits: a call on a connection that is just being closed would fail.
      keepAliveTimeout: 65_000,
      noDelay: true,
    },
    (request, response) => {
      response.on('error', () => response.destroy());
      serve(request, response).catch((error: unknown) => {
        if (request.destroyed && !request.complete) return;
        options.onDefect?.(error);
        if (response.headersSent) response.destroy();
        else
          sendError(response, {
            code: 'defect',
            message: 'Something went wrong inside Footrail. Nothing was changed.',
            path: '',
          });
      });
    },
  );
  server.maxConnections = limits.connectionsMost;
  server.maxHeadersCount = 100;
  server.on('clientError', (error: NodeJS.ErrnoException, socket: Socket) => {
    if (error.code === 'ECONNRESET' || !socket.writable) socket.destroy();
    else {
      const status =
        error.code === 'HPE_HEADER_OVERFLOW' ? '431 Request Header Fields Too Large' : '400 Bad Request';
      socket.end(`HTTP/1.1 ${status}\r\nconnection: close\r\ncontent-length: 0\r\n\r\n`, () =>
        socket.destroy(),
      );
    }
  });
  server.on('upgrade', (_request, socket: Socket) => socket.destroy());
  server.on('connect', (_request, socket: Socket) => socket.destroy());

  const port = await listen(server, options.port ?? 0);
  address = `http://${loopback}:${port}`;
  session = createSession(port, options.token);
  return {
    address,
    url: `${address}/?token=${encodeURIComponent(session.token)}`,
    close: () =>
      new Promise((resolve, reject) => {
        server.close((error) => (error ? reject(error) : resolve()));
        server.closeAllConnections();
      }),
  };
};
