import { describe, expect, it } from 'vitest';
import { EMPTY_LINEWORK } from '../../src/sheet/linework.ts';
import { decodeLinework, encodeLinework } from '../../src/sheet/lineworkWire.ts';
import { randomLinework } from './randomLinework.ts';

describe('linework on the wire', () => {
  it('comes back as it went, from an aligned block and from the middle of another', () => {
    for (const linework of [randomLinework(1, 321, 17), randomLinework(2, 1), EMPTY_LINEWORK]) {
      const block = encodeLinework(linework);
      expect(decodeLinework(block)).toEqual(linework);
      const shifted = new Uint8Array(block.length + 3);
      shifted.set(block, 3);
      expect(decodeLinework(shifted.subarray(3))).toEqual(linework);
    }
  });

  it('refuses what is not linework, and a block that is cut short', () => {
    const block = encodeLinework(randomLinework(3, 10));
    expect(() => decodeLinework(block.subarray(0, 10))).toThrow(/no header/);
    expect(() => decodeLinework(block.slice(0, block.length - 1))).toThrow(/when expected/);
    expect(() => decodeLinework(new Uint8Array(64))).toThrow(/Not linework/);
  });
});
