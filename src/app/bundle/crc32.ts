/** The reversed polynomial of CRC-32 as ZIP has it (PKWARE APPNOTE 4.4.7; ISO-HDLC). */
const polynomial = 0xedb88320;

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? (value >>> 1) ^ polynomial : value >>> 1;
  return value >>> 0;
});

/**
 * The CRC-32 of bytes, which finds every change of one bit; unsigned.
 *
 * @example crc32(utf8('123456789')) // 0xcbf43926
 */
export const crc32 = (bytes: Uint8Array): number => {
  let value = 0xffffffff;
  for (const byte of bytes) value = (table[(value ^ byte) & 0xff] ?? 0) ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
};
