import { describe, expect, it } from 'vitest';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { runProblems } from '../../src/measure/runProblems.ts';
import type { SheetScale, TracedRun } from '../../src/measure/tracedRun.ts';

/** 1 user unit is 10 mm of room. */
const tenToOne: SheetScale = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 };
const line = (...xy: readonly (readonly [number, number])[]): readonly PaperPoint[] =>
  xy.map(([x, y]) => paperPoint(x, y));
const sound: TracedRun = { frontLine: line([0, 0], [600, 0], [600, 300]), backSide: 'left', depthMm: 600 };
const codes = (change: Partial<TracedRun>): readonly string[] =>
  runProblems({ ...sound, ...change }, tenToOne).map(({ code, path }) => `${code} at ${path}`);

describe('the problems of a traced run', () => {
  it('are none for a sound one, and none for an island that ends where it began', () => {
    expect(codes({})).toEqual([]);
    expect(codes({ backSide: 'right' })).toEqual([]);
    expect(codes({ frontLine: line([0, 0], [600, 0], [600, 300], [0, 300], [0, 0]) })).toEqual([]);
  });

  it('name the field at fault', () => {
    expect(codes({ frontLine: line([0, 0]) })).toEqual(['run-too-few-points at frontLine']);
    expect(codes({ frontLine: line([0, 0], [Number.NaN, 0]) })).toEqual([
      'run-point-not-finite at frontLine[1]',
    ]);
    expect(codes({ depthMm: 0 })).toEqual(['run-depth-not-positive at depthMm']);
    expect(codes({ depthMm: Number.POSITIVE_INFINITY })).toEqual(['run-depth-not-positive at depthMm']);
    expect(codes({ pickUncertaintyPt: -1 })).toEqual(['run-pick-uncertainty-negative at pickUncertaintyPt']);
  });

  it('include two picks at one place, and a front that doubles back', () => {
    expect(codes({ frontLine: line([0, 0], [600, 0], [600, 0.05]) })).toEqual([
      'run-straight-too-short at frontLine[2]',
    ]);
    expect(codes({ frontLine: line([0, 0], [600, 0], [100, 1]) })).toEqual([
      'run-doubles-back at frontLine[1]',
    ]);
  });

  it('include a front that crosses or retraces itself', () => {
    expect(
      codes({ depthMm: 50, frontLine: line([0, 0], [600, 0], [600, 300], [300, 300], [300, -100]) }),
    ).toEqual(['run-crosses-itself at frontLine[4]']);
    const retraced = line([0, 0], [600, 0], [600, 300], [700, 300], [700, 0], [300, 0]);
    expect(codes({ depthMm: 50, frontLine: retraced })).toContain('run-crosses-itself at frontLine[5]');
  });

  it('include a straight too short for the depth behind it', () => {
    // A U of 1 m between legs cannot have a counter of 600 on either side inside it.
    const narrowU = line([0, 300], [0, 0], [100, 0], [100, 300]);
    expect(codes({ frontLine: narrowU })).toEqual(['run-deeper-than-its-straight at depthMm']);
    expect(codes({ frontLine: narrowU, backSide: 'right' })).toEqual([]);
  });

  it('say what to do', () => {
    for (const { message } of runProblems({ ...sound, frontLine: [], depthMm: -3 }, tenToOne)) {
      expect(message).toMatch(/: \w+/);
    }
  });
});
