import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { type IncomingHttpHeaders, type RequestOptions, request as sendRequest } from 'node:http';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { Api } from '../../src/app/createApi.ts';
import {
  type LoopbackHost,
  type LoopbackHostOptions,
  startLoopbackHost,
} from '../../src/host/loopbackHost.ts';

/** A built renderer in small, with a file outside it that must never come out, and a link to that file. */
export const rendererForTest = (): string => {
  const root = mkdtempSync(join(tmpdir(), 'footrail-host-'));
  onTestFinished(() => rmSync(root, { recursive: true, force: true }));
  const folder = join(root, 'renderer');
  mkdirSync(join(folder, 'assets'), { recursive: true });
  writeFileSync(join(root, 'secret.txt'), 'outside');
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>Footrail</title>');
  writeFileSync(join(folder, 'assets', 'index-1a2b.js'), 'export {};');
  writeFileSync(join(folder, 'assets', 'index-1a2b.js.map'), '{}');
  symlinkSync(join(root, 'secret.txt'), join(folder, 'link.txt'));
  return folder;
};

/** Answers with what it was asked, and remembers it. */
export const echoApi = (): Api & { readonly calls: { method: string; input: unknown }[] } => {
  const calls: { method: string; input: unknown }[] = [];
  return {
    calls,
    call: async (method, input) => {
      calls.push({ method, input });
      return { ok: true, value: { method, input } };
    },
  };
};

export interface HostAnswer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
  readonly json: () => unknown;
}

export interface StartedHost extends LoopbackHost {
  readonly port: number;
  readonly token: string;
  /** Sends a request exactly as told: no cookie, no Origin, unless among the headers. */
  readonly send: (
    options: RequestOptions & { readonly path: string },
    body?: string | Uint8Array,
  ) => Promise<HostAnswer>;
  /** Brings the token and answers the cookie. */
  readonly enter: () => Promise<string>;
  /** Calls a method as the host's own page does. */
  readonly post: (
    method: string,
    body: string | Uint8Array,
    headers?: Record<string, string>,
  ) => Promise<HostAnswer>;
}

/** Writes bytes to the host as they are and reads until it closes, or until `untilMs` have passed. */
export const sendRaw = (port: number, text: string, untilMs = 5000): Promise<string> =>
  new Promise((resolve) => {
    const socket = connect(port, '127.0.0.1');
    let received = '';
    const timer = setTimeout(() => socket.destroy(), untilMs);
    socket.on('data', (chunk) => {
      received += chunk.toString('latin1');
    });
    socket.on('error', () => socket.destroy());
    socket.on('close', () => {
      clearTimeout(timer);
      resolve(received);
    });
    socket.write(text, 'latin1');
  });

export const startHostForTest = async (options: Partial<LoopbackHostOptions> = {}): Promise<StartedHost> => {
  const host = await startLoopbackHost({ api: echoApi(), rendererDir: rendererForTest(), ...options });
  onTestFinished(host.close);
  const { port, searchParams } = new URL(host.url);
  let cookie = '';

  const send: StartedHost['send'] = ({ headers, ...rest }, body) =>
    new Promise((resolve, reject) => {
      const request = sendRequest(
        {
          host: '127.0.0.1',
          port,
          agent: false,
          ...rest,
          headers: {
            ...(body === undefined ? {} : { 'content-length': Buffer.byteLength(body) }),
            ...(headers as Record<string, string> | undefined),
          },
        },
        (response) => {
          const chunks: Buffer[] = [];
          response.on('data', (chunk: Buffer) => chunks.push(chunk));
          response.on('error', reject);
          response.on('end', () => {
            const content = Buffer.concat(chunks);
            resolve({
              status: response.statusCode ?? 0,
              headers: response.headers,
              body: content,
              json: () => JSON.parse(content.toString('utf8')),
            });
          });
        },
      );
      request.on('error', reject);
      request.end(body);
    });

  const enter = async (): Promise<string> => {
    if (cookie !== '') return cookie;
    const answer = await send({ path: `/${new URL(host.url).search}` });
    const [given = ''] = answer.headers['set-cookie'] ?? [];
    cookie = given.split(';')[0] ?? '';
    return cookie;
  };

  return {
    ...host,
    port: Number(port),
    token: searchParams.get('token') ?? '',
    send,
    enter,
    post: async (method, body, headers = {}) =>
      send(
        {
          path: `/api/${method}`,
          method: 'POST',
          headers: {
            cookie: await enter(),
            origin: host.address,
            'content-type': 'application/json',
            ...headers,
          },
        },
        body,
      ),
  };
};
