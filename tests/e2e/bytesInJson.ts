/** Writes bytes inside a value as `{"base64Bytes": …}`, for a wire that carries JSON only. */
export const packBytes = (value: unknown): unknown => {
  if (value instanceof Uint8Array) return { base64Bytes: Buffer.from(value).toString('base64') };
  if (Array.isArray(value)) return value.map(packBytes);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, packBytes(part)]));
};

/** Makes bytes again of what {@link packBytes} wrote. */
export const unpackBytes = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(unpackBytes);
  if (typeof value !== 'object' || value === null) return value;
  if ('base64Bytes' in value && typeof value.base64Bytes === 'string') {
    return new Uint8Array(Buffer.from(value.base64Bytes, 'base64'));
  }
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, unpackBytes(part)]));
};
