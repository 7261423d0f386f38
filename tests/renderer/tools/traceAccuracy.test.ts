import { describe, expect, it } from 'vitest';
import { dimensionTool } from '../../../renderer/tools/dimensionTool.ts';
import { traceTool } from '../../../renderer/tools/traceTool.ts';
import { intersectLines } from '../../../src/geometry/line.ts';
import type { Point } from '../../../src/geometry/point.ts';
import { type Vector, vectorBetween } from '../../../src/geometry/vector.ts';
import { runAsTraced } from '../../../src/measure/runAsTraced.ts';
import { straightsOf } from '../../../src/measure/straights.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { drawn } from '../../sheet/drawnLines.ts';
import { randomFrom } from '../../sheet/randomLinework.ts';
import { toolBoard } from './toolBoard.ts';

/**
 * Random traces of counters whose lengths are known, on drawings as they come: a drawn line may lie anywhere across its
 * own width (0.18 mm, a pen of ISO 128), and the hand is a pixel out to either side. The scale is picked on the same
 * drawing. Each straight must be right within its own +/- in at least 95 of 100 cases, which is what k = 2 promises for
 * near-normal errors (JCGM 100:2008, 6.3.3); and the +/- must not be padded: the mean of error over +/- is printed, and
 * is 0.40 for a normal error with k = 2 (mean deviation sqrt(2/pi) sigma, over 2 sigma).
 */
const traces = campaignSize({ sample: 120, full: 500 });
const penMm = 0.18;
const pointsPerMm = 72 / 25.4;

interface Straight {
  readonly trueMm: number;
  readonly foundMm: number;
  readonly plusMinusMm: number;
}

const traced = (
  seed: number,
  mode: 'caught' | 'free',
  corners: 'square' | 'splayed',
): readonly Straight[] => {
  const random = randomFrom(seed);
  for (let warm = 0; warm < 8; warm += 1) random();
  const between = (from: number, to: number) => from + (to - from) * random();
  const ratio = [20, 25, 50, 75, 100, 79.9][Math.floor(random() * 6)]!;
  const mmPerPoint = ratio / pointsPerMm;
  const pxPerUnit = Math.exp(between(Math.log(0.6), Math.log(6)));
  const turn = random() < 0.5 ? 0 : between(-1, 1);
  const place = (xMm: number, yMm: number): Point => ({
    x: 400 + (xMm * Math.cos(turn) - yMm * Math.sin(turn)) / mmPerPoint,
    y: 400 + (xMm * Math.sin(turn) + yMm * Math.cos(turn)) / mmPerPoint,
  });
  const aside = () => between(-penMm / 2, penMm / 2) * pointsPerMm;

  // The counter in the room: two to four points, corners at right angles or splayed.
  const room: { x: number; y: number }[] = [{ x: 0, y: 0 }];
  let direction = 0;
  const straights = 1 + Math.floor(random() * 3);
  for (let at = 0; at < straights; at += 1) {
    const length = Math.round(between(1500, 9000));
    const from = room[at]!;
    room.push({ x: from.x + length * Math.cos(direction), y: from.y + length * Math.sin(direction) });
    direction += corners === 'square' ? Math.PI / 2 : between(0.5, 1.2);
  }
  const paper = room.map(({ x, y }) => place(x, y));
  // As drawn: each line lies somewhere across its width, so that corners and ends do as well.
  const lines = paper.slice(1).map((end, at) => {
    const start = paper[at]!;
    const way = vectorBetween(start, end);
    const size = Math.hypot(way.x, way.y);
    const along: Vector = { x: way.x / size, y: way.y / size };
    const by = aside();
    return { through: { x: start.x - along.y * by, y: start.y + along.x * by }, along, size };
  });
  const onLine = (line: (typeof lines)[number], distance: number): Point => ({
    x: line.through.x + line.along.x * distance,
    y: line.through.y + line.along.y * distance,
  });
  const first = lines[0]!;
  const last = lines.at(-1)!;
  const drawnPoints: readonly Point[] = [
    onLine(first, aside()),
    ...lines.slice(1).map((line, at) => {
      const before = lines[at]!;
      return intersectLines(before.through, before.along, line.through, line.along)!;
    }),
    onLine(last, last.size + aside()),
  ];
  // Two long dimensions, square to one another, each drawn as a line from end to end.
  const reference = (xMm: number, yMm: number, lengthMm: number, isUpright: boolean) => {
    const [a, b] = [place(xMm, yMm), isUpright ? place(xMm, yMm + lengthMm) : place(xMm + lengthMm, yMm)];
    const way = {
      x: (b.x - a.x) / Math.hypot(b.x - a.x, b.y - a.y),
      y: (b.y - a.y) / Math.hypot(b.x - a.x, b.y - a.y),
    };
    const moved = (point: Point, by: number): readonly [number, number] => [
      point.x + way.x * by,
      point.y + way.y * by,
    ];
    return { lengthMm, a: moved(a, aside()), b: moved(b, aside()) };
  };
  const references = [
    reference(-3000, -4000, Math.round(between(8000, 24_000)), false),
    reference(-5000, -3000, Math.round(between(6000, 15_000)), true),
  ];
  const index = drawn([
    { points: drawnPoints.map(({ x, y }) => [x, y] as const) },
    ...references.map(({ a, b }) => ({ points: [a, b] })),
  ]);

  // A hand that is caught may be a few pixels out; one that is not, a pixel.
  const jitterPx = mode === 'caught' ? 3 : 1;
  const jitter = () => between(-jitterPx, jitterPx) / pxPerUnit;
  const keys = { alt: mode === 'free' };
  const board = toolBoard({ index, scale: 'picked', pxPerUnit });
  for (const { a, b, lengthMm } of references) {
    board.take(dimensionTool);
    for (const [x, y] of [a, b]) board.pick(x + jitter(), y + jitter(), keys);
    board.type(String(lengthMm));
  }
  board.take(traceTool);
  for (const { x, y } of drawnPoints) board.pick(x + jitter(), y + jitter(), keys);
  board.confirm().act('left');
  const scale = board.scale();
  if (!scale) throw new Error('no scale was picked');
  return straightsOf(runAsTraced(board.run()), scale).map(({ lengthMm, plusMinusMm }, at) => ({
    trueMm: Math.hypot(room[at + 1]!.x - room[at]!.x, room[at + 1]!.y - room[at]!.y),
    foundMm: lengthMm,
    plusMinusMm,
  }));
};

describe('traced lengths', () => {
  it.each([
    ['caught', 'square'],
    ['free', 'square'],
    ['caught', 'splayed'],
    ['free', 'splayed'],
  ] as const)('are right within their +/- when picks are %s and corners %s', (mode, corners) => {
    const misses: string[] = [];
    let count = 0;
    let ratios = 0;
    for (let seed = 1; seed <= traces; seed += 1)
      for (const { trueMm, foundMm, plusMinusMm } of traced(seed * 7919, mode, corners)) {
        const ratio = Math.abs(foundMm - trueMm) / plusMinusMm;
        count += 1;
        ratios += ratio;
        if (ratio > 1)
          misses.push(`seed ${seed * 7919}: ${(foundMm - trueMm).toFixed(1)} of ±${plusMinusMm.toFixed(1)}`);
      }
    const share = 1 - misses.length / count;
    process.stdout.write(
      `picks ${mode}, corners ${corners}: ${count} straights of ${traces} traces, ${(share * 100).toFixed(1)} % within their +/-, ` +
        `mean error over +/- ${(ratios / count).toFixed(2)}${misses.length ? `; ${misses.slice(0, 5).join('; ')}` : ''}\n`,
    );
    expect(share).toBeGreaterThanOrEqual(0.95);
    expect(ratios / count).toBeGreaterThan(0.25);
  });
});
