import Flatten from '@flatten-js/core';
import { describe, expect, it } from 'vitest';
import { paperPoint } from '../../src/geometry/point.ts';
import { cornersOf } from '../../src/measure/corners.ts';
import { straightsOf, wholeLengthOf } from '../../src/measure/straights.ts';
import {
  mmPerUserUnit,
  type SheetScale,
  straightLineOf,
  type TracedRun,
} from '../../src/measure/tracedRun.ts';
import { scaleFromReferences } from '../../src/scale/scaleFromReferences.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededPicks, standardDeviation } from './seededPicks.ts';

/** 1 user unit is 10 mm of room, so that hand-drawn examples have round numbers. */
const tenToOne: SheetScale = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 };
/** A scale so sure that the picks weigh about as much as it does. */
const oneToFifty: SheetScale = { ratio: 50, relativeUncertainty: 0.002, userUnit: 1 };
const line = (...xy: readonly (readonly [number, number])[]) => xy.map(([x, y]) => paperPoint(x, y));
const trials = campaignSize({ sample: 20_000, full: 400_000 });
/** The standard error of a sampled standard deviation is 1/sqrt(2n); four of them are exceeded once in 16 000 seeds. */
const samplingTolerance = 4 / Math.sqrt(2 * trials);

const disturbed = (run: TracedRun, normal: () => number): TracedRun => ({
  ...run,
  frontLine: run.frontLine.map(({ x, y }) =>
    paperPoint(x + normal() * run.pickUncertaintyPt!, y + normal() * run.pickUncertaintyPt!),
  ),
});

describe('the scale of a sheet', () => {
  // 25.4/72 x N, exact: 1:50 and 1:100 (ISO 32000-1, 8.3.2.3: a user-space unit is 1/72 in).
  it('turns a user-space unit into millimetres of the room', () => {
    expect(mmPerUserUnit({ ratio: 50, relativeUncertainty: 0, userUnit: 1 })).toBeCloseTo(17.638889, 6);
    expect(mmPerUserUnit({ ratio: 100, relativeUncertainty: 0, userUnit: 1 })).toBeCloseTo(35.277778, 6);
  });

  it('measures the same drawing alike with UserUnit 1, 2 and 10', () => {
    const lengths = [1, 2, 10].map((userUnit) => {
      const run: TracedRun = {
        frontLine: line([0, 0], [720 / userUnit, 0]),
        backSide: 'left',
        depthMm: 600,
        pickUncertaintyPt: 0.5,
      };
      const [straight] = straightsOf(run, { ratio: 50, relativeUncertainty: 0.002, userUnit });
      return [straight!.lengthMm, straight!.plusMinusMm];
    });
    // 720 pt are 10 in: 254 mm x 50.
    expect(lengths[0]![0]).toBeCloseTo(12_700, 9);
    for (const [lengthMm, plusMinusMm] of lengths) {
      expect(lengthMm).toBeCloseTo(lengths[0]![0]!, 9);
      expect(plusMinusMm).toBeCloseTo(lengths[0]![1]!, 9);
    }
  });

  it('leaves a corner as uncertain, whatever the UserUnit', () => {
    const corner = (userUnit: number) =>
      cornersOf(
        {
          frontLine: line([0, 0], [200 / userUnit, 0], [200 / userUnit, 150 / userUnit]),
          backSide: 'left',
          depthMm: 600,
          pickUncertaintyPt: 0.5,
        },
        userUnit,
      )[0]!.plusMinusDeg;
    expect(corner(10)).toBeCloseTo(corner(1), 9);
  });

  it('must be positive', () => {
    expect(() => mmPerUserUnit({ ratio: 0, relativeUncertainty: 0, userUnit: 1 })).toThrow(RangeError);
    expect(() => mmPerUserUnit({ ratio: Number.NaN, relativeUncertainty: 0, userUnit: 1 })).toThrow(
      RangeError,
    );
  });
});

describe('the straights of a run', () => {
  const lShape: TracedRun = {
    frontLine: line([0, 0], [624.8, 0], [624.8, 310]),
    backSide: 'left',
    depthMm: 600,
  };

  it('are the traced front between corners, before any deduction', () => {
    const straights = straightsOf(lShape, tenToOne);
    expect(straights.map(({ index }) => index)).toEqual([0, 1]);
    expect(straights[0]!.lengthMm).toBeCloseTo(6248, 9);
    expect(straights[1]!.lengthMm).toBeCloseTo(3100, 9);
    expect(straights[1]!.startPaper).toBe(lShape.frontLine[1]);
    expect(wholeLengthOf(lShape, tenToOne).lengthMm).toBeCloseTo(9348, 9);
  });

  it('are none for a single point', () => {
    const started: TracedRun = { ...lShape, frontLine: line([0, 0]) };
    expect(straightsOf(started, tenToOne)).toEqual([]);
    expect(wholeLengthOf(started, tenToOne)).toEqual({ lengthMm: 0, plusMinusMm: 0 });
    expect(() => straightLineOf(started, 0)).toThrow(RangeError);
  });
});

describe('the uncertainty of a length', () => {
  it('is that of the scale alone for perfect picks, and that of both picks alone for a perfect scale', () => {
    const run: TracedRun = {
      frontLine: line([0, 0], [360, 0]),
      backSide: 'left',
      depthMm: 600,
      pickUncertaintyPt: 0,
    };
    expect(straightsOf(run, { ...tenToOne, relativeUncertainty: 0.005 })[0]!.plusMinusMm).toBeCloseTo(18, 9);
    // 0.5 pt are 5 mm; two picks: 2 x sqrt(2) x 5.
    expect(straightsOf({ ...run, pickUncertaintyPt: 0.5 }, tenToOne)[0]!.plusMinusMm).toBeCloseTo(
      14.142_136,
      6,
    );
  });

  // JCGM 100:2008, 5.1.6, in a quotient relative variances add: sqrt(2) x 0.5 / 283.46 = 0.249 % at k = 1.
  it('takes over that of a scale from two picks, 283.46 pt apart with 0.5 pt a pick: 0.249 %', () => {
    const scaled = scaleFromReferences([
      { a: paperPoint(0, 0), b: paperPoint(283.46, 0), lengthMm: 5000, pickUncertaintyPt: 0.5 },
    ]);
    if (!('ratio' in scaled)) throw new Error('The reference was refused');
    expect(((scaled.relativeUncertainty / 2) * 100).toFixed(3)).toBe('0.249');

    // The same by Monte-Carlo: scale and run picked anew each time, against the formula in one go.
    const { normal } = seededPicks(283);
    const run: TracedRun = {
      frontLine: line([50, 50], [250, 200]),
      backSide: 'left',
      depthMm: 600,
      pickUncertaintyPt: 0.5,
    };
    const predicted = straightsOf(run, { ...scaled, userUnit: 1 })[0]!;
    const lengths = Array.from({ length: trials }, () => {
      const [ax, ay, bx, by] = [normal() / 2, normal() / 2, 283.46 + normal() / 2, normal() / 2];
      const ratio = (5000 / Math.hypot(bx - ax, by - ay)) * (72 / 25.4);
      return straightsOf(disturbed(run, normal), { ratio, relativeUncertainty: 0, userUnit: 1 })[0]!.lengthMm;
    });
    expect(Math.abs((2 * standardDeviation(lengths)) / predicted.plusMinusMm - 1)).toBeLessThan(
      samplingTolerance + 0.002,
    );
  });

  it.each([
    ['an L', line([100, 100], [500, 100], [500, 350])],
    ['a flat bend', line([100, 100], [400, 100], [700, 130])],
    ['a hairpin', line([100, 100], [500, 100], [120, 160])],
    ['a U with a slanting bottom', line([100, 400], [110, 100], [460, 90], [450, 420])],
  ])('of the whole front of %s agrees with Monte-Carlo', (_, frontLine) => {
    const { normal } = seededPicks(2026);
    const run: TracedRun = { frontLine, backSide: 'right', depthMm: 600, pickUncertaintyPt: 0.5 };
    const predicted = wholeLengthOf(run, oneToFifty);
    const lengths = Array.from({ length: trials }, () => {
      const scale = { ...oneToFifty, ratio: 50 * (1 + normal() * (oneToFifty.relativeUncertainty / 2)) };
      return wholeLengthOf(disturbed(run, normal), scale).lengthMm;
    });
    expect(Math.abs((2 * standardDeviation(lengths)) / predicted.plusMinusMm - 1)).toBeLessThan(
      samplingTolerance + 0.002,
    );
  });
});

describe('the corners of a run', () => {
  const turnOf = (frontLine: TracedRun['frontLine'], backSide: TracedRun['backSide']) =>
    cornersOf({ frontLine, backSide, depthMm: 600 })[0]!;

  // Drawn by hand, y up. Walking east, then north: a turn to the left.
  const eastThenNorth = line([0, 0], [10, 0], [10, 10]);
  const eastThenSouth = line([0, 0], [10, 0], [10, -10]);

  it('turn positive where the front is on the outside, whichever way the run was traced', () => {
    // Back on the left (north, then west): the bar lies inside the L, customers outside.
    expect(turnOf(eastThenNorth, 'left').turnDeg).toBeCloseTo(90, 12);
    expect(turnOf(eastThenNorth, 'right').turnDeg).toBeCloseTo(-90, 12);
    expect(turnOf(eastThenSouth, 'left').turnDeg).toBeCloseTo(-90, 12);
    expect(turnOf(eastThenSouth, 'right').turnDeg).toBeCloseTo(90, 12);
    // The same bar traced from its other end has its back on the other side, and the same corner.
    expect(turnOf(eastThenNorth.toReversed(), 'right').turnDeg).toBeCloseTo(90, 12);
  });

  it('have the angle between their straights, and are right within half a degree', () => {
    const obtuse = turnOf(line([0, 0], [10, 0], [20, 10]), 'left');
    expect(obtuse.turnDeg).toBeCloseTo(45, 12);
    expect(obtuse.innerAngleDeg).toBeCloseTo(135, 12);
    expect(obtuse.isRightAngle).toBe(false);
    const rad = (deg: number) => (deg * Math.PI) / 180;
    const nearly = (deg: number) =>
      line([0, 0], [100, 0], [100 + 100 * Math.cos(rad(deg)), 100 * Math.sin(rad(deg))]);
    expect([89.4, 89.5, 90, 90.5, 90.6].map((deg) => turnOf(nearly(deg), 'left').isRightAngle)).toEqual([
      false,
      true,
      true,
      true,
      false,
    ]);
  });

  it('turn as a general geometry library turns them', () => {
    const points = line([0, 0], [40, 7], [55, 60], [20, 90], [-30, 60]);
    for (const corner of cornersOf({ frontLine: points, backSide: 'left', depthMm: 1 })) {
      const a = points[corner.index]!;
      const b = points[corner.index + 1]!;
      const c = points[corner.index + 2]!;
      const oracle = new Flatten.Vector(b.x - a.x, b.y - a.y).angleTo(
        new Flatten.Vector(c.x - b.x, c.y - b.y),
      );
      expect(corner.turnDeg).toBeCloseTo((oracle * 180) / Math.PI, 9);
    }
  });

  it.each([
    ['right', line([100, 100], [300, 100], [300, 220])],
    ['obtuse', line([100, 100], [300, 100], [420, 180])],
    ['sharp', line([100, 100], [300, 100], [180, 160])],
  ])('that are %s have an uncertain turn as Monte-Carlo has it', (_, frontLine) => {
    const { normal } = seededPicks(90);
    const run: TracedRun = { frontLine, backSide: 'left', depthMm: 600, pickUncertaintyPt: 0.5 };
    const turns = Array.from({ length: trials }, () => cornersOf(disturbed(run, normal))[0]!.turnDeg);
    const predicted = cornersOf(run)[0]!.plusMinusDeg;
    expect(Math.abs((2 * standardDeviation(turns)) / predicted - 1)).toBeLessThan(samplingTolerance + 0.002);
  });

  it('stay measurable while a trace is half finished', () => {
    const standing = turnOf(line([0, 0], [0, 0], [10, 0]), 'left');
    expect(Number.isFinite(standing.turnDeg)).toBe(true);
    expect(standing.plusMinusDeg).toBe(180);
    expect(turnOf(line([0, 0], [10, 0], [0, 0]), 'right').turnDeg).toBe(180);
  });
});
