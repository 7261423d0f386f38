import { joinBytes, splitBytes } from '../../src/app/wire.ts';
import type { CarryCall } from './apiClient.ts';

const toBase64Url = (text: string): string => {
  const bytes = new TextEncoder().encode(text);
  let binary = '';
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
};

const fromBase64Url = (text: string): string => {
  const binary = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return new TextDecoder().decode(Uint8Array.from(binary, (character) => character.charCodeAt(0)));
};

const unreachable = (message: string) => ({
  ok: false as const,
  error: { code: 'host-unreachable', message },
});

/** Carries calls to the loopback host that served this page. */
export const carryOverHttp: CarryCall = async (method, input, signal) => {
  const { rest, bytes } = splitBytes(input);
  let response: Response;
  try {
    response = await fetch(`/api/${method}`, {
      method: 'POST',
      credentials: 'same-origin',
      headers:
        bytes === null
          ? { 'content-type': 'application/json' }
          : {
              'content-type': 'application/octet-stream',
              'x-footrail-input': toBase64Url(JSON.stringify(rest)),
            },
      body: bytes === null ? JSON.stringify(rest) : new Blob([new Uint8Array(bytes)]),
      signal: signal ?? null,
    });
  } catch {
    if (signal?.aborted) return { ok: false, error: { code: 'cancelled', message: 'Cancelled.' } };
    return unreachable(
      'Footrail’s host does not answer. What was saved is safe. Start it again with “npm start” and open the address that it prints.',
    );
  }
  if (response.headers.get('content-type') === 'application/octet-stream') {
    const output = JSON.parse(fromBase64Url(response.headers.get('x-footrail-output') ?? 'e30'));
    return { ok: true, value: joinBytes(output, new Uint8Array(await response.arrayBuffer())) };
  }
  // What is no JSON is no answer of the host: the status says what there is to say.
  const body: unknown = await response.json().catch(() => null);
  if (typeof body !== 'object' || body === null)
    return unreachable(`The host answered with status ${response.status}.`);
  if ('error' in body) return { ok: false, error: body.error as { code: string; message: string } };
  return { ok: true, value: body };
};
