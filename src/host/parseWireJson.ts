import type { ApiError } from '../app/apiMethods.ts';

export type Parsed =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly error: ApiError };

/** No input of the API nests nearly as deep; deeper ones are made to exhaust a stack. */
const depthMost = 100;

const refuse = (code: string, message: string): Parsed => ({ ok: false, error: { code, message, path: '' } });

/**
 * Parses JSON that came over the wire, and refuses what is not JSON, what nests deeper than 100 levels, and keys named
 * `__proto__`.
 */
export const parseWireJson = (bytes: Uint8Array): Parsed => {
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch (error) {
    const reason = error instanceof Error ? error.message.slice(0, 200) : String(error);
    return refuse('malformed-json', `The call's input is not JSON in UTF-8 (${reason}).`);
  }
  let level: readonly object[] = typeof value === 'object' && value !== null ? [value] : [];
  for (let depth = 1; level.length > 0; depth += 1) {
    if (depth > depthMost)
      return refuse('too-deep', `The call's input nests deeper than ${depthMost} levels.`);
    const next: object[] = [];
    for (const container of level) {
      if (Object.hasOwn(container, '__proto__'))
        return refuse('forbidden-key', 'The call’s input has a key "__proto__".');
      for (const entry of Object.values(container) as unknown[])
        if (typeof entry === 'object' && entry !== null) next.push(entry);
    }
    level = next;
  }
  return { ok: true, value };
};
