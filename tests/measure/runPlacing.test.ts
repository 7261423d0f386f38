import { describe, expect, it } from 'vitest';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { placeInFront, placeMirrored } from '../../src/measure/runPlacing.ts';
import type { SheetScale, TracedRun } from '../../src/measure/tracedRun.ts';

/** 1 user unit is 10 mm of room. */
const tenToOne: SheetScale = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 };
const line = (...xy: readonly (readonly [number, number])[]): readonly PaperPoint[] =>
  xy.map(([x, y]) => paperPoint(x, y));
const bar: TracedRun = { frontLine: line([0, 400], [0, 0], [900, 0]), backSide: 'left', depthMm: 700 };

// Expected places follow from the coordinates.
describe('where a run goes', () => {
  it('as a copy is in front of its longest straight, one and a half depths off', () => {
    // The back lies above the long straight, so that the copy goes 1 050 mm, 105 units, down.
    expect(placeInFront(bar, tenToOne)(paperPoint(10, 20))).toEqual({ x: 10, y: -85 });
  });

  it('as its mirror image changes ends along the longest straight, in the room that it had', () => {
    const mirror = placeMirrored(bar);
    expect(bar.frontLine.map(mirror)).toEqual(line([900, 400], [900, 0], [0, 0]));
    expect(bar.frontLine.map(mirror).map(mirror)).toEqual(bar.frontLine);
  });
});
