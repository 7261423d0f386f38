/**
 * How calls with bytes cross a wire that is not made for objects (HTTP): the `bytes` property travels as the body, all
 * the rest as JSON beside it.
 */

/** Parts a value from its `bytes`, if it has any. {@link joinBytes} puts them together again. */
export const splitBytes = (value: unknown): { readonly rest: unknown; readonly bytes: Uint8Array | null } => {
  if (
    typeof value !== 'object' ||
    value === null ||
    !('bytes' in value) ||
    !(value.bytes instanceof Uint8Array)
  )
    return { rest: value, bytes: null };
  const { bytes, ...rest } = value;
  return { rest, bytes };
};

/** Puts `bytes` back into the value that {@link splitBytes} took them from. */
export const joinBytes = (rest: unknown, bytes: Uint8Array | null): unknown =>
  bytes === null || typeof rest !== 'object' || rest === null ? rest : { ...rest, bytes };
