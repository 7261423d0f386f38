const isPlainObject = (value: object): value is Record<string, unknown> => {
  const prototype: unknown = Object.getPrototypeOf(value);
  return prototype === Object.prototype || prototype === null;
};

/**
 * Copies a value from the preload's world to the page's or back, as Electron's documentation of `contextBridge` says:
 * functions become proxies whose arguments and results cross in turn, promises settle with what crossed, plain objects
 * and arrays are copied and frozen, everything else goes by structured clone. What cannot be cloned throws.
 */
export const crossContextBridge = (value: unknown): unknown => {
  if (typeof value === 'function') {
    return (...args: unknown[]) => crossContextBridge(value(...args.map(crossContextBridge)));
  }
  if (typeof value !== 'object' || value === null) {
    if (typeof value === 'symbol') throw new DOMException('symbol could not be cloned', 'DataCloneError');
    return value;
  }
  if (value instanceof Promise) return value.then(crossContextBridge);
  if (Array.isArray(value)) return Object.freeze(value.map(crossContextBridge));
  if (isPlainObject(value)) {
    return Object.freeze(
      Object.fromEntries(Object.entries(value).map(([key, part]) => [key, crossContextBridge(part)])),
    );
  }
  return structuredClone(value);
};
