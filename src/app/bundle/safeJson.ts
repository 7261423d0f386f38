import { strFromU8, strToU8 } from 'fflate';

/** Documents nest less than 20 levels; deeper text is made to exhaust a stack. */
const depthMost = 100;

/** Keys through which a careless assignment reaches what all objects share. */
const forbidden: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype']);

export type SafeJson =
  | { readonly ok: true; readonly value: unknown }
  | { readonly ok: false; readonly problem: string };

/** True for a name that no part of a document, and no step of a patch's path, may have. */
export const isForbiddenKey = (key: string | number): boolean => forbidden.has(String(key));

const isSame = (one: Uint8Array, other: Uint8Array): boolean =>
  one.length === other.length && one.every((byte, index) => byte === other[index]);

/** Parses JSON of unknown origin: UTF-8, at most 100 levels deep, and without keys that reach behind an object. */
export const parseSafeJson = (bytes: Uint8Array): SafeJson => {
  let value: unknown;
  const text = strFromU8(bytes);
  if (!isSame(strToU8(text), bytes)) return { ok: false, problem: 'is not in UTF-8' };
  try {
    value = JSON.parse(text);
  } catch (error) {
    const reason = error instanceof Error ? error.message.slice(0, 200) : String(error);
    return { ok: false, problem: `is not JSON: ${reason}` };
  }
  let level: readonly object[] = typeof value === 'object' && value !== null ? [value] : [];
  for (let depth = 1; level.length > 0; depth += 1) {
    if (depth > depthMost) return { ok: false, problem: `nests deeper than ${depthMost} levels` };
    const next: object[] = [];
    for (const container of level)
      for (const [key, entry] of Object.entries(container) as [string, unknown][]) {
        if (!Array.isArray(container) && isForbiddenKey(key))
          return { ok: false, problem: `has a key "${key}"` };
        if (typeof entry === 'object' && entry !== null) next.push(entry);
      }
    level = next;
  }
  return { ok: true, value };
};

/**
 * Whether two JSON values are equal, whatever the order of their keys. Parts that are the same object are not looked
 * into, so that two states of a document cost what differs between them.
 */
export const isSameJson = (one: unknown, other: unknown): boolean => {
  if (one === other) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false;
  if (Array.isArray(one) !== Array.isArray(other)) return false;
  const keys = Object.keys(one);
  return (
    keys.length === Object.keys(other).length &&
    keys.every(
      (key) =>
        Object.hasOwn(other, key) &&
        isSameJson((one as Record<string, unknown>)[key], (other as Record<string, unknown>)[key]),
    )
  );
};
