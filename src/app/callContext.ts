import type { z } from 'zod';
import type { ApiMethod, ApiMethods } from './apiMethods.ts';
import type { AbortSignalLike } from './ports.ts';

/** What a host may hand along with a call: a way to end it, and somewhere to tell how far it is. */
export interface CallContext {
  readonly signal?: AbortSignalLike | undefined;
  readonly onProgress?: ((done: number, of: number) => void) | undefined;
}

/** A use case behind one method: takes the checked input, gives what the method answers, throws what it refuses. */
export type Handler<Method extends ApiMethod> = (
  input: z.output<ApiMethods[Method]['input']>,
  context: CallContext,
) => Promise<z.input<ApiMethods[Method]['output']>>;

export type Handlers = { readonly [Method in ApiMethod]: Handler<Method> };
