import Flatbush from 'flatbush';
import type { Linework } from './linework.ts';

/**
 * The search tree over the boxes of all lines, then all curves, of a linework: a packed Hilbert R-tree (flatbush) as
 * one block of bytes, so that another thread can build it and hand it over. Null for a linework without items.
 */
export const buildLineworkTree = (linework: Linework): ArrayBuffer | null => {
  const { lines, lineCount, curves, curveCount } = linework;
  const itemCount = lineCount + curveCount;
  if (itemCount === 0) return null;
  const tree = new Flatbush(itemCount);
  for (let i = 0; i < lineCount * 4; i += 4) {
    const x0 = lines[i]!;
    const y0 = lines[i + 1]!;
    const x1 = lines[i + 2]!;
    const y1 = lines[i + 3]!;
    tree.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
  }
  for (let i = 0; i < curveCount * 8; i += 8) {
    const x0 = curves[i]!;
    const x1 = curves[i + 2]!;
    const x2 = curves[i + 4]!;
    const x3 = curves[i + 6]!;
    const y0 = curves[i + 1]!;
    const y1 = curves[i + 3]!;
    const y2 = curves[i + 5]!;
    const y3 = curves[i + 7]!;
    tree.add(
      Math.min(x0, x1, x2, x3),
      Math.min(y0, y1, y2, y3),
      Math.max(x0, x1, x2, x3),
      Math.max(y0, y1, y2, y3),
    );
  }
  tree.finish();
  return tree.data as ArrayBuffer;
};
