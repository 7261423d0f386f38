import { describe, expect, it } from 'vitest';
import { sideDoorwayPlan, turnPlan } from '../../src/access/turnPlan.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { canMove, type Wall } from '../oracles/freeMotion.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const SEED = 41_107;
const FAR = 40_000;

/** Half-plane behind a straight wall through a point, as a large square; the normal points into the room. */
const halfPlane = (px: number, py: number, nx: number, ny: number): Wall => ({
  points: [
    [px - FAR * ny, py + FAR * nx],
    [px + FAR * ny, py - FAR * nx],
    [px + FAR * ny - FAR * nx, py - FAR * nx - FAR * ny],
    [px - FAR * ny - FAR * nx, py + FAR * nx - FAR * ny],
  ],
});

const sideDoorwayMoves = (c: number, d: number, wall: number, long: number, short: number): boolean => {
  const reach = Math.max(long, 1200) * 1.1;
  return canMove({
    walls: [
      halfPlane(0, 0, 0, 1),
      {
        points: [
          [-FAR, c],
          [0, c],
          [0, c + wall],
          [-FAR, c + wall],
        ],
      },
      {
        points: [
          [d, c],
          [FAR, c],
          [FAR, c + wall],
          [d, c + wall],
        ],
      },
    ],
    long,
    short,
    bounds: { x: [-reach, d + reach], y: [0, c + wall + long / 2 + 200] },
    step: 20,
    angleSteps: 240,
    start: { x: -long / 2 - 40, y: Math.max(short / 2 + 1, c / 2), angle: 0 },
    isThere: (_x, y, _halfX, halfY) => y - halfY >= c + wall,
  });
};

const turnMoves = (a: number, b: number, turnRad: number, long: number, short: number): boolean => {
  const alpha = Math.PI - turnRad;
  const second = { x: Math.cos(alpha), y: Math.sin(alpha) };
  const into = { x: second.y, y: -second.x };
  const inner = { x: (b - a * into.y) / into.x, y: a };
  const innerAlong = inner.x * second.x + inner.y * second.y;
  const room = long * 1.2 + 300;
  const endX = Math.max(0, inner.x) + room;
  const endAlong = Math.max(0, innerAlong) + room;
  return canMove({
    walls: [
      halfPlane(0, 0, 0, 1),
      halfPlane(0, 0, into.x, into.y),
      {
        points: [
          [inner.x, inner.y],
          [inner.x + FAR, inner.y],
          [inner.x + FAR * second.x, inner.y + FAR * second.y],
        ],
      },
    ],
    long,
    short,
    bounds: {
      x: [Math.min(0, endAlong * second.x), Math.max(endX, endAlong * second.x + b)],
      y: [0, Math.max(a, endAlong * second.y + b)],
    },
    step: 25,
    angleSteps: 240,
    start: { x: endX - long / 2, y: a / 2, angle: 0 },
    isThere: (x, y, halfX, halfY) =>
      x * second.x + y * second.y - Math.hypot(halfX, halfY) >= Math.max(0, innerAlong),
  });
};

describe('moving among walls against a search of positions and angles', () => {
  it('gets through a doorway in the side of a passage when, and only when, the search does', () => {
    const random = seededRandom(SEED);
    const between = (low: number, high: number): number => low + random.next() * (high - low);
    const count = campaignSize({ sample: 10, full: 800 });
    const failures: string[] = [];
    for (let index = 0; index < count; index += 1) {
      const c = between(900, 1600);
      const d = between(750, 1300);
      const wall = between(80, 450);
      const short = between(0.25, 0.92) * Math.min(c, d);
      const limit = sideDoorwayPlan({ passageMm: c, doorMm: d, wallMm: wall }, 2000).limit(short);
      const what = `seed ${SEED} case ${index}: passage ${c} door ${d} wall ${wall} width ${short} -> ${limit.longestMm} ${limit.manner}`;
      if (!sideDoorwayMoves(c, d, wall, limit.longestMm * 0.96 - 20, short - 20))
        failures.push(`${what}: smaller is stopped`);
      if (sideDoorwayMoves(c, d, wall, limit.longestMm * 1.04 + 20, short + 20))
        failures.push(`${what}: larger passes`);
    }
    expect(failures).toEqual([]);
  }, 900_000);

  it('gets round a turn of up to 90 degrees when, and only when, the search does', () => {
    const random = seededRandom(SEED + 1);
    const between = (low: number, high: number): number => low + random.next() * (high - low);
    const count = campaignSize({ sample: 6, full: 300 });
    const failures: string[] = [];
    for (let index = 0; index < count; index += 1) {
      const a = between(900, 1600);
      const b = between(900, 1600);
      const turnRad = (between(35, 90) * Math.PI) / 180;
      const short = between(0.4, 0.92) * Math.min(a, b);
      const limit = turnPlan({ fromMm: a, toMm: b, heightMm: 2000, turnRad }).limit(short);
      // Where the width is the longer side, the search would start across the passage.
      if (limit.longestMm < short + 100) continue;
      const what = `seed ${SEED + 1} case ${index}: ${a} ${b} ${(turnRad * 180) / Math.PI} width ${short} -> ${limit.longestMm} ${limit.manner}`;
      if (!turnMoves(a, b, turnRad, limit.longestMm * 0.96 - 20, short - 20))
        failures.push(`${what}: smaller is stopped`);
      if (turnMoves(a, b, turnRad, limit.longestMm * 1.04 + 20, short + 20))
        failures.push(`${what}: larger passes`);
    }
    expect(failures).toEqual([]);
  }, 900_000);
});
