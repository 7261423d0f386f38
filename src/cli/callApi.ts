import type { ApiInput, ApiMethod, ApiOutput } from '../app/apiMethods.ts';
import type { CallContext } from '../app/callContext.ts';
import type { Api } from '../app/createApi.ts';
import { CommandError } from './commandAnswer.ts';

/**
 * Calls a method; an error value ends the command.
 *
 * @param over.within the part of the input that the person's file became, which is no part of the path that they see
 * @param over.context told how far the call is
 * @throws CommandError with the API's code and message; the path is one in the file, or a flag
 */
export const callApi = async <Method extends ApiMethod>(
  api: Api,
  method: Method,
  input: ApiInput<Method>,
  { within = '', context = {} }: { readonly within?: string; readonly context?: CallContext } = {},
): Promise<ApiOutput<Method>> => {
  const answer = await api.call(method, input, context);
  if (answer.ok) return answer.value as ApiOutput<Method>;
  const { code, message, path = '' } = answer.error;
  throw new CommandError({ code, message, path: seenPath(path, within) });
};

/** Inputs that the person gave as flags of the same name. */
const flags: ReadonlySet<string> = new Set([
  'page',
  'password',
  'alternatives',
  'order',
  'paper',
  'by',
  'documents',
]);

const seenPath = (path: string, within: string): string => {
  if (path === 'purpose') return '--for';
  if (flags.has(path.split('.')[0] ?? '')) return `--${path.split('.')[0]}`;
  if (within === '' || !path.startsWith(within)) return path;
  const rest = path.slice(within.length);
  if (rest === '' || rest.startsWith('[')) return rest;
  return rest.startsWith('.') ? rest.slice(1) : path;
};
