import type { z } from 'zod';
import { type WayIn, wayInSchema } from './wayInSchema.ts';

/** Why an input was refused: a kebab-case code, a sentence that says what to do, and where it is. */
export interface WayInError {
  readonly code: string;
  readonly message: string;
  readonly path: string;
}

export type ParsedWayIn =
  | {
      readonly ok: true;
      readonly wayIn: WayIn;
      /** Paths of fields that the contract does not know; they had no effect, which is worth a warning. */
      readonly unknownFields: readonly string[];
    }
  | { readonly ok: false; readonly error: WayInError };

/**
 * Reads a way in from an untrusted value. Unknown fields are dropped and named. The first fault found is reported; nothing
 * throws.
 *
 * @example parseWayIn({ obstacles: [], pieces: [] }) // { ok: true, wayIn: { obstacles: [], pieces: [] }, unknownFields: [] }
 * @example parseWayIn({ obstacles: [{ kind: 'moat' }], pieces: [] }) // code 'unknown-obstacle-kind', path 'obstacles[0].kind'
 */
export const parseWayIn = (value: unknown): ParsedWayIn => {
  const result = wayInSchema.safeParse(value);
  if (result.success) {
    return { ok: true, wayIn: result.data, unknownFields: unknownFieldsOf(value, result.data) };
  }
  const issue = result.error.issues[0];
  if (issue === undefined) throw new Error('a failed parse must name at least one issue');
  return { ok: false, error: describe(issue, value) };
};

/** What is in the value but not in what was read from it: at the top, in each obstacle and in each piece. */
const unknownFieldsOf = (value: unknown, read: WayIn): readonly string[] => {
  const extra = (raw: unknown, known: object, prefix: string): string[] =>
    Object.keys(raw as object)
      .filter((key) => !(key in known))
      .map((key) => `${prefix}${key}`);
  const raw = value as { readonly obstacles: readonly unknown[]; readonly pieces: readonly unknown[] };
  return [
    ...extra(raw, read, ''),
    ...read.obstacles.flatMap((obstacle, index) =>
      extra(raw.obstacles[index], obstacle, `obstacles[${index}].`),
    ),
    ...read.pieces.flatMap((piece, index) => extra(raw.pieces[index], piece, `pieces[${index}].`)),
  ];
};

const describe = (issue: z.core.$ZodIssue, value: unknown): WayInError => {
  const path = pathText(issue.path);
  const where = path === '' ? 'the way in' : path;
  const found = shown(valueAt(value, issue.path));
  switch (issue.code) {
    case 'invalid_type':
      return valueAt(value, issue.path) === undefined
        ? { code: 'missing-field', message: `${where} is missing; give ${named(issue.expected)}`, path }
        : { code: 'wrong-type', message: `${where} must be ${named(issue.expected)}, found ${found}`, path };
    case 'too_small':
      return issue.origin === 'string'
        ? { code: 'empty-text', message: `${where} must not be empty`, path }
        : {
            code: 'number-too-small',
            message: `${where} must be ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}, found ${found}`,
            path,
          };
    case 'too_big':
      return {
        code: issue.origin === 'number' ? 'number-too-large' : 'too-many',
        message: `${where} must be at most ${issue.maximum}${issue.origin === 'number' ? `, found ${found}` : ' long'}`,
        path,
      };
    case 'invalid_union':
      return path.endsWith('kind')
        ? {
            code: 'unknown-obstacle-kind',
            message: `${where} names no known kind of obstacle, found ${found}`,
            path,
          }
        : {
            code: 'value-not-allowed',
            message: `${where} has a value that is not allowed, found ${found}`,
            path,
          };
    case 'custom':
      return {
        code: typeof issue.params?.['code'] === 'string' ? issue.params['code'] : 'invalid-value',
        message: `${where}: ${issue.message}`,
        path,
      };
    default:
      return { code: 'invalid-value', message: `${where} is not valid: ${issue.message}`, path };
  }
};

/** `['obstacles', 0, 'widthMm']` as `obstacles[0].widthMm`. */
const pathText = (path: readonly PropertyKey[]): string =>
  path
    .map((key, index) => (typeof key === 'number' ? `[${key}]` : `${index === 0 ? '' : '.'}${String(key)}`))
    .join('');

const valueAt = (value: unknown, path: readonly PropertyKey[]): unknown => {
  let at = value;
  for (const key of path) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = (at as Record<PropertyKey, unknown>)[key];
  }
  return at;
};

/** A JSON type with its article, in the words people use. */
const named = (type: string): string =>
  type === 'object'
    ? 'an object'
    : type === 'array'
      ? 'a list'
      : type === 'boolean'
        ? 'true or false'
        : type === 'string'
          ? 'a text'
          : `a ${type}`;

/** A short, safe print of what was found: never a whole document, never a throw. */
const shown = (value: unknown): string => {
  if (typeof value === 'string') return JSON.stringify(value.length > 40 ? `${value.slice(0, 40)}…` : value);
  if (typeof value === 'number' || typeof value === 'boolean' || value === null) return String(value);
  if (Array.isArray(value)) return 'a list';
  return value === undefined ? 'nothing' : `a ${typeof value}`;
};
