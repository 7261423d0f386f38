import { Worker } from 'node:worker_threads';
import type { ReadContext } from '../../app/ports.ts';
import type { ReadingFailureCode } from './readingFailure.ts';
import type { ReadingMessage, ReadingRequest } from './readingMessage.ts';

export interface ReadingLimits {
  /** After this time the thread is ended, in ms. */
  readonly deadlineMs: number;
  /** Largest heap of the thread, in MiB. */
  readonly memoryMb: number;
  /** Threads that read at one time; further questions wait for one, in their order. */
  readonly threadsMost: number;
}

export type ReadingAnswer = Exclude<ReadingMessage, { readonly kind: 'progress' }>;

/** Asks reading threads one question each at a time. */
export interface ReadingThreads {
  /** Never rejects: what went wrong is an answer of kind `failed`. */
  ask(request: ReadingRequest, context: ReadContext): Promise<ReadingAnswer>;
  /** Ends the thread that is kept warm. */
  close(): Promise<void>;
}

/**
 * Threads that read. A thread that answered is kept warm for the next question, for starting one costs more than most
 * pages; one that passed its deadline, was cancelled or crashed is ended. Idle, it does not keep the process alive.
 */
export const createReadingThreads = (workerUrl: URL, limits: ReadingLimits): ReadingThreads => {
  let idle: Worker | null = null;
  let reading = 0;
  const waiting: (() => void)[] = [];

  const start = (): Worker => {
    const worker = new Worker(workerUrl, {
      resourceLimits: { maxOldGenerationSizeMb: limits.memoryMb },
      stdout: true,
      stderr: true,
    });
    worker.setMaxListeners(20);
    // Whatever strikes an idle thread only costs the next question a cold start.
    worker.on('error', () => forget(worker));
    worker.on('exit', () => forget(worker));
    return worker;
  };
  const forget = (worker: Worker): void => {
    if (idle === worker) idle = null;
  };
  const take = (): Worker => {
    const worker = idle ?? start();
    idle = null;
    worker.ref();
    return worker;
  };
  const putBack = (worker: Worker): void => {
    if (idle) {
      void worker.terminate();
      return;
    }
    idle = worker;
    worker.unref();
  };

  /** Resolves once it is this question's turn; false where it was cancelled before. */
  const turn = (signal: ReadContext['signal']): Promise<boolean> =>
    new Promise((resolve) => {
      const begin = (): void => {
        signal?.removeEventListener('abort', giveUp);
        reading += 1;
        resolve(true);
      };
      const giveUp = (): void => {
        waiting.splice(waiting.indexOf(begin), 1);
        signal?.removeEventListener('abort', giveUp);
        resolve(false);
      };
      if (reading < limits.threadsMost) return begin();
      waiting.push(begin);
      signal?.addEventListener('abort', giveUp);
    });
  const endTurn = (): void => {
    reading -= 1;
    waiting.shift()?.();
  };

  const ask: ReadingThreads['ask'] = async (request, context) => {
    if (context.signal?.aborted || !(await turn(context.signal))) return cancelled();
    try {
      return context.signal?.aborted ? cancelled() : await askThread(request, context);
    } finally {
      endTurn();
    }
  };

  const askThread: ReadingThreads['ask'] = (request, { signal, onProgress }) =>
    new Promise((resolve) => {
      const worker = take();
      let isSettled = false;
      const settle = (answer: ReadingAnswer, isThreadSound: boolean): void => {
        if (isSettled) return;
        isSettled = true;
        clearTimeout(deadline);
        signal?.removeEventListener('abort', cancel);
        worker.off('message', hear);
        worker.off('error', crash);
        worker.off('exit', leave);
        if (isThreadSound) {
          putBack(worker);
          resolve(answer);
        } else {
          void worker.terminate().then(() => resolve(answer));
        }
      };
      const cancel = (): void => settle(cancelled(), false);
      const deadline = setTimeout(() => {
        const seconds = Math.round(limits.deadlineMs / 1000);
        settle(failure('reading-timed-out', `The page could not be read within ${seconds} s.`), false);
      }, limits.deadlineMs);
      const hear = (message: ReadingMessage): void => {
        if (message.kind === 'progress') onProgress?.(message.done, message.of);
        else settle(message, true);
      };
      const crash = (error: Error & { code?: string }): void => settle(crashed(error), false);
      const leave = (exitCode: number): void =>
        settle(failure('reading-crashed', `Reading ended unexpectedly (${exitCode}).`), false);
      signal?.addEventListener('abort', cancel);
      worker.on('message', hear);
      worker.on('error', crash);
      worker.on('exit', leave);
      worker.postMessage(request);
    });

  return {
    ask,
    close: async () => {
      await idle?.terminate();
      idle = null;
    },
  };
};

const failure = (code: ReadingFailureCode, message: string): ReadingAnswer => ({
  kind: 'failed',
  failure: { code, message },
});

const cancelled = (): ReadingAnswer => failure('reading-cancelled', 'Reading was cancelled.');

const crashed = (error: Error & { code?: string }): ReadingAnswer =>
  error.code === 'ERR_WORKER_OUT_OF_MEMORY'
    ? failure('reading-out-of-memory', 'The page is too large to read in the memory it may take.')
    : failure('reading-crashed', `Reading ended unexpectedly (${error.message}).`);
