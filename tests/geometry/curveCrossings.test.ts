import Flatten from '@flatten-js/core';
import { expect, it } from 'vitest';
import { type Curve, curveCrossings } from '../../src/geometry/curveCrossings.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const seed = 5_317;
const toleranceMm = 1e-3;

/** A line through a point at an angle, or a circle, as ours and as the library's. */
const drawn = (random: ReturnType<typeof seededRandom>): readonly [Curve, Flatten.Line | Flatten.Circle] => {
  const at = { x: random.next() * 6000, y: random.next() * 6000 };
  if (random.chance(0.5)) {
    const radius = 300 + random.next() * 3000;
    return [{ centre: at, radius }, new Flatten.Circle(new Flatten.Point(at.x, at.y), radius)];
  }
  const angle = random.next() * 2 * Math.PI;
  const along = { x: Math.cos(angle), y: Math.sin(angle) };
  // The library's line has a normal, not a direction.
  return [
    { at, along },
    new Flatten.Line(new Flatten.Point(at.x, at.y), new Flatten.Vector(-along.y, along.x)),
  ];
};

it('lines and circles cross where a general geometry library (flatten-js) has them cross', () => {
  const random = seededRandom(seed);
  let crossed = 0;
  for (let round = 0; round < campaignSize({ sample: 300, full: 20_000 }); round += 1) {
    const [[one, oracleOne], [other, oracleOther]] = [drawn(random), drawn(random)];
    const expected = (oracleOne as Flatten.Circle).intersect(oracleOther);
    const found = curveCrossings(one, other);
    expect(found.length, `seed ${seed} round ${round}`).toBe(expected.length);
    for (const { x, y } of expected) {
      const nearest = Math.min(...found.map((point) => Math.hypot(point.x - x, point.y - y)));
      expect(nearest, `seed ${seed} round ${round}`).toBeLessThan(toleranceMm);
    }
    crossed += found.length;
  }
  expect(crossed).toBeGreaterThan(100);
});

it('a line parallel to another, circles inside one another or about one centre, and points cross nothing', () => {
  const across = { x: 1, y: 0 };
  expect(
    curveCrossings({ at: { x: 0, y: 0 }, along: across }, { at: { x: 5, y: 1 }, along: across }),
  ).toEqual([]);
  const circle = (x: number, radius: number): Curve => ({ centre: { x, y: 0 }, radius });
  expect(curveCrossings(circle(0, 10), circle(1, 2))).toEqual([]);
  expect(curveCrossings(circle(0, 10), circle(0, 10))).toEqual([]);
  expect(curveCrossings(circle(0, 10), circle(30, 5))).toEqual([]);
  expect(curveCrossings({ at: { x: 0, y: 0 }, along: across }, circle(0, 0))).toEqual([]);
});
