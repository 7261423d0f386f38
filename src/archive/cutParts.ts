import { hash } from 'node:crypto';

/** The fewest and the most bytes of a part; in between it is cut where the content says so, some 20 KiB on average. */
const leastBytes = 4 * 1024;
const mostBytes = 128 * 1024;
/** A cut is made where the upper 14 bits of the rolling sum are zero: one place in 16384. */
const cutMask = 0xfffc_0000;

/** A fixed number for each byte, as random as SHA-256: the "gear" of the rolling sum. */
const gear = Int32Array.from({ length: 256 }, (_, byte) =>
  hash('sha256', `footrail part ${byte}`, 'buffer').readInt32BE(0),
);

/**
 * Cuts bytes into parts at places that their content decides (content-defined chunking with a gear hash: Xia et al.,
 * "FastCDC", USENIX ATC 2016, from memory), so that two files that have a long stretch in common have parts in common,
 * wherever in them it lies. The parts follow one another and leave nothing out; equal bytes give equal parts.
 */
export const cutParts = (bytes: Uint8Array): readonly Uint8Array[] => {
  const parts: Uint8Array[] = [];
  let start = 0;
  while (start < bytes.length) {
    const most = Math.min(bytes.length, start + mostBytes);
    let end = Math.min(bytes.length, start + leastBytes);
    let sum = 0;
    while (end < most) {
      sum = ((sum << 1) + (gear[bytes[end] ?? 0] ?? 0)) | 0;
      end += 1;
      if ((sum & cutMask) === 0) break;
    }
    parts.push(bytes.subarray(start, end));
    start = end;
  }
  return parts;
};
