import { Worker } from 'node:worker_threads';
import type { ReadContext } from '../../app/ports.ts';
import type { ReadingFailureCode } from './readingFailure.ts';
import type { ReadingMessage, ReadingRequest } from './readingMessage.ts';

export interface ReadingLimits {
  /** After this time the thread is ended, in ms. */
  readonly deadlineMs: number;
  /** Largest heap of the thread, in MiB. */
  readonly memoryMb: number;
}

type ReadingAnswer = Exclude<ReadingMessage, { readonly kind: 'progress' }>;

/**
 * Puts one question to a fresh reading thread and ends the thread with the answer, at the deadline, when cancelled, or
 * when it crashes. Never rejects: what went wrong is an answer of kind `failed`.
 */
export const askReadingWorker = (
  request: ReadingRequest,
  workerUrl: URL,
  limits: ReadingLimits,
  context: ReadContext,
): Promise<ReadingAnswer> =>
  new Promise((resolve) => {
    const { signal, onProgress } = context;
    const failure = (code: ReadingFailureCode, message: string): ReadingAnswer => ({
      kind: 'failed',
      failure: { code, message },
    });
    if (signal?.aborted) {
      resolve(failure('reading-cancelled', 'Reading was cancelled.'));
      return;
    }
    const worker = new Worker(workerUrl, {
      workerData: request,
      resourceLimits: { maxOldGenerationSizeMb: limits.memoryMb },
      stdout: true,
      stderr: true,
    });
    let isSettled = false;
    const settle = (answer: ReadingAnswer): void => {
      if (isSettled) return;
      isSettled = true;
      clearTimeout(deadline);
      signal?.removeEventListener('abort', cancel);
      void worker.terminate().then(() => resolve(answer));
    };
    const cancel = (): void => settle(failure('reading-cancelled', 'Reading was cancelled.'));
    const deadline = setTimeout(() => {
      const seconds = Math.round(limits.deadlineMs / 1000);
      settle(failure('reading-timed-out', `The page could not be read within ${seconds} s.`));
    }, limits.deadlineMs);
    signal?.addEventListener('abort', cancel);
    worker.on('message', (message: ReadingMessage) => {
      if (message.kind === 'progress') onProgress?.(message.done, message.of);
      else settle(message);
    });
    worker.on('error', (error: Error & { code?: string }) => {
      settle(
        error.code === 'ERR_WORKER_OUT_OF_MEMORY'
          ? failure('reading-out-of-memory', 'The page is too large to read in the memory it may take.')
          : failure('reading-crashed', `Reading ended unexpectedly (${error.message}).`),
      );
    });
    worker.on('exit', (exitCode) =>
      settle(failure('reading-crashed', `Reading ended unexpectedly (${exitCode}).`)),
    );
  });
