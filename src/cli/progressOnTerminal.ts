import type { CallContext } from '../app/callContext.ts';

/** Bytes below which nothing is said: it is done before one can read it. */
const shownFrom = 8 * 1024 * 1024;

/** Says on the terminal how far a long call is; says nothing where standard error is no terminal. */
export const progressOnTerminal = (done: string): CallContext => ({
  ...(process.stderr.isTTY
    ? {
        onProgress: (count: number, of: number): void => {
          if (of < shownFrom) return;
          const mebibytes = (bytes: number): string => (bytes / 2 ** 20).toFixed(0);
          process.stderr.write(
            `\r${done} ${mebibytes(count)} of ${mebibytes(of)} MiB${count >= of ? '\n' : ''}`,
          );
        },
      }
    : {}),
});
