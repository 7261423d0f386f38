/// <reference lib="webworker" />

import { buildLineworkTree } from '../../src/sheet/lineworkTree.ts';
import { decodeLinework } from '../../src/sheet/lineworkWire.ts';

/** The linework as it came over the wire. Its buffer is handed over and comes back with the answer. */
export interface LineworkRequest {
  readonly bytes: Uint8Array<ArrayBuffer>;
}

export interface LineworkResponse {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly tree: ArrayBuffer | null;
}

/** Builds the search tree off the main thread: with 300,000 lines that takes longer than a frame. */
self.addEventListener('message', ({ data: { bytes } }: MessageEvent<LineworkRequest>) => {
  const tree = buildLineworkTree(decodeLinework(bytes));
  const response: LineworkResponse = { bytes, tree };
  self.postMessage(response, tree ? [bytes.buffer, tree] : [bytes.buffer]);
});
