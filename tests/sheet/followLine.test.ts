import { existsSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { demoPlanTruth } from '../../src/app/demo/demoPlanTruth.ts';
import { drawDemoPlan } from '../../src/app/demo/drawDemoPlan.ts';
import { paperPointAt } from '../../src/measure/runPosition.ts';
import { mmPerUserUnit } from '../../src/measure/tracedRun.ts';
import type { FollowedCounter } from '../../src/sheet/followLine.ts';
import { followLine } from '../../src/sheet/followLine.ts';
import { createLineworkIndex, type LineworkIndex } from '../../src/sheet/lineworkIndex.ts';
import { drawn } from './drawnLines.ts';
import { readFirstPage } from './readPdfContent.ts';

/** 10 mm in the room for each unit of paper. */
const options = { mmPerUnit: 10 };
const rounded = (followed: FollowedCounter) => followed.frontLine.map(({ x, y }) => [x, y]);

describe('following a line of hand-drawn counters', () => {
  it('takes a rectangle as a straight counter, exposed at both ends', () => {
    const island = drawn([
      {
        points: [
          [0, 0],
          [300, 0],
          [300, 70],
          [0, 70],
          [0, 0],
        ],
      },
    ]);
    const followed = followLine(island, 0, options);
    expect(rounded(followed)).toEqual([
      [0, 0],
      [300, 0],
    ]);
    expect(followed).toMatchObject({
      back: { side: 'left', offset: 70 },
      ends: ['exposed', 'exposed'],
      gaps: [],
      blocked: [],
    });
  });

  it('goes round the corner of an L, outside and inside', () => {
    const bar = drawn([
      {
        points: [
          [0, 200],
          [0, 0],
          [300, 0],
          [300, 70],
          [70, 70],
          [70, 200],
          [0, 200],
        ],
      },
    ]);
    expect(rounded(followLine(bar, 1, options))).toEqual([
      [0, 200],
      [0, 0],
      [300, 0],
    ]);
    expect(followLine(bar, 1, options).back?.side).toBe('left');
    // From the inside: the other face of the same counter.
    const inner = followLine(bar, 3, options);
    expect(rounded(inner)).toEqual([
      [300, 70],
      [70, 70],
      [70, 200],
    ]);
    expect(inner.back?.side).toBe('left');
  });

  it('goes along units that are drawn side by side', () => {
    const units = drawn(
      [0, 60, 120, 210].map((x) => ({
        points: [
          [x, 0],
          [x + (x === 120 ? 90 : 60), 0],
          [x + (x === 120 ? 90 : 60), 60],
          [x, 60],
          [x, 0],
        ] as const,
      })),
    );
    expect(rounded(followLine(units, 0, options))).toEqual([
      [0, 0],
      [270, 0],
    ]);
    expect(followLine(units, 0, options).back).toEqual({ side: 'left', offset: 60 });
  });

  it('takes a gap in the line for an opening', () => {
    const bar = drawn([
      {
        points: [
          [0, 0],
          [200, 0],
          [200, 70],
          [0, 70],
          [0, 0],
        ],
      },
      {
        points: [
          [280, 0],
          [400, 0],
          [400, 70],
          [280, 70],
          [280, 0],
        ],
      },
    ]);
    const followed = followLine(bar, 0, options);
    expect(rounded(followed)).toEqual([
      [0, 0],
      [400, 0],
    ]);
    expect(followed.gaps).toEqual([{ straight: 0, a: { x: 200, y: 0 }, b: { x: 280, y: 0 } }]);
  });

  it('stops at a gap that is wider than a pass, and at a wall in the gap', () => {
    const far = drawn([
      {
        points: [
          [0, 0],
          [200, 0],
        ],
      },
      {
        points: [
          [400, 0],
          [600, 0],
        ],
      },
    ]);
    expect(rounded(followLine(far, 0, options))).toEqual([
      [0, 0],
      [200, 0],
    ]);
    const walled = drawn([
      {
        points: [
          [0, 0],
          [200, 0],
        ],
      },
      {
        points: [
          [280, 0],
          [600, 0],
        ],
      },
      {
        points: [
          [201, -90],
          [201, 90],
        ],
        width: 1.4,
      },
    ]);
    expect(followLine(walled, 0, options)).toMatchObject({ ends: ['exposed', 'wall'], gaps: [] });
  });

  it('takes the wall behind for the back where the counter has no line of its own there', () => {
    const against = drawn([
      {
        points: [
          [0, 0],
          [300, 0],
        ],
      },
      {
        points: [
          [-40, 65],
          [340, 65],
        ],
        width: 1.4,
      },
    ]);
    expect(followLine(against, 0, options).back).toEqual({ side: 'left', offset: 65 });
  });

  it('is not led astray by dashed lines or lines of another pen', () => {
    const shelf = drawn([
      {
        points: [
          [0, 0],
          [300, 0],
          [300, 70],
          [0, 70],
          [0, 0],
        ],
      },
      {
        points: [
          [0, 30],
          [300, 30],
        ],
        dashed: true,
      },
      {
        points: [
          [300, 0],
          [300, -200],
        ],
        width: 0.2,
      },
    ]);
    const followed = followLine(shelf, 0, options);
    expect(rounded(followed)).toEqual([
      [0, 0],
      [300, 0],
    ]);
    expect(followed.back?.offset).toBe(70);
  });

  it('offers columns and recesses as blocked', () => {
    const bar = drawn([
      {
        points: [
          [0, 0],
          [300, 0],
          [300, 70],
          [240, 70],
          [240, 50],
          [200, 50],
          [200, 70],
          [0, 70],
          [0, 0],
        ],
      },
      {
        points: [
          [60, 40],
          [100, 40],
          [100, 90],
          [60, 90],
          [60, 40],
        ],
        fill: 0x404040,
        width: 1.4,
      },
      // Paper-white furniture and a wall-long body block nothing.
      {
        points: [
          [120, 20],
          [160, 20],
          [160, 50],
          [120, 50],
          [120, 20],
        ],
        fill: 0xffffff,
      },
      {
        points: [
          [-90, 68],
          [400, 68],
          [400, 90],
          [-90, 90],
          [-90, 68],
        ],
        width: 1.4,
        fill: 0x404040,
      },
    ]);
    expect(followLine(bar, 0, options).blocked).toEqual([
      { straight: 0, a: { x: 60, y: 0 }, b: { x: 100, y: 0 }, name: 'Column' },
      { straight: 0, a: { x: 200, y: 0 }, b: { x: 240, y: 0 }, name: 'Cut-out' },
    ]);
  });

  it('offers the picked straight alone where the line only goes round', () => {
    const field = drawn([
      {
        points: [
          [0, 0],
          [900, 0],
          [900, 800],
          [0, 800],
          [0, 0],
        ],
      },
    ]);
    expect(followLine(field, 0, options)).toMatchObject({ frontLine: [{ x: 0 }, { x: 900 }], back: null });
  });

  it('finds nothing on a curve', () => {
    expect(followLine(drawn([]), 0, options).frontLine).toEqual([]);
  });

  it('stops where the drawing does not say which way to go', () => {
    const junction = drawn([
      {
        points: [
          [0, 0],
          [200, 0],
        ],
      },
      {
        points: [
          [200, 0],
          [200, 300],
        ],
      },
      {
        points: [
          [200, 0],
          [200, -300],
        ],
      },
    ]);
    expect(rounded(followLine(junction, 0, options))).toEqual([
      [0, 0],
      [200, 0],
    ]);
  });
});

describe('following the lines of the demo plan', () => {
  const scale = { ratio: demoPlanTruth.ratio, relativeUncertainty: 0, userUnit: 1 };
  const mmPerUnit = mmPerUserUnit(scale);
  const { frontBar, backBar } = demoPlanTruth;
  let index: LineworkIndex;
  const traced = { ...frontBar, frontLine: [...frontBar.frontLine] };

  const followAt = (straight: number, alongMm: number) => {
    const at = paperPointAt(traced, straight, alongMm, 0, scale);
    const line = index.snapCandidates(at, 1).find(({ kind }) => kind === 'on-line')?.items[0];
    return followLine(index, line ?? -1, { mmPerUnit });
  };
  const expectPlaces = (found: FollowedCounter['frontLine'], truth: readonly { x: number; y: number }[]) => {
    const forward = Math.hypot(found[0]!.x - truth[0]!.x, found[0]!.y - truth[0]!.y) < 1;
    const inOrder = forward ? found : [...found].reverse();
    expect(found).toHaveLength(truth.length);
    inOrder.forEach(({ x, y }, at) => {
      expect(x).toBeCloseTo(truth[at]!.x, 3);
      expect(y).toBeCloseTo(truth[at]!.y, 3);
    });
  };

  beforeAll(async () => {
    const { linework } = await readFirstPage(await drawDemoPlan());
    index = createLineworkIndex(linework);
  });

  it.each([
    ['before the flap', 1, 2000],
    ['behind the flap', 1, 7500],
    ['on the short leg', 0, 1000],
  ])('finds the front bar from a pick %s', (_, straight, alongMm) => {
    const followed = followAt(straight, alongMm);
    expectPlaces(followed.frontLine, frontBar.frontLine);
    expect(followed.back!.offset * mmPerUnit).toBeCloseTo(frontBar.depthMm, 1);
    expect([...followed.ends].sort()).toEqual(['exposed', 'wall']);
    const widths = (stretches: readonly { a: { x: number }; b: { x: number } }[]) =>
      stretches.map(({ a, b }) => Math.round(Math.abs(b.x - a.x) * mmPerUnit));
    expect(widths(followed.gaps)).toEqual([800]);
    expect(widths(followed.blocked)).toEqual([400]);
    expect(followed.blocked[0]?.name).toBe('Column');
  });

  it('finds the back bar, exposed at both ends', () => {
    const [start, end] = backBar.frontLine;
    const middle = { x: (start.x + end.x) / 2 + 4, y: start.y };
    const line = index.snapCandidates(middle, 1).find(({ kind }) => kind === 'on-line')?.items[0];
    const followed = followLine(index, line ?? -1, { mmPerUnit });
    expectPlaces(followed.frontLine, backBar.frontLine);
    expect(followed.back!.offset * mmPerUnit).toBeCloseTo(backBar.depthMm, 1);
    expect(followed).toMatchObject({ ends: ['exposed', 'exposed'], gaps: [], blocked: [] });
  });
});

const samplePlan = new URL('../../../shared/plans/counter-run-a2-cm.pdf', import.meta.url);
const hasSample = existsSync(samplePlan);
if (!hasSample) process.stdout.write('skipped: no sample plans beside the repository\n');

describe.skipIf(!hasSample)('following the lines of a kitchen drawn by others at 1:20', () => {
  it.each([
    ['a table', { x: 459, y: 600 }, 1900, 700],
    // 63 cm from the carcases' front to the wall's inner face, where a window takes the place of a back line.
    ['a counter under a window', { x: 1049, y: 600 }, 1200, 630],
  ])('finds %s', async (_, at, lengthMm, depthMm) => {
    const { linework } = await readFirstPage(new Uint8Array(readFileSync(samplePlan)));
    const sheet = createLineworkIndex(linework);
    const mmPerUnit = mmPerUserUnit({ ratio: 20, relativeUncertainty: 0, userUnit: 1 });
    const line = sheet.snapCandidates(at, 4).find(({ kind }) => kind === 'on-line')?.items[0];
    const { frontLine, back, gaps } = followLine(sheet, line ?? -1, { mmPerUnit });
    expect(frontLine).toHaveLength(2);
    const [start, end] = frontLine;
    expect(Math.hypot(end!.x - start!.x, end!.y - start!.y) * mmPerUnit).toBeCloseTo(lengthMm, -1);
    expect(back!.offset * mmPerUnit).toBeCloseTo(depthMm, -1);
    expect(gaps).toEqual([]);
  });
});
