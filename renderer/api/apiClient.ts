import type { ApiAnswer, ApiError, ApiInput, ApiMethod, ApiOutput } from '../../src/app/apiMethods.ts';

/** How a host carries a call. Electron's preload gives one; over the loopback host it is `fetch`. */
export type CarryCall = (
  method: ApiMethod,
  input: unknown,
  signal?: AbortSignal,
) => Promise<ApiAnswer<unknown>>;

/** A call that was not carried out, with the API's code and sentence. */
export class CallRefused extends Error {
  readonly code: string;
  readonly path: string | undefined;
  constructor(error: ApiError) {
    super(error.message);
    this.name = 'CallRefused';
    this.code = error.code;
    this.path = error.path;
  }
}

export interface ApiClient {
  /** Carries a call out; throws {@link CallRefused}. */
  call<Method extends ApiMethod>(
    method: Method,
    input: ApiInput<Method>,
    signal?: AbortSignal,
  ): Promise<ApiOutput<Method>>;
}

/** The typed client over whatever carries its calls. */
export const apiClientOver = (carry: CarryCall): ApiClient => ({
  async call(method, input, signal) {
    const answer = await carry(method, input, signal);
    if (!answer.ok) throw new CallRefused(answer.error);
    return answer.value as ApiOutput<typeof method>;
  },
});
