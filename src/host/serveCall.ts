import type { IncomingMessage, ServerResponse } from 'node:http';
import { type ApiAnswer, isApiMethod } from '../app/apiMethods.ts';
import type { Api } from '../app/createApi.ts';
import { sendAnswer, sendError, startProgressAnswer } from './hostAnswers.ts';
import type { HostLimits } from './hostLimits.ts';
import { createHeldBytes, readCall } from './readCall.ts';

const wantsProgress = (request: IncomingMessage): boolean =>
  (request.headers.accept ?? '').toLowerCase().includes('application/x-ndjson');

/**
 * Carries `POST /api/<method>` to the API. The call's signal is aborted when the client goes away before the answer.
 */
export const createCallServer = (api: Api, limits: HostLimits) => {
  const held = createHeldBytes(limits.heldBytesMost);
  let underWay = 0;

  const carry = async (
    request: IncomingMessage,
    response: ServerResponse,
    method: string,
    input: unknown,
  ): Promise<void> => {
    const controller = new AbortController();
    response.once('close', () => {
      if (!response.writableFinished) controller.abort();
    });
    const { signal } = controller;
    if (!wantsProgress(request)) return sendAnswer(response, await api.call(method, input, { signal }));
    const progress = startProgressAnswer(response);
    const answer: ApiAnswer<unknown> = await api.call(method, input, { signal, onProgress: progress.tell });
    progress.finish(answer);
  };

  return async (request: IncomingMessage, response: ServerResponse, method: string): Promise<void> => {
    if (!isApiMethod(method))
      return sendError(response, { code: 'unknown-method', message: 'There is no such method.', path: '' });
    if (underWay >= limits.callsMost)
      return sendError(response, {
        code: 'host-busy',
        message: 'Too many calls are under way. Try again in a moment.',
        path: '',
      });
    underWay += 1;
    let heldBytes = 0;
    try {
      const call = await readCall(request, method, limits, held);
      if (!call.ok) {
        if (!request.complete) response.setHeader('connection', 'close');
        return sendError(response, call.error);
      }
      heldBytes = call.heldBytes;
      await carry(request, response, method, call.input);
    } finally {
      held.giveBack(heldBytes);
      underWay -= 1;
    }
  };
};
