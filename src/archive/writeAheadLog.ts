import { closeSync, fstatSync, openSync, readSync, statSync } from 'node:fs';

/**
 * The write-ahead log read past SQLite. SQLite ends its reading at the first frame whose checksum is wrong, as it must
 * after a power cut, and so passes over everything behind a damaged place without a word. Every accepted change was
 * synced before the next began, so a wrong frame with a finished change behind it is damage, not a power cut.
 *
 * Format: sqlite.org/fileformat2.html, "The Write-Ahead Log".
 */
const headerBytes = 32;
const frameHeaderBytes = 24;
const magicLittleEndian = 0x377f0682;
const magicBigEndian = 0x377f0683;

type Checksum = readonly [number, number];

/** The log's checksum, carried on over 8-byte groups of `bytes`. */
const carryOn = ([first, second]: Checksum, bytes: Buffer, isBigEndian: boolean): Checksum => {
  let s0 = first;
  let s1 = second;
  const words = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 0; at < bytes.length; at += 8) {
    s0 = (s0 + words.getUint32(at, !isBigEndian) + s1) | 0;
    s1 = (s1 + words.getUint32(at + 4, !isBigEndian) + s0) | 0;
  }
  return [s0 >>> 0, s1 >>> 0];
};

interface LogFrame {
  readonly isOfThisLog: boolean;
  /** The last frame of a change. */
  readonly endsChange: boolean;
}

const readFrame = (frame: Buffer, salts: Buffer): LogFrame => ({
  isOfThisLog: frame.subarray(8, 16).equals(salts),
  endsChange: frame.readUInt32BE(4) !== 0,
});

export type LogFinding =
  | { readonly kind: 'sound' }
  /** The last change is incomplete. A power cut leaves such a log, of a change that was never accepted. */
  | { readonly kind: 'cut-off' }
  | { readonly kind: 'damaged'; readonly problem: string };

const sound: LogFinding = { kind: 'sound' };

interface Header {
  readonly bytes: Buffer;
  readonly isBigEndian: boolean;
  readonly pageBytes: number;
  readonly salts: Buffer;
  readonly checksum: Checksum;
  readonly isSound: boolean;
}

const readHeader = (file: number): Header => {
  const bytes = Buffer.alloc(headerBytes);
  readSync(file, bytes, 0, headerBytes, 0);
  const magic = bytes.readUInt32BE(0);
  const isBigEndian = magic === magicBigEndian;
  const checksum = carryOn([0, 0], bytes.subarray(0, 24), isBigEndian);
  const isSound =
    (isBigEndian || magic === magicLittleEndian) &&
    checksum[0] === bytes.readUInt32BE(24) &&
    checksum[1] === bytes.readUInt32BE(28);
  return {
    bytes,
    isBigEndian,
    pageBytes: bytes.readUInt32BE(8),
    salts: bytes.subarray(16, 24),
    checksum,
    isSound,
  };
};

interface Look {
  readonly headerBytes: Buffer;
  readonly isHeaderSound: boolean;
  /** Where the first wrong frame starts, in bytes; null where all are right. */
  readonly brokenAt: number | null;
  /** Finished changes at and behind that place. */
  readonly changes: number;
}

const lookThrough = (file: number): Look => {
  const header = readHeader(file);
  const { size } = fstatSync(file);
  let brokenAt: number | null = null;
  let changes = 0;
  if (header.isSound) {
    const frame = Buffer.alloc(frameHeaderBytes + header.pageBytes);
    let checksum = header.checksum;
    for (let at = headerBytes; at + frame.length <= size; at += frame.length) {
      readSync(file, frame, 0, frame.length, at);
      const { isOfThisLog, endsChange } = readFrame(frame, header.salts);
      if (brokenAt === null) {
        const { isBigEndian } = header;
        const withHeader = carryOn(checksum, frame.subarray(0, 8), isBigEndian);
        checksum = carryOn(withHeader, frame.subarray(frameHeaderBytes), isBigEndian);
        const isRight = checksum[0] === frame.readUInt32BE(16) && checksum[1] === frame.readUInt32BE(20);
        if (!isOfThisLog || !isRight) brokenAt = at;
      }
      if (brokenAt !== null && isOfThisLog && endsChange) changes += 1;
    }
  }
  return { headerBytes: header.bytes, isHeaderSound: header.isSound, brokenAt, changes };
};

const isInOrder = ({ isHeaderSound, changes }: Look): boolean => isHeaderSound && changes === 0;

/**
 * Looks until two looks agree: another process may be writing to the log or beginning it anew, and a frame read while
 * it was written is right the next time. What is damaged stays where it is.
 */
const lookTwice = (file: number): Look => {
  let last = lookThrough(file);
  for (;;) {
    if (isInOrder(last)) return last;
    const next = lookThrough(file);
    const isSame = next.headerBytes.equals(last.headerBytes) && next.brokenAt === last.brokenAt;
    if (isSame) return next;
    last = next;
  }
};

/** Looks through the log beside an archive; no log is a sound one. */
export const inspectLog = (archivePath: string): LogFinding => {
  const path = `${archivePath}-wal`;
  const size = statSync(path, { throwIfNoEntry: false })?.size ?? 0;
  if (size < headerBytes + frameHeaderBytes) return sound;
  const file = openSync(path, 'r');
  try {
    const look = lookTwice(file);
    if (isInOrder(look)) return sound;
    if (!look.isHeaderSound)
      return {
        kind: 'damaged',
        problem: 'the header of its write-ahead log is broken, and with it the last changes are out of reach',
      };
    if (look.changes === 1) return { kind: 'cut-off' };
    return {
      kind: 'damaged',
      problem: `its write-ahead log is broken in the middle; ${look.changes} changes behind that place are out of reach`,
    };
  } finally {
    closeSync(file);
  }
};
