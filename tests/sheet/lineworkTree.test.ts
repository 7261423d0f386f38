import { describe, expect, it } from 'vitest';
import { EMPTY_LINEWORK } from '../../src/sheet/linework.ts';
import { createLineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import { buildLineworkTree } from '../../src/sheet/lineworkTree.ts';
import { randomFrom, randomLinework } from './randomLinework.ts';

describe('a search tree that was built elsewhere', () => {
  it('finds what looking through every line finds', () => {
    const linework = randomLinework(7, 2000, 100);
    const tree = buildLineworkTree(linework);
    // As over the wire between threads: the same bytes, in another block.
    const index = createLineworkIndex(linework, structuredClone(tree));
    const random = randomFrom(11);
    for (let query = 0; query < 60; query += 1) {
      const [minX, minY] = [random() * 2384, random() * 1684];
      const box = { minX, minY, maxX: minX + 40, maxY: minY + 30 };
      const expected: number[] = [];
      for (let item = 0; item < linework.lineCount + linework.curveCount; item += 1) {
        const isLine = item < linework.lineCount;
        const [array, at, size] = isLine
          ? [linework.lines, item * 4, 4]
          : [linework.curves, (item - linework.lineCount) * 8, 8];
        const xs = [...array.subarray(at, at + size)].filter((_, place) => place % 2 === 0);
        const ys = [...array.subarray(at, at + size)].filter((_, place) => place % 2 === 1);
        const isOutside =
          Math.max(...xs) < box.minX ||
          Math.min(...xs) > box.maxX ||
          Math.max(...ys) < box.minY ||
          Math.min(...ys) > box.maxY;
        if (!isOutside) expected.push(item);
      }
      expect([...index.itemsIn(box)].sort((a, b) => a - b)).toEqual(expected);
    }
  });

  it('is none for a sheet without lines', () => {
    expect(buildLineworkTree(EMPTY_LINEWORK)).toBeNull();
    expect(createLineworkIndex(EMPTY_LINEWORK, null).itemsIn({ minX: 0, minY: 0, maxX: 9, maxY: 9 })).toEqual(
      [],
    );
  });
});
