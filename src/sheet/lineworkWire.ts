import type { Linework } from './linework.ts';

/** "FRLW" and a version, so that a stale cache or another file is refused and not drawn. */
const MAGIC = 0x574c5246;
const VERSION = 1;
const HEADER_BYTES = 24;

/** Bytes that {@link decodeLinework} needs for these counts: eight-byte arrays first, so that all are aligned. */
const byteLengthOf = (lineCount: number, curveCount: number, pathCount: number): number =>
  HEADER_BYTES + lineCount * 36 + curveCount * 68 + pathCount * 15;

/**
 * Linework as one block of bytes, for the way from the host to the window. Little-endian, as every platform here is.
 * See {@link decodeLinework}.
 */
export const encodeLinework = (linework: Linework): Uint8Array => {
  const { lineCount, curveCount, pathCount } = linework;
  const bytes = new Uint8Array(byteLengthOf(lineCount, curveCount, pathCount));
  new Uint32Array(bytes.buffer, 0, 5).set([MAGIC, VERSION, lineCount, curveCount, pathCount]);
  let at = HEADER_BYTES;
  for (const array of arraysOf(linework)) {
    bytes.set(new Uint8Array(array.buffer, array.byteOffset, array.byteLength), at);
    at += array.byteLength;
  }
  return bytes;
};

/**
 * The linework in a block of bytes made by {@link encodeLinework}; views into the block where it is aligned, no copy.
 *
 * @throws where the block is not linework or is cut short: the wire is ours, so that is a broken invariant.
 */
export const decodeLinework = (block: Uint8Array): Linework => {
  const bytes = block.byteOffset % 8 === 0 ? block : block.slice();
  if (bytes.byteLength < HEADER_BYTES)
    throw new Error(`Linework of ${bytes.byteLength} bytes has no header.`);
  const [magic, version, lineCount = 0, curveCount = 0, pathCount = 0] = new Uint32Array(
    bytes.buffer,
    bytes.byteOffset,
    5,
  );
  if (magic !== MAGIC || version !== VERSION) {
    throw new Error(`Not linework of version ${VERSION}: found ${magic}, ${version}.`);
  }
  const expected = byteLengthOf(lineCount, curveCount, pathCount);
  if (bytes.byteLength !== expected) {
    throw new Error(`Linework has ${bytes.byteLength} bytes when expected ${expected}.`);
  }
  let at = bytes.byteOffset + HEADER_BYTES;
  const take = (byteLength: number): number => {
    const start = at;
    at += byteLength;
    return start;
  };
  const { buffer } = bytes;
  return {
    lineCount,
    curveCount,
    pathCount,
    lines: new Float64Array(buffer, take(lineCount * 32), lineCount * 4),
    curves: new Float64Array(buffer, take(curveCount * 64), curveCount * 8),
    linePath: new Uint32Array(buffer, take(lineCount * 4), lineCount),
    curvePath: new Uint32Array(buffer, take(curveCount * 4), curveCount),
    pathWidth: new Float32Array(buffer, take(pathCount * 4), pathCount),
    pathStroke: new Uint32Array(buffer, take(pathCount * 4), pathCount),
    pathFill: new Uint32Array(buffer, take(pathCount * 4), pathCount),
    pathLayer: new Uint16Array(buffer, take(pathCount * 2), pathCount),
    pathFlags: new Uint8Array(buffer, take(pathCount), pathCount),
  };
};

const arraysOf = (linework: Linework) => [
  linework.lines,
  linework.curves,
  linework.linePath,
  linework.curvePath,
  linework.pathWidth,
  linework.pathStroke,
  linework.pathFill,
  linework.pathLayer,
  linework.pathFlags,
];
