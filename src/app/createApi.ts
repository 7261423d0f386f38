import { apiErrorOf } from './apiFailure.ts';
import { type ApiAnswer, apiMethods, isApiMethod } from './apiMethods.ts';
import type { CallContext } from './callContext.ts';
import { handlersOver } from './handlers.ts';
import type { Ports } from './ports.ts';

/** The one API, as every host serves it. A call never throws. */
export interface Api {
  call(method: string, input: unknown, context?: CallContext): Promise<ApiAnswer<unknown>>;
}

/**
 * Builds the API over the ports. Inputs are validated before any use case sees them; what a use case refuses or fails
 * at comes back as an error value.
 */
export const createApi = (ports: Ports): Api => {
  const handlers = handlersOver(ports);
  return {
    async call(method, input, context = {}) {
      if (!isApiMethod(method))
        return { ok: false, error: { code: 'unknown-method', message: `There is no method "${method}".` } };
      const parsed = apiMethods[method].input.safeParse(input);
      if (!parsed.success) {
        const issue = parsed.error.issues[0];
        const path = issue?.path.join('.') ?? '';
        const message = `${method}: ${issue?.message ?? 'the input does not have the expected form'}${path ? ` at ${path}` : ''}.`;
        return { ok: false, error: { code: 'bad-input', message, path } };
      }
      if (context.signal?.aborted)
        return { ok: false, error: { code: 'cancelled', message: 'The call was cancelled.' } };
      try {
        const handler = handlers[method] as (input: unknown, context: CallContext) => Promise<unknown>;
        return { ok: true, value: await handler(parsed.data, context) };
      } catch (thrown) {
        return { ok: false, error: apiErrorOf(thrown) };
      }
    },
  };
};
