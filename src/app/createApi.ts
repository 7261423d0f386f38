import { apiErrorOf } from './apiFailure.ts';
import { type ApiAnswer, type ApiMethod, apiMethods, isApiMethod } from './apiMethods.ts';
import type { CallContext } from './callContext.ts';
import { handlersOver } from './handlers.ts';
import type { Ports } from './ports.ts';

/** The one API, as every host serves it. A call never throws. */
export interface Api {
  call(method: string, input: unknown, context?: CallContext): Promise<ApiAnswer<unknown>>;
}

const charactersMost = 500;
/** What is wrong may name as many keys as someone cares to send. */
const short = (text: string): string =>
  text.length > charactersMost ? `${text.slice(0, charactersMost)}…` : text;

type ParsedInput =
  | { readonly success: true; readonly data: unknown }
  | { readonly success: false; readonly problem: string; readonly path: string };

const parse = (method: ApiMethod, input: unknown): ParsedInput => {
  try {
    const parsed = apiMethods[method].input.safeParse(input);
    if (parsed.success) return parsed;
    const issue = parsed.error.issues[0];
    return {
      success: false,
      problem: issue?.message ?? 'the input does not have the expected form',
      path: issue?.path.join('.') ?? '',
    };
  } catch (error) {
    // Input that contains itself, or nests without an end, exhausts the stack; bytes in the place of a list, which a
    // window's message can carry, can't be frozen as lists are.
    if (error instanceof RangeError) return { success: false, problem: 'the input nests too deep', path: '' };
    if (error instanceof TypeError) return { success: false, problem: error.message, path: '' };
    throw error;
  }
};

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
      const parsed = parse(method, input);
      if (!parsed.success) {
        const path = short(parsed.path);
        const message = `${method}: ${short(parsed.problem)}${path ? ` at ${path}` : ''}.`;
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
