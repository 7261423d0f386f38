import { Inflate } from 'fflate';
import { bundleRefusal } from './bundleRefusal.ts';
import { crc32 } from './crc32.ts';

/**
 * A strict reader of ZIP archives (PKWARE APPNOTE 6.3.10): what a project file never has is refused rather than guessed
 * at, and no entry is unpacked past the size that the archive's own directory gives for it.
 */

export interface ZipEntry {
  /** As stored; not yet known to be safe. */
  readonly name: string;
  readonly byteLength: number;
  /** Unpacks the entry and holds it against its size and CRC-32. */
  readonly read: () => Uint8Array;
}

const signatures = { local: 0x04034b50, central: 0x02014b50, end: 0x06054b50 } as const;
const sizes = { local: 30, central: 46, end: 22, commentMost: 65_535 } as const;
/** General purpose bit 0: encrypted; 6: strongly so; 13: its directory is masked. */
const encryptedFlags = 0b10_0000_0100_0001;
const utf8Flag = 0x0800;
const methods = { stored: 0, deflated: 8 } as const;
/** What stands for "see the ZIP64 field". */
const zip64 = { count: 0xffff, size: 0xffffffff } as const;
/** Deflated bytes handed to the inflater at once; each can come to at most 1032 times as many. */
const pieceBytes = 4 * 1024;

const inflateTo = (packed: Uint8Array, byteLength: number, name: string): Uint8Array => {
  const unpacked = new Uint8Array(byteLength);
  let at = 0;
  const inflater = new Inflate((chunk) => {
    if (at + chunk.length > byteLength)
      throw bundleRefusal(
        'bundle-too-large',
        `“${name}” unpacks to more than the ${byteLength} bytes it claims.`,
      );
    unpacked.set(chunk, at);
    at += chunk.length;
  });
  for (let from = 0; from === 0 || from < packed.length; from += pieceBytes)
    inflater.push(packed.subarray(from, from + pieceBytes), from + pieceBytes >= packed.length);
  if (at !== byteLength)
    throw bundleRefusal(
      'bundle-damaged',
      `“${name}” unpacks to ${at} bytes, not the ${byteLength} it claims.`,
    );
  return unpacked;
};

const isRefusal = (error: unknown): boolean => error instanceof Error && error.name === 'ApiFailure';

const unpack = (
  packed: Uint8Array,
  entry: {
    readonly name: string;
    readonly method: number;
    readonly byteLength: number;
    readonly crc: number;
  },
): Uint8Array => {
  const { name, method, byteLength, crc } = entry;
  let bytes: Uint8Array;
  try {
    bytes = method === methods.stored ? packed.slice() : inflateTo(packed, byteLength, name);
  } catch (error) {
    if (isRefusal(error)) throw error;
    throw bundleRefusal(
      'bundle-damaged',
      `“${name}”: ${error instanceof Error ? error.message : String(error)}.`,
    );
  }
  if (bytes.length !== byteLength || crc32(bytes) !== crc)
    throw bundleRefusal('bundle-damaged', `“${name}” is not what its CRC-32 says.`);
  return bytes;
};

/** Where the archive's end record stands: the last one whose comment reaches to the very end. */
const findEnd = (view: DataView): number => {
  const last = view.byteLength - sizes.end;
  for (let at = last; at >= Math.max(0, last - sizes.commentMost); at -= 1)
    if (
      view.getUint32(at, true) === signatures.end &&
      view.getUint16(at + 20, true) === view.byteLength - sizes.end - at
    )
      return at;
  throw bundleRefusal('bundle-not-a-zip', 'It has no end record.');
};

/**
 * The entries of an archive, in the order of its directory, not yet unpacked.
 *
 * @throws ApiFailure `bundle-not-a-zip`, `bundle-damaged`, `bundle-unsupported`
 */
export const readZip = (bytes: Uint8Array): readonly ZipEntry[] => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const damaged = (found: string) => bundleRefusal('bundle-damaged', found);
  const unsupported = (found: string) => bundleRefusal('bundle-unsupported', found);
  const nameAt = (at: number, length: number, flags: number): string => {
    const raw = bytes.subarray(at, at + length);
    if (!(flags & utf8Flag) && raw.some((byte) => byte > 126 || byte < 32))
      throw unsupported('A name is neither ASCII nor marked as UTF-8.');
    let name = '';
    for (const byte of raw) name += String.fromCharCode(byte);
    // Names of project files are ASCII; others only have to be shown.
    return name;
  };

  if (bytes.length < sizes.end) throw bundleRefusal('bundle-not-a-zip', 'It is shorter than the shortest.');
  const end = findEnd(view);
  const count = view.getUint16(end + 10, true);
  const directoryBytes = view.getUint32(end + 12, true);
  const directoryAt = view.getUint32(end + 16, true);
  if (view.getUint16(end + 4, true) !== 0 || view.getUint16(end + 6, true) !== 0)
    throw unsupported('It is one of several parts.');
  if (count === zip64.count || directoryAt === zip64.size) throw unsupported('It is in the ZIP64 format.');
  if (view.getUint16(end + 8, true) !== count || directoryAt + directoryBytes !== end)
    throw damaged('Its directory is not where its end record says.');

  const entries: (ZipEntry & { readonly from: number; readonly to: number })[] = [];
  let at = directoryAt;
  for (let number = 0; number < count; number += 1) {
    if (at + sizes.central > end || view.getUint32(at, true) !== signatures.central)
      throw damaged(`Entry ${number + 1} of its directory is broken.`);
    const flags = view.getUint16(at + 8, true);
    const method = view.getUint16(at + 10, true);
    const crc = view.getUint32(at + 16, true);
    const packedBytes = view.getUint32(at + 20, true);
    const byteLength = view.getUint32(at + 24, true);
    const nameBytes = view.getUint16(at + 28, true);
    const localAt = view.getUint32(at + 42, true);
    const next =
      at + sizes.central + nameBytes + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    if (next > end) throw damaged(`Entry ${number + 1} of its directory is broken.`);
    const name = nameAt(at + sizes.central, nameBytes, flags);
    if (flags & encryptedFlags) throw unsupported(`“${name}” is encrypted.`);
    if ([packedBytes, byteLength, localAt].includes(zip64.size))
      throw unsupported('It is in the ZIP64 format.');
    if (method !== methods.stored && method !== methods.deflated)
      throw unsupported(`“${name}” is packed by method ${method}.`);
    if (method === methods.stored && packedBytes !== byteLength)
      throw damaged(`“${name}” is stored in ${packedBytes} bytes but claims ${byteLength}.`);
    if (localAt + sizes.local > directoryAt || view.getUint32(localAt, true) !== signatures.local)
      throw damaged(`“${name}” is not where the directory says.`);
    const localNameBytes = view.getUint16(localAt + 26, true);
    const from = localAt + sizes.local + localNameBytes + view.getUint16(localAt + 28, true);
    if (from + packedBytes > directoryAt) throw damaged(`“${name}” reaches into the directory.`);
    if (nameAt(localAt + sizes.local, localNameBytes, view.getUint16(localAt + 6, true)) !== name)
      throw damaged(`“${name}” has another name where it is stored.`);
    const packed = bytes.subarray(from, from + packedBytes);
    entries.push({
      name,
      byteLength,
      from: localAt,
      to: from + packedBytes,
      read: () => unpack(packed, { name, method, byteLength, crc }),
    });
    at = next;
  }
  if (at !== end) throw damaged('Its directory is not as long as its end record says.');
  // Entries that share bytes are how a small archive comes to unpack to a huge one.
  const inOrder = [...entries].sort((one, other) => one.from - other.from);
  for (const [index, entry] of inOrder.slice(1).entries())
    if (entry.from < inOrder[index]!.to) throw damaged(`“${entry.name}” overlaps another entry.`);
  return entries;
};
