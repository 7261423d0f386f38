import { PlanError, type PlanPage, type PlanReader } from '../../app/ports.ts';
import { paperMmPerUnit } from '../../scale/paperLength.ts';
import { sheetName } from '../../sheet/sheetSize.ts';
import { createReadingThreads, type ReadingAnswer, type ReadingLimits } from './readingThread.ts';
import type { PageSize } from './readPage.ts';

/** Changes whenever readings may differ from earlier ones, so that kept readings are made anew. */
export const READER_VERSION = '4';

export interface PlanReaderOptions extends Partial<ReadingLimits> {
  /** Where the reading thread's entry lies; beside this file where not given. */
  readonly workerUrl?: URL;
}

/** A plan reader with a thread to end. */
export interface ThreadedPlanReader extends PlanReader {
  /** Ends the thread that is kept warm between readings; it never keeps the process alive by itself. */
  close(): Promise<void>;
}

/**
 * Reads plans in a thread of their own, within limits of time and memory, so that a crash or a hang ends without harm.
 *
 * Each method throws PlanError: `password-needed`, `password-wrong`, `not-a-pdf`, `damaged`, `no-pages`,
 * `no-such-page`, `page-damaged`, `reading-timed-out`, `reading-out-of-memory`, `reading-cancelled`, `reading-crashed`.
 */
export const createPlanReader = (options: PlanReaderOptions = {}): ThreadedPlanReader => {
  const {
    workerUrl = new URL('./readingWorker.ts', import.meta.url),
    deadlineMs = 120_000,
    memoryMb = 2048,
    threadsMost = 2,
  } = options;
  const threads = createReadingThreads(workerUrl, { deadlineMs, memoryMb, threadsMost });
  return {
    version: READER_VERSION,
    close: threads.close,
    readPage: async (bytes, page, context) => {
      const { password, layers = {} } = context;
      const message = await threads.ask({ kind: 'page', bytes, page, password, layers }, context);
      if (message.kind === 'page') {
        const { answer, linework, text } = message;
        return { answer, linework, text };
      }
      throw failed(message);
    },
    register: async (old, next, basis, context) => {
      const message = await threads.ask({ kind: 'register', old, next, basis }, context);
      if (message.kind === 'registered') return message.registered;
      throw failed(message);
    },
    pages: async (bytes, context) => {
      const { password } = context;
      const message = await threads.ask({ kind: 'pages', bytes, password }, context);
      if (message.kind === 'pages') return message.pages.map(planPage);
      throw failed(message);
    },
  };
};

const failed = (message: ReadingAnswer): PlanError => {
  if (message.kind === 'failed') return new PlanError(message.failure.code, message.failure.message);
  throw new Error(`The reading thread answered ${message.kind} to another question.`);
};

/** A damaged page keeps its place in the list, with no size. */
const planPage = (size: PageSize): PlanPage => {
  if ('problem' in size) {
    return { page: size.page, widthMm: 0, heightMm: 0, sizeName: 'damaged', rotation: 0, userUnit: 1 };
  }
  const { page, mediaBox, rotation, userUnit } = size;
  const widthMm = (mediaBox.maxX - mediaBox.minX) * paperMmPerUnit(userUnit);
  const heightMm = (mediaBox.maxY - mediaBox.minY) * paperMmPerUnit(userUnit);
  return { page, widthMm, heightMm, sizeName: sheetName(widthMm, heightMm), rotation, userUnit };
};
