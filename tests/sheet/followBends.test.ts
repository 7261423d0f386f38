import { describe, expect, it } from 'vitest';
import { arcThrough } from '../../src/geometry/arc.ts';
import { type FollowedCounter, followLine } from '../../src/sheet/followLine.ts';
import { type DrawnPath, drawn } from './drawnLines.ts';
import { randomFrom } from './randomLinework.ts';

/** 10 mm in the room for each unit of paper. */
const options = { mmPerUnit: 10 };
type XY = readonly [number, number];

/** Points of an arc, its ends among them; y up, positive sweeps anticlockwise. */
const chords = ([x, y]: XY, radius: number, fromDeg: number, sweepDeg: number, count: number): XY[] =>
  Array.from({ length: count + 1 }, (_, place) => {
    const angle = ((fromDeg + (sweepDeg * place) / count) * Math.PI) / 180;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });

/** Each chord a path of its own, as many CAD programs plot arcs. */
const apart = (points: readonly XY[]): DrawnPath[] =>
  points.slice(1).map((to, place) => ({ points: [points[place]!, to] }));

const expectArc = (found: FollowedCounter, at: number, centre: XY, radius: number): void => {
  const [start, end, through] = [found.frontLine[at]!, found.frontLine[at + 1]!, found.bends[at]!];
  const arc = arcThrough(start, through, end)!;
  expect(arc.radius).toBeCloseTo(radius, 1);
  expect(arc.centre.x).toBeCloseTo(centre[0], 1);
  expect(arc.centre.y).toBeCloseTo(centre[1], 1);
};

describe('following a line round bends', () => {
  it.each([
    ['one path', (points: readonly XY[]): DrawnPath[] => [{ points }]],
    ['a path for each chord', apart],
  ])('takes a rounded corner of chords drawn as %s for an arc', (_, drawnAs) => {
    const front: XY[] = [[0, 300], ...chords([60, 60], 60, 180, 90, 12), [400, 0]];
    const found = followLine(drawn(drawnAs(front)), 0, options);
    expect(found.frontLine).toHaveLength(4);
    expect(found.bends.map((bend) => bend !== undefined)).toEqual([false, true, false]);
    expectArc(found, 1, [60, 60], 60);
    expect(found.arcs[0]).toMatchObject({ straight: 1 });
  });

  it('goes on round a corner that is drawn as a curve, and from the curve itself', () => {
    // A quarter of a circle as one cubic: handles of 4/3 tan(pi/8) radii, within 0.03 % of the circle.
    const k = 0.5522847498 * 60;
    const quarter = [0, 60, 0, 60 - k, 60 - k, 0, 60, 0];
    const sheet = drawn(
      [
        {
          points: [
            [0, 300],
            [0, 60],
          ],
        },
        {
          points: [
            [60, 0],
            [400, 0],
          ],
        },
      ],
      [{ points: quarter, path: 0 }],
    );
    for (const picked of [0, 1, sheet.linework.lineCount]) {
      const found = followLine(sheet, picked, options);
      expect(found.frontLine).toHaveLength(4);
      expectArc(found, 1, [60, 60], 60);
      const ends = [found.frontLine[0]!, found.frontLine[3]!].map(({ x, y }) => [x, y]);
      expect(ends.sort((a, b) => a[0]! - b[0]!)).toEqual([
        [0, 300],
        [400, 0],
      ]);
    }
  });

  it('takes a bow front for one arc and an S for two', () => {
    const bow = chords([0, -500], 600, 120, -60, 24);
    const one = followLine(drawn([{ points: bow }]), 3, options);
    expect(one.frontLine).toHaveLength(2);
    expectArc(one, 0, [0, -500], 600);
    const wave: XY[] = [...chords([0, 0], 200, 180, -90, 14), ...chords([0, 400], 200, 270, 70, 12).slice(1)];
    const two = followLine(drawn([{ points: wave }]), 2, options);
    expect(two.arcs).toHaveLength(2);
    expectArc(two, 0, [0, 0], 200);
    expectArc(two, 1, [0, 400], 200);
  });

  it('keeps corners corners: an octagon, a zigzag, two chords', () => {
    const octagon: XY[] = chords([0, 0], 200, 0, 180, 4);
    expect(followLine(drawn([{ points: octagon }]), 1, options)).toMatchObject({
      arcs: [],
      frontLine: { length: 5 },
    });
    const bevelled: XY[] = [
      [0, 300],
      [0, 60],
      [18, 18],
      [60, 0],
      [400, 0],
    ];
    expect(followLine(drawn([{ points: bevelled }]), 0, options).arcs).toEqual([]);
  });

  it('finds random rounded corners again, jittered as plots round them', () => {
    const random = randomFrom(21);
    let [found, all] = [0, 0];
    for (let round = 0; round < 300; round += 1) {
      const radius = 15 + random() * 200;
      const sweep = 30 + random() * 120;
      const count = Math.max(4, Math.ceil(sweep / (3 + random() * 10)));
      const arc = chords([0, 0], radius, 0, sweep, count);
      const [first, last] = [arc[0]!, arc.at(-1)!];
      const tangent = ((sweep + 90) * Math.PI) / 180;
      const line: XY[] = [
        [first[0], first[1] - 200],
        ...arc,
        [last[0] + 200 * Math.cos(tangent), last[1] + 200 * Math.sin(tangent)],
      ].map(([x = 0, y = 0]) => [x + (random() - 0.5) * 0.02, y + (random() - 0.5) * 0.02]);
      const offer = followLine(drawn([{ points: line }]), 0, options);
      all += 1;
      const [one] = offer.arcs;
      if (offer.arcs.length !== 1 || !one) continue;
      if (
        Math.abs(one.radius - radius) < 0.02 * radius &&
        Math.hypot(one.centre.x, one.centre.y) < 0.02 * radius
      )
        found += 1;
    }
    process.stdout.write(`rounded corners found again within 2 % of their radius: ${found} of ${all}\n`);
    expect(found).toBeGreaterThanOrEqual(0.97 * all);
  });
});

describe('following lines as drawings have them', () => {
  it('takes a broken line for one line and calls none of its gaps an opening', () => {
    const dashes: DrawnPath[] = Array.from({ length: 20 }, (_, place) => ({
      points: [
        [place * 20, 0],
        [place * 20 + 12, 0],
      ],
    }));
    const found = followLine(drawn(dashes), 4, options);
    expect(found.frontLine.map(({ x }) => x)).toEqual([0, 392]);
    expect(found.gaps).toEqual([]);
  });

  it('goes round a corner of a line that is drawn twice', () => {
    const bar: DrawnPath = {
      points: [
        [0, 200],
        [0, 0],
        [300, 0],
      ],
    };
    const found = followLine(drawn([bar, bar]), 0, options);
    expect(found.frontLine.map(({ x, y }) => [x, y])).toEqual([
      [0, 200],
      [0, 0],
      [300, 0],
    ]);
  });

  it('passes a line that meets it, and stops where it meets a line itself', () => {
    const sheet = drawn([
      {
        points: [
          [0, 0],
          [200, 0],
        ],
      },
      {
        points: [
          [200, 0],
          [400, 0],
        ],
      },
      {
        points: [
          [200, 0],
          [200, 90],
        ],
      },
      {
        points: [
          [400, -300],
          [400, 300],
        ],
      },
    ]);
    expect(followLine(sheet, 0, options).frontLine.map(({ x }) => x)).toEqual([0, 400]);
  });

  it('keeps to its own face of a wall of two lines', () => {
    const outer: DrawnPath = {
      points: [
        [0, 400],
        [0, 0],
        [500, 0],
      ],
    };
    const inner: DrawnPath = {
      points: [
        [10, 400],
        [10, 10],
        [500, 10],
      ],
    };
    const found = followLine(drawn([outer, inner]), 2, options);
    expect(found.frontLine.map(({ x, y }) => [x, y])).toEqual([
      [10, 400],
      [10, 10],
      [500, 10],
    ]);
  });
});
