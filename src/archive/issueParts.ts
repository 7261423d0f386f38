import { hash } from 'node:crypto';
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import type { Database } from 'better-sqlite3';
import { BrokenContentError } from './archiveConnection.ts';
import { cutParts } from './cutParts.ts';

/** Bytes in the archive: their length, their SHA-256, and the parts that they are put together from. */
export interface KeptBytes {
  readonly byteLength: number;
  readonly sha256: string;
  readonly parts: readonly string[];
}

interface PartRecord {
  readonly byte_length: number;
  readonly packing: string;
  readonly packed: Uint8Array;
}

/** Packed only where that saves something: streams in a PDF are packed already. */
const packed = (part: Uint8Array): { readonly packing: string; readonly packed: Uint8Array } => {
  const deflated = deflateRawSync(part, { level: 9 });
  return deflated.length < part.length * 0.97
    ? { packing: 'deflate', packed: deflated }
    : { packing: 'none', packed: part };
};

const unpacked = ({ packing, packed: bytes, byte_length }: PartRecord): Uint8Array | null => {
  if (packing === 'none') return bytes;
  if (packing !== 'deflate') return null;
  try {
    return inflateRawSync(bytes, { maxOutputLength: Math.max(1, byte_length) });
  } catch {
    // Whatever zlib finds wrong with it, it is not as it was written.
    return null;
  }
};

/** Reads and writes the parts that the issues' files and inputs are kept in. Used inside the callers' transactions. */
export const issuePartsOf = (database: Database) => {
  const find = database.prepare<[string], PartRecord>(
    'SELECT byte_length, packing, packed FROM issue_parts WHERE sha256 = ?',
  );
  const known = database.prepare<[string]>('SELECT 1 FROM issue_parts WHERE sha256 = ?');
  const read = (sha256: string): Uint8Array => {
    const record = find.get(sha256);
    const part = record && unpacked(record);
    if (!part || hash('sha256', part, 'hex') !== sha256)
      throw new BrokenContentError('a part of an issue is not as it was written');
    return part;
  };
  return {
    /** Keeps bytes; parts that are there already are not kept again. */
    keep(bytes: Uint8Array): KeptBytes {
      const parts = cutParts(bytes).map((part) => {
        const sha256 = hash('sha256', part, 'hex');
        if (known.get(sha256)) read(sha256);
        else {
          const { packing, packed: kept } = packed(part);
          database
            .prepare(`INSERT INTO issue_parts (sha256, byte_length, packing, packed) VALUES (?, ?, ?, ?)`)
            .run(sha256, part.length, packing, kept);
        }
        return sha256;
      });
      return { byteLength: bytes.length, sha256: hash('sha256', bytes, 'hex'), parts };
    },

    /** Gives bytes back as they were kept. @throws BrokenContentError where they are not */
    read({ byteLength, sha256, parts }: KeptBytes): Uint8Array {
      const bytes = new Uint8Array(byteLength);
      let at = 0;
      for (const name of parts) {
        const part = read(name);
        if (at + part.length > byteLength) break;
        bytes.set(part, at);
        at += part.length;
      }
      if (at !== byteLength || hash('sha256', bytes, 'hex') !== sha256)
        throw new BrokenContentError('the parts of an issue do not come to what was issued');
      return bytes;
    },
  };
};
