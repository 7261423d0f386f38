import { describe, expect, it } from 'vitest';
import type { SnapKind } from '../../src/sheet/findSnaps.ts';
import type { Linework } from '../../src/sheet/linework.ts';
import { createLineworkBuilder } from '../../src/sheet/lineworkBuilder.ts';
import { createLineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { randomFrom, randomLinework } from './randomLinework.ts';

const style = { flags: 1, width: 1, stroke: 0, fill: 0, layer: 0 };

const linework = (...lines: readonly (readonly [number, number, number, number])[]): Linework => {
  const builder = createLineworkBuilder();
  for (const line of lines) {
    builder.startPath(style);
    builder.addLine(...line);
  }
  return builder.finish();
};

const best = (drawn: Linework, x: number, y: number, radius = 5): string => {
  const found = createLineworkIndex(drawn).snapCandidates({ x, y }, radius)[0];
  return found ? `${found.kind} ${found.point.x.toFixed(2)} ${found.point.y.toFixed(2)}` : 'nothing';
};

describe('snapping to linework', () => {
  const cross = linework([0, 0, 100, 0], [50, -40, 50, 60]);

  it('holds on to ends, crossings, middles and bare lines', () => {
    expect(best(cross, 1, 2)).toBe('end 0.00 0.00');
    expect(best(cross, 48, 2)).toBe('crossing 50.00 0.00');
    expect(best(cross, 51, 11)).toBe('middle 50.00 10.00');
    expect(best(cross, 20, 3)).toBe('on-line 20.00 0.00');
    expect(best(cross, 20, 30)).toBe('nothing');
  });

  it('prefers an end to the line it is on, even a little farther away', () => {
    expect(best(cross, 3, 0.1)).toBe('end 0.00 0.00');
  });

  it('finds nothing on an empty sheet', () => {
    expect(best(linework(), 0, 0)).toBe('nothing');
  });

  it('holds on to curves by their ends and their nearest point', () => {
    const builder = createLineworkBuilder();
    builder.startPath(style);
    // A quarter of the unit circle's usual cubic (0.5523 of the radius), radius 100.
    builder.addCurve([100, 0, 100, 55.23, 55.23, 100, 0, 100]);
    const drawn = builder.finish();
    expect(best(drawn, 101, 1)).toBe('end 100.00 0.00');
    const [found] = createLineworkIndex(drawn).snapCandidates({ x: 90, y: 50 }, 8);
    expect(Math.hypot(found!.point.x, found!.point.y)).toBeCloseTo(100, 0);
  });

  it('agrees with a search of every line on random sheets', () => {
    const rounds = campaignSize({ sample: 30, full: 1000 });
    const drawn = randomLinework(11, 3000);
    const index = createLineworkIndex(drawn);
    const random = randomFrom(12);
    for (let round = 0; round < rounds; round++) {
      const x = random() * 2384;
      const y = random() * 1684;
      const found = index.snapCandidates({ x, y }, 12);
      expect(nearestOfKind(found, 'end'), `ends at ${x}, ${y}`).toBeCloseTo(nearestEnd(drawn, x, y, 12), 6);
      const crossing = nearestCrossing(drawn, x, y, 12);
      // A crossing within a thousandth of an end is reported as that end.
      if (crossing < 11.99)
        expect(Math.min(nearestOfKind(found, 'crossing'), nearestOfKind(found, 'end'))).toBeLessThan(
          crossing + 2e-3,
        );
    }
  });
});

describe('parallel lines', () => {
  it('lists those beside a line, nearest first, with the side', () => {
    const drawn = linework(
      [0, 0, 100, 0],
      [10, 7, 90, 7],
      [20, -3, 60, -3],
      [0, 2, 100, 30],
      [200, 1, 300, 1],
      [0, 50, 9, 50],
    );
    const found = createLineworkIndex(drawn).parallelLines(0, 20);
    expect(found.map(({ line, offset }) => [line, offset])).toEqual([
      [2, -3],
      [1, 7],
    ]);
  });
});

const nearestOfKind = (found: readonly { kind: SnapKind; distance: number }[], kind: SnapKind): number =>
  Math.min(Infinity, ...found.filter((item) => item.kind === kind).map(({ distance }) => distance));

const nearestEnd = ({ lines }: Linework, x: number, y: number, radius: number): number => {
  let nearest = Infinity;
  for (let i = 0; i < lines.length; i += 2)
    nearest = Math.min(nearest, Math.hypot(lines[i]! - x, lines[i + 1]! - y));
  return nearest <= radius ? nearest : Infinity;
};

const nearestCrossing = ({ lines, lineCount }: Linework, x: number, y: number, radius: number): number => {
  const near: number[] = [];
  for (let i = 0; i < lineCount; i++) {
    const [x0, y0, x1, y1] = lines.subarray(i * 4, i * 4 + 4) as unknown as [number, number, number, number];
    const isNear =
      Math.min(x0, x1) < x + radius &&
      Math.max(x0, x1) > x - radius &&
      Math.min(y0, y1) < y + radius &&
      Math.max(y0, y1) > y - radius;
    if (isNear) near.push(i);
  }
  let nearest = Infinity;
  for (const a of near) {
    for (const b of near) {
      if (b <= a) continue;
      const [ax, ay, bx, by] = lines.subarray(a * 4, a * 4 + 4) as unknown as [
        number,
        number,
        number,
        number,
      ];
      const [cx, cy, dx, dy] = lines.subarray(b * 4, b * 4 + 4) as unknown as [
        number,
        number,
        number,
        number,
      ];
      const det = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx);
      if (det === 0) continue;
      const t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / det;
      const s = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / det;
      if (t < 0 || t > 1 || s < 0 || s > 1) continue;
      nearest = Math.min(nearest, Math.hypot(ax + t * (bx - ax) - x, ay + t * (by - ay) - y));
    }
  }
  return nearest <= radius ? nearest : Infinity;
};
