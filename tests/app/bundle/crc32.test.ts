import { crc32 as platformCrc32 } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { crc32 } from '../../../src/app/bundle/crc32.ts';

describe('CRC-32', () => {
  it('has the check value of its catalogue entry', () => {
    // CRC-32/ISO-HDLC in the Catalogue of parametrised CRC algorithms (reveng): check = 0xcbf43926. From memory.
    expect(crc32(new TextEncoder().encode('123456789'))).toBe(0xcbf43926);
    expect(crc32(new Uint8Array())).toBe(0);
  });

  it('is what zlib computes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 3000 }), (bytes) => {
        expect(crc32(bytes)).toBe(platformCrc32(bytes));
      }),
      { seed: 32 },
    );
  });
});
