import { parentPort } from 'node:worker_threads';
import { registerPages } from '../../app/revision/registeredPages.ts';
import { readVerdict } from '../../scale/readVerdict.ts';
import { encodeLinework } from '../../sheet/lineworkWire.ts';
import type { RegistrationSheet } from '../../sheet/registration/sheetRegistration.ts';
import { openPdf } from './openPdf.ts';
import { ReadingError, type ReadingFailure } from './readingFailure.ts';
import type { PageToRead, ReadingMessage, ReadingRequest } from './readingMessage.ts';
import { readPage, readPageSizes } from './readPage.ts';

/**
 * Entry of the reading thread: answers one request after another. Nothing that happens here can take the project with
 * it; the other side ends a thread that takes too long.
 */
const port = parentPort;
if (!port) throw new Error('The reading worker runs only as a worker thread.');

const post = (message: ReadingMessage, transfer: ArrayBuffer[] = []): void =>
  port.postMessage(message, transfer);

const progress = (done: number, of: number): void => post({ kind: 'progress', done, of });

const sheetOf = async (page: PageToRead): Promise<RegistrationSheet> => {
  const document = await openPdf(page.bytes.slice(), page.password);
  try {
    const { reading, linework } = await readPage(document, page);
    return { linework, viewBox: reading.viewBox };
  } finally {
    await document.loadingTask.destroy();
  }
};

const register = async ({
  old,
  next,
  basis,
}: Extract<ReadingRequest, { kind: 'register' }>): Promise<void> => {
  progress(1, 10);
  const before = await sheetOf(old);
  progress(2, 10);
  const after = await sheetOf(next);
  const registered = registerPages(before, after, basis, (done, of) => progress(3 + (7 * done) / of, 10));
  post({ kind: 'registered', registered });
};

const answer = async (request: ReadingRequest): Promise<void> => {
  if (request.kind === 'register') return register(request);
  const { bytes, password } = request;
  const document = await openPdf(bytes.slice(), password);
  try {
    if (request.kind === 'pages') {
      post({ kind: 'pages', pages: await readPageSizes(document, bytes, password, progress) });
      return;
    }
    progress(1, 4);
    const { reading, linework } = await readPage(document, request);
    progress(2, 4);
    const verdict = readVerdict(reading, linework);
    progress(3, 4);
    const block = encodeLinework(linework);
    const text = reading.text.map((run) => run.text).join('\n');
    post({ kind: 'page', answer: verdict, linework: block, text }, [block.buffer as ArrayBuffer]);
  } finally {
    await document.loadingTask.destroy();
  }
};

const failureOf = (error: unknown): ReadingFailure =>
  error instanceof ReadingError
    ? { code: error.code, message: error.message }
    : { code: 'page-damaged', message: `The page cannot be read (${(error as Error).message}).` };

port.on('message', (request: ReadingRequest) => {
  answer(request).catch((error: unknown) => post({ kind: 'failed', failure: failureOf(error) }));
});
