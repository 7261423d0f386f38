import { describe, expect, it } from 'vitest';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { clearBehind } from '../../src/measure/clearBehind.ts';
import type { SheetScale, TracedRun } from '../../src/measure/tracedRun.ts';

/** 1 user unit is 10 mm of room. */
const tenToOne: SheetScale = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 };
const line = (...xy: readonly (readonly [number, number])[]): readonly PaperPoint[] =>
  xy.map(([x, y]) => paperPoint(x, y));

// Expected lengths follow from the coordinates: 10 mm of room a unit.
describe('what is clear behind a length of a run', () => {
  const bar: TracedRun = { frontLine: line([0, 0], [600, 0]), backSide: 'left', depthMm: 600 };
  const span = { straight: 0, fromMm: 1000, toMm: 1700 };

  it('is the distance from the back line to the bar behind', () => {
    expect(clearBehind(bar, span, [line([0, 150], [600, 150])], tenToOne)).toBeCloseTo(900, 9);
  });

  it('is taken where the line is nearest within the length, not beyond it', () => {
    // The line comes down to the right: at 1 700 mm (170 units) it is 200 - 170 x 0.1 = 183 units off, 1 230 mm behind.
    expect(clearBehind(bar, span, [line([0, 200], [600, 140])], tenToOne)).toBeCloseTo(1230, 9);
    expect(clearBehind(bar, span, [line([171, 70], [600, 70])], tenToOne)).toBeNull();
  });

  it('leaves out what lies in front, and the run’s own back line', () => {
    expect(
      clearBehind(bar, span, [line([0, -50], [600, -50]), line([0, 60], [600, 60])], tenToOne),
    ).toBeNull();
  });

  it('sees a line that runs away from the bar', () => {
    expect(clearBehind(bar, span, [line([150, 300], [150, 120])], tenToOne)).toBeCloseTo(600, 9);
  });
});
