import { hash } from 'node:crypto';

type Part = string | number | null | Uint8Array;

const asText = (part: Part): string | number | null =>
  part instanceof Uint8Array ? Buffer.from(part).toString('hex') : part;

/** SHA-256 over the parts of a row, in their order; texts that run into one another give different digests. */
export const rowDigest = (parts: readonly Part[]): Buffer =>
  hash('sha256', JSON.stringify(parts.map(asText)), 'buffer');

/** SHA-256 of bytes or of a text's UTF-8. */
export const contentDigest = (content: Uint8Array | string): Buffer => hash('sha256', content, 'buffer');

export const sameDigest = (one: Uint8Array, other: Uint8Array): boolean => Buffer.compare(one, other) === 0;

/** Digest sums are taken modulo this; it fits an exact number with room to add. */
const sumModulus = 2 ** 48;

/** The share of a row's digest in its table's sum: its first 48 bits. */
export const digestShare = (digest: Uint8Array): number =>
  Buffer.from(digest.buffer, digest.byteOffset, digest.byteLength).readUIntBE(0, 6);

/** Adds shares and takes others away, modulo 2^48. The order does not matter. */
export const changeSum = (sum: number, add: number, takeAway: number): number =>
  (((sum + add - takeAway) % sumModulus) + sumModulus) % sumModulus;

/**
 * A text as it comes back from UTF-8: half a surrogate pair, which UTF-8 can't hold, becomes U+FFFD. Without this the
 * digest of what was meant would differ from that of what was kept.
 */
export const storableText = (text: string): string => Buffer.from(text, 'utf8').toString('utf8');
