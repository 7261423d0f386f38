import { describe, expect, it } from 'vitest';
import { changedLinework } from '../../../src/sheet/registration/changedLinework.ts';
import { IDENTITY_SIMILARITY, similarityOf } from '../../../src/sheet/registration/similarity.ts';
import { seededRandom } from '../../fixtures/drawPlan/seededRandom.ts';
import { lineworkOf } from '../drawnLines.ts';
import { randomLinework } from '../randomLinework.ts';

type Points = readonly (readonly [number, number])[];
const drawnAs = (...paths: readonly Points[]) => lineworkOf(paths.map((points) => ({ points })));

const room: Points = [
  [100, 100],
  [400, 100],
  [400, 300],
  [100, 300],
  [100, 100],
];

describe('changed linework', () => {
  it('is nothing between a sheet and itself, however its lines are split', () => {
    const split: Points = [
      [100, 100],
      [180, 100],
      [400, 100],
      [400, 300],
      [100, 300],
      [100, 100],
    ];
    expect(changedLinework(drawnAs(room), drawnAs(split), IDENTITY_SIMILARITY, 0.5)).toEqual({
      gone: [],
      added: [],
      moved: [],
    });
    const dense = randomLinework(3, 20_000, 500);
    const { gone, added } = changedLinework(dense, dense, IDENTITY_SIMILARITY, 0.2);
    expect([gone, added]).toEqual([[], []]);
  });

  it('lays the old sheet over by the transform', () => {
    const half = room.map(([x, y]) => [20 - 0.5 * y, 10 + 0.5 * x] as const);
    const { gone, added } = changedLinework(
      drawnAs(room),
      drawnAs(half),
      similarityOf(0.5, Math.PI / 2, 20, 10),
      0.1,
    );
    expect([gone, added]).toEqual([[], []]);
  });

  it('is nothing between round things and their copies of another size, small ones too', () => {
    // A quarter circle as a Bezier curve: handles of 4/3 (sqrt 2 - 1) times the radius (general knowledge, from memory).
    const handle = (4 / 3) * (Math.SQRT2 - 1);
    const quarters = (size: number) =>
      Array.from({ length: 40 }, (_, index) => {
        const [x, y, radius] = [100 + index * 40, 200, 1 + index * 0.5];
        const points = [radius, 0, radius, radius * handle, radius * handle, radius, 0, radius].map(
          (offset, at) => ((at % 2 ? y : x) + offset) * size,
        );
        return { points, path: 0 };
      });
    const whole = lineworkOf([{ points: room }], quarters(1));
    for (const size of [0.5, 0.7, 1.4, 2]) {
      const copy = lineworkOf(
        [{ points: room.map(([x, y]) => [x * size, y * size] as const) }],
        quarters(size),
      );
      const changes = changedLinework(whole, copy, similarityOf(size, 0, 0, 0), 0.6);
      expect(changes, `at ${size}`).toEqual({ gone: [], added: [], moved: [] });
    }
  });

  it('tells a wall that moved as gone, added and moved, with its way', () => {
    const wallAt = (x: number): Points[] => [
      [
        [x, 100],
        [x, 290],
      ],
      [
        [x + 6, 100],
        [x + 6, 290],
      ],
    ];
    // Moved by its own thickness: one new face lies where the other was.
    for (const shift of [12, 6.9, 25]) {
      const { gone, added, moved } = changedLinework(
        drawnAs(room, ...wallAt(200)),
        drawnAs(room, ...wallAt(200 + shift)),
        IDENTITY_SIMILARITY,
        0.5,
      );
      expect([gone.length, added.length]).toEqual([2, 2]);
      expect(moved.map(({ vector }) => vector)).toEqual([
        { x: expect.closeTo(shift, 9), y: expect.closeTo(0, 9) },
        { x: expect.closeTo(shift, 9), y: expect.closeTo(0, 9) },
      ]);
    }
  });

  it('tells only the part of a line that is gone', () => {
    const door: readonly Points[] = [
      [
        [100, 200],
        [220, 200],
      ],
      [
        [260, 200],
        [400, 200],
      ],
    ];
    const whole: Points = [
      [100, 200],
      [400, 200],
    ];
    const { gone, added } = changedLinework(
      drawnAs(room, whole),
      drawnAs(room, ...door),
      IDENTITY_SIMILARITY,
      0.5,
    );
    expect(added).toEqual([]);
    expect(gone).toHaveLength(1);
    // The ends on either side cover a tolerance more.
    expect(gone[0]).toMatchObject({ x0: 220.5, y0: 200, x1: 259.5, y1: 200, item: 4 });
  });

  it('does not take a crossing for a cover', () => {
    const along: Points = [
      [100, 200],
      [400, 200],
    ];
    const across: Points = [
      [200, 50],
      [200, 350],
    ];
    const { gone, added } = changedLinework(drawnAs(along), drawnAs(across), IDENTITY_SIMILARITY, 0.5);
    expect([gone.length, added.length]).toEqual([1, 1]);
  });

  // The oracle is a plain comparison by sampling: every point of an old line, against every new line.
  it('agrees with sampling on random sheets', () => {
    const { unit } = seededRandom(8);
    for (let seed = 1; seed <= 5; seed++) {
      const old = randomLinework(seed, 160);
      const kept = Array.from({ length: 160 }, (_, line) => line).filter(() => unit() < 0.7);
      const next = lineworkOf(
        kept.map((line) => ({
          points: [
            [old.lines[line * 4]!, old.lines[line * 4 + 1]!],
            [old.lines[line * 4 + 2]!, old.lines[line * 4 + 3]!],
          ],
        })),
      );
      const { gone, added } = changedLinework(old, next, IDENTITY_SIMILARITY, 0.01);
      expect(added).toEqual([]);
      const lost = new Set(gone.map(({ item }) => item));
      expect([...lost].sort((p, q) => p - q)).toEqual(
        Array.from({ length: 160 }, (_, line) => line).filter((line) => !kept.includes(line)),
      );
    }
  });

  it('throws where the tolerance is no tolerance', () => {
    expect(() => changedLinework(drawnAs(room), drawnAs(room), IDENTITY_SIMILARITY, 0)).toThrow('tolerance');
  });
});
