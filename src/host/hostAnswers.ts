import type { ServerResponse } from 'node:http';
import type { ApiAnswer, ApiError } from '../app/apiMethods.ts';
import { splitBytes } from '../app/wire.ts';
import { statusOfError } from './statusOfError.ts';

const jsonHeaders = { 'content-type': 'application/json; charset=utf-8', 'cache-control': 'no-store' };

const canAnswer = (response: ServerResponse): boolean => !response.headersSent && !response.destroyed;

const sendJson = (response: ServerResponse, status: number, value: unknown): void => {
  if (!canAnswer(response)) return;
  const body = Buffer.from(JSON.stringify(value) ?? 'null');
  response.writeHead(status, { ...jsonHeaders, 'content-length': body.length });
  response.end(body);
};

/** Answers `{"error": {code, message, path?}}` with the status that fits the code. */
export const sendError = (response: ServerResponse, error: ApiError): void =>
  sendJson(response, statusOfError(error.code), { error });

/** Answers a person who looks at the host without a session, in words. */
export const sendNotice = (response: ServerResponse, status: number, text: string): void => {
  if (!canAnswer(response)) return;
  response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store' });
  response.end(`${text}\n`);
};

const toBase64UrlJson = (value: unknown): string => Buffer.from(JSON.stringify(value)).toString('base64url');

/**
 * Answers a call: the value as JSON; where it carries bytes, those as the body and the rest as base64url JSON in the
 * header `x-footrail-output`.
 */
export const sendAnswer = (response: ServerResponse, answer: ApiAnswer<unknown>): void => {
  if (!answer.ok) {
    sendError(response, answer.error);
    return;
  }
  const { rest, bytes } = splitBytes(answer.value);
  if (bytes === null) {
    sendJson(response, 200, rest);
    return;
  }
  if (!canAnswer(response)) return;
  response.writeHead(200, {
    'content-type': 'application/octet-stream',
    'content-length': bytes.byteLength,
    'cache-control': 'no-store',
    'x-footrail-output': toBase64UrlJson(rest),
  });
  response.end(bytes);
};

/** An answer that tells how far the call is, line by line. */
export interface ProgressAnswer {
  readonly tell: (done: number, of: number) => void;
  readonly finish: (answer: ApiAnswer<unknown>) => void;
}

/**
 * Answers in lines of JSON (`application/x-ndjson`): any number of `{"progress":{"done":3,"of":10}}`, then one
 * `{"value":…}` or `{"error":…}`. A value with bytes comes as `{"value":…,"byteLength":n}`, and the `n` bytes follow its
 * line break. The status is 200 whatever the last line says, for it is not known before.
 */
export const startProgressAnswer = (response: ServerResponse): ProgressAnswer => {
  response.writeHead(200, { 'content-type': 'application/x-ndjson', 'cache-control': 'no-store' });
  response.flushHeaders();
  const line = (value: unknown): boolean => response.write(`${JSON.stringify(value)}\n`);
  return {
    tell: (done, of) => {
      // A client that reads slowly misses steps instead of filling memory.
      if (!response.writableNeedDrain && !response.destroyed && !response.writableEnded)
        line({ progress: { done, of } });
    },
    finish: (answer) => {
      if (response.destroyed) return;
      if (answer.ok) {
        const { rest, bytes } = splitBytes(answer.value);
        line({ value: rest, ...(bytes === null ? {} : { byteLength: bytes.byteLength }) });
        if (bytes !== null) response.write(bytes);
      } else {
        line({ error: answer.error });
      }
      response.end();
    },
  };
};
