import { describe, expect, it } from 'vitest';
import { rectangleBeside } from '../../src/geometry/segmentRectangle.ts';

const at = (x: number, y: number) => ({ x, y });

describe('a rectangle beside a segment', () => {
  it('has the segment as its front and lies on the left, or on the right for a negative depth', () => {
    const front = { start: at(0, 0), end: at(3, 0) };
    expect(rectangleBeside(front, 2)).toEqual([at(0, 0), at(3, 0), at(3, 2), at(0, 2)]);
    expect(rectangleBeside(front, -2)).toEqual([at(0, 0), at(3, 0), at(3, -2), at(0, -2)]);
    expect(rectangleBeside({ start: at(1, 1), end: at(1, 1) }, 2)).toBeUndefined();
  });
});
