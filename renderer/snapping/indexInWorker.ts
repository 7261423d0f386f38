import { createLineworkIndex, type LineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import { decodeLinework } from '../../src/sheet/lineworkWire.ts';
import type { LineworkRequest, LineworkResponse } from './lineworkWorker.ts';

/**
 * Indexes linework in a worker; nothing is copied on the way there and back. Rejects where the bytes are no linework, and
 * with the signal's reason when it is aborted.
 *
 * @param encoded as `encodeLinework` made them; empty afterwards, for the worker takes them over
 */
export const indexInWorker = (encoded: Uint8Array, signal: AbortSignal): Promise<LineworkIndex> =>
  new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./lineworkWorker.ts', import.meta.url), { type: 'module' });
    const stop = () => {
      worker.terminate();
      reject(signal.reason);
    };
    signal.addEventListener('abort', stop, { once: true });
    const done = () => {
      worker.terminate();
      signal.removeEventListener('abort', stop);
    };
    worker.addEventListener('message', ({ data: { bytes, tree } }: MessageEvent<LineworkResponse>) => {
      done();
      resolve(createLineworkIndex(decodeLinework(bytes), tree));
    });
    worker.addEventListener('error', ({ message }) => {
      done();
      reject(new Error(`The linework could not be indexed: ${message}`));
    });
    // A view into a larger block can't be handed over without the rest of the block.
    const isWhole = encoded.byteLength === encoded.buffer.byteLength;
    const bytes = (isWhole ? encoded : encoded.slice()) as Uint8Array<ArrayBuffer>;
    const request: LineworkRequest = { bytes };
    worker.postMessage(request, [bytes.buffer]);
  });
