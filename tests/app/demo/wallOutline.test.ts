import { describe, expect, it } from 'vitest';
import { wallBoxes, walls } from '../../../src/app/demo/demoVenue.ts';
import { type Box, type Segment, wallHatching, wallOutline } from '../../../src/app/demo/wallOutline.ts';

const box = (x0: number, y0: number, x1: number, y1: number): Box => ({ x0, y0, x1, y1 });
const length = ([[ax, ay], [bx, by]]: Segment): number => Math.hypot(bx - ax, by - ay);
const total = (segments: readonly Segment[]): number =>
  segments.reduce((sum, segment) => sum + length(segment), 0);

describe('the outline of walls', () => {
  it('draws no line where two walls meet', () => {
    // An L of two boxes has six sides; the perimeter of an L is that of its bounding box.
    const outline = wallOutline([box(0, 0, 100, 20), box(0, 0, 20, 100)]);
    expect(outline).toHaveLength(6);
    expect(total(outline)).toBe(400);
  });

  it('joins walls end to end into one', () => {
    expect(wallOutline([box(0, 0, 50, 10), box(50, 0, 100, 10)])).toHaveLength(4);
  });

  it('closes: as many sides end at each corner as turn there', () => {
    const ends = new Map<string, number>();
    for (const segment of wallOutline(walls.flatMap(wallBoxes)))
      for (const [x, y] of segment) ends.set(`${x} ${y}`, (ends.get(`${x} ${y}`) ?? 0) + 1);
    expect([...ends.values()].every((count) => count % 2 === 0)).toBe(true);
    expect(ends.size).toBeGreaterThan(100);
  });
});

describe('the hatching of walls', () => {
  it('covers an area in proportion to its length: length times spacing is the area (Cavalieri)', () => {
    const overlapping = [box(0, 0, 1_000, 120), box(0, 0, 120, 800)];
    const area = 1_000 * 120 + 120 * 800 - 120 * 120;
    expect((total(wallHatching(overlapping, 2)) * 2) / area).toBeCloseTo(1, 2);
  });

  it('keeps inside the walls', () => {
    for (const [[ax, ay], [bx, by]] of wallHatching([box(10, 20, 110, 60)], 7)) {
      expect(Math.min(ax, bx)).toBeGreaterThanOrEqual(10);
      expect(Math.max(ax, bx)).toBeLessThanOrEqual(110);
      expect(Math.min(ay, by)).toBeGreaterThanOrEqual(20 - 1e-9);
      expect(Math.max(ay, by)).toBeLessThanOrEqual(60 + 1e-9);
    }
  });
});
