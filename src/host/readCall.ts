import type { IncomingMessage } from 'node:http';
import { type ApiError, type ApiMethod, apiMethods } from '../app/apiMethods.ts';
import { joinBytes } from '../app/wire.ts';
import type { HostLimits } from './hostLimits.ts';
import { parseWireJson } from './parseWireJson.ts';

export type ReadCall =
  | { readonly ok: true; readonly input: unknown; readonly heldBytes: number }
  | { readonly ok: false; readonly error: ApiError };

/** Bytes of bodies that the host holds at this time, over all calls. */
export interface HeldBytes {
  /** Reserves room; false where there is none. */
  readonly take: (byteLength: number) => boolean;
  readonly giveBack: (byteLength: number) => void;
}

export const createHeldBytes = (most: number): HeldBytes => {
  let held = 0;
  return {
    take: (byteLength) => {
      if (held + byteLength > most) return false;
      held += byteLength;
      return true;
    },
    giveBack: (byteLength) => {
      held -= byteLength;
    },
  };
};

const refuse = (code: string, message: string): ReadCall & { readonly ok: false } => ({
  ok: false,
  error: { code, message, path: '' },
});

const busy = (): ReadCall & { readonly ok: false } =>
  refuse('host-busy', 'Too much is being sent to this host at once. Try again in a moment.');

/** True for the methods whose input carries a file. */
const takesBytes = (method: ApiMethod): boolean => 'bytes' in apiMethods[method].input.shape;

type Body = { readonly ok: true; readonly bytes: Uint8Array } | (ReadCall & { readonly ok: false });

/** Reads the body up to `most` bytes, and stops reading where it is larger. Rejects where the client went away. */
const readBody = async (request: IncomingMessage, most: number, held: HeldBytes): Promise<Body> => {
  const tooLarge = () => refuse('too-large', `The call is larger than ${most} bytes.`);
  const announced = Number(request.headers['content-length'] ?? 0);
  if (announced > most) return tooLarge();
  const chunks: Buffer[] = [];
  let byteLength = 0;
  const giveUp = (body: Body): Body => {
    held.giveBack(byteLength);
    return body;
  };
  try {
    // Leaving the loop early must not end the connection before the refusal is sent.
    for await (const chunk of request.iterator({ destroyOnReturn: false }) as AsyncIterable<Buffer>) {
      if (byteLength + chunk.length > most) return giveUp(tooLarge());
      if (!held.take(chunk.length)) return giveUp(busy());
      byteLength += chunk.length;
      chunks.push(chunk);
    }
  } catch (error) {
    held.giveBack(byteLength);
    throw error;
  }
  return { ok: true, bytes: Buffer.concat(chunks, byteLength) };
};

const base64Url = /^[A-Za-z0-9_-]*$/;

const inputHeader = (request: IncomingMessage): Uint8Array | null => {
  const header = request.headers['x-footrail-input'];
  return typeof header === 'string' && base64Url.test(header) ? Buffer.from(header, 'base64url') : null;
};

/**
 * Reads a call's input: a JSON body, or, for a method that takes a file, the file as an `application/octet-stream` body
 * with the rest as base64url JSON in the header `x-footrail-input`. The bytes held for it are to be given back.
 */
export const readCall = async (
  request: IncomingMessage,
  method: ApiMethod,
  limits: HostLimits,
  held: HeldBytes,
): Promise<ReadCall> => {
  const [type = ''] = (request.headers['content-type'] ?? '').split(';');
  const mediaType = type.trim().toLowerCase();
  const isFile = mediaType === 'application/octet-stream' && takesBytes(method);
  if (!isFile && mediaType !== 'application/json')
    return refuse(
      'wrong-content-type',
      takesBytes(method)
        ? 'The call must come as application/json, or as application/octet-stream with its input in x-footrail-input.'
        : 'The call must come as application/json.',
    );
  if (request.headers['content-encoding'] !== undefined)
    return refuse('wrong-content-type', 'The call must come without a content encoding.');
  const header = isFile ? inputHeader(request) : null;
  if (isFile && header === null)
    return refuse('malformed-input', 'The header x-footrail-input is missing or is not base64url.');
  const body = await readBody(request, isFile ? limits.fileBytesMost : limits.jsonBytesMost, held);
  if (!body.ok) return body;
  const parsed = parseWireJson(header ?? body.bytes);
  if (!parsed.ok) {
    held.giveBack(body.bytes.byteLength);
    return parsed;
  }
  return {
    ok: true,
    input: isFile ? joinBytes(parsed.value, body.bytes) : parsed.value,
    heldBytes: body.bytes.byteLength,
  };
};
