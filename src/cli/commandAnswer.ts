import type { ApiError } from '../app/apiMethods.ts';

/** What a command found out: 0 it was done, 1 the answer is "no". */
export interface CommandAnswer {
  readonly exitCode: 0 | 1;
  /** For `--json`: one JSON value. */
  readonly value: unknown;
  /** For a person. */
  readonly text: string;
}

/** Bad input: the command can't answer. Ends with exit code 2 and `{"error": {code, message, path}}`. */
export class CommandError extends Error {
  readonly code: string;
  readonly path: string;
  constructor({ code, message, path = '' }: ApiError) {
    super(message);
    this.name = 'CommandError';
    this.code = code;
    this.path = path;
  }
}
