import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pointCarriedAlong, roundedCorner, tangentArc } from '../../src/geometry/arc.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { polylineLength } from '../../src/geometry/polyline.ts';
import { backLineOf, backPathOf } from '../../src/measure/backLine.ts';
import { cornersOf } from '../../src/measure/corners.ts';
import { cornerFootprint, moduleFootprint, zoneOutline } from '../../src/measure/footprint.ts';
import { bendOf, flattenedPath, nearestOnPath } from '../../src/measure/runPath.ts';
import { paperPointAt, placeOnStraight } from '../../src/measure/runPosition.ts';
import { runProblems } from '../../src/measure/runProblems.ts';
import { straightsOf, wholeLengthOf } from '../../src/measure/straights.ts';
import { mmPerUserUnit, type SheetScale, type TracedRun } from '../../src/measure/tracedRun.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededPicks, standardDeviation } from './seededPicks.ts';

const scale: SheetScale = { ratio: 50, relativeUncertainty: 0, userUnit: 1 };
const mm = mmPerUserUnit(scale);
const at = (xMm: number, yMm: number): PaperPoint => paperPoint(xMm / mm, yMm / mm);

/** A straight of 4000, a quarter circle of radius 3200 to the left, a straight of 2000. */
const radiusMm = 3200;
const half = radiusMm * Math.SQRT1_2;
const hockeyStick = (backSide: 'left' | 'right', depthMm = 600): TracedRun => ({
  frontLine: [at(0, 0), at(4000, 0), at(4000 + radiusMm, radiusMm), at(4000 + radiusMm, radiusMm + 2000)],
  bends: [undefined, at(4000 + half, radiusMm - half)],
  backSide,
  depthMm,
  pickUncertaintyPt: 0,
});

describe('a bent straight', () => {
  it('has the arc length, chord and middle ordinate of a simple circular curve', () => {
    // Surveying handbooks: L = R x angle, C = 2 R sin(angle / 2), M = R (1 - cos(angle / 2)); formulas from memory.
    const [, arc] = straightsOf(hockeyStick('left'), scale);
    expect(arc!.lengthMm).toBeCloseTo((radiusMm * Math.PI) / 2, 6);
    expect(arc!.bend!.radiusMm).toBeCloseTo(radiusMm, 6);
    expect(arc!.bend!.sweepDeg).toBeCloseTo(90, 9);
    expect(arc!.bend!.chordMm).toBeCloseTo(radiusMm * Math.SQRT2, 6);
    expect(arc!.bend!.sagittaMm).toBeCloseTo(radiusMm - half, 6);
    // The sagitta from chord and radius alone: s = r - sqrt(r^2 - c^2/4).
    expect(arc!.bend!.sagittaMm).toBeCloseTo(
      radiusMm - Math.sqrt(radiusMm ** 2 - arc!.bend!.chordMm ** 2 / 4),
      6,
    );
  });

  it('has its front outside where the back has the centre', () => {
    expect(straightsOf(hockeyStick('left'), scale)[1]!.bend!.front).toBe('outside');
    expect(straightsOf(hockeyStick('right'), scale)[1]!.bend!.front).toBe('inside');
  });

  it('makes no corner where it goes on along a tangent, and one where it does not', () => {
    const [first, second] = cornersOf(hockeyStick('left'));
    expect(first!.turnDeg).toBeCloseTo(0, 9);
    expect(first!.isTangent && second!.isTangent).toBe(true);
    const kinked = { ...hockeyStick('left'), bends: [undefined, at(4000 + 2000, 1200)] };
    const [kink] = cornersOf(kinked);
    expect(kink!.isTangent).toBe(false);
    // Against a general geometry library: the direction at the arc's start.
    const bend = bendOf(kinked, 1)!;
    const library = new Flatten.Arc(
      new Flatten.Point(bend.centre.x, bend.centre.y),
      bend.radius,
      bend.startAngleRad,
      bend.startAngleRad + bend.sweepRad,
      true,
    ).tangentInStart();
    expect(Math.abs(kink!.turnDeg)).toBeCloseTo((Math.atan2(library.y, library.x) * 180) / Math.PI, 6);
  });

  it('is straight where its three points lie in line', () => {
    const flat: TracedRun = { ...hockeyStick('left'), bends: [at(2000, 0)] };
    expect(straightsOf(flat, scale)[0]!.bend).toBeUndefined();
    expect(straightsOf(flat, scale)[0]!.lengthMm).toBeCloseTo(4000, 9);
  });

  it('has a back line about the same centre', () => {
    const run = hockeyStick('left');
    const back = backPathOf(run, scale);
    const centre = at(4000, radiusMm);
    for (const point of [back.frontLine[1]!, back.bends![1]!, back.frontLine[2]!])
      expect(Math.hypot(point.x - centre.x, point.y - centre.y) * mm).toBeCloseTo(radiusMm - 600, 6);
    expect(polylineLength(backLineOf(run, scale)) * mm).toBeCloseTo(
      6000 + ((radiusMm - 600) * Math.PI) / 2,
      -1,
    );
  });

  it('is refused where nothing is left of its back', () => {
    expect(runProblems(hockeyStick('left'), scale)).toEqual([]);
    expect(runProblems(hockeyStick('left', 3300), scale)[0]).toMatchObject({ code: 'run-bend-too-tight' });
    expect(runProblems(hockeyStick('right', 3300), scale)).toEqual([]);
  });

  it('is crossed by a straight that its chord does not meet', () => {
    const run: TracedRun = {
      frontLine: [at(0, 0), at(4000, 0), at(4000, 1500), at(2000, 1500), at(2000, 300)],
      bends: [at(2000, 600)],
      backSide: 'left',
      depthMm: 100,
    };
    // The last straight stops above the chord but below the arc's top.
    expect(runProblems(run, scale)[0]).toMatchObject({ code: 'run-crosses-itself' });
  });

  it('gives places along it and across it that lead back to the point', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -2000, max: 8000, noNaN: true }),
        fc.double({ min: -900, max: 900, noNaN: true }),
        fc.constantFrom('left' as const, 'right' as const),
        (alongMm, offsetMm, backSide) => {
          const run = hockeyStick(backSide);
          const place = placeOnStraight(run, 1, paperPointAt(run, 1, alongMm, offsetMm, scale), scale);
          expect(place.alongMm).toBeCloseTo(alongMm, 5);
          expect(place.offsetMm).toBeCloseTo(offsetMm, 5);
        },
      ),
      { seed: 20260807, numRuns: campaignSize({ sample: 200, full: 5000 }) },
    );
  });

  it('is nearest where a general geometry library says so', () => {
    const run = hockeyStick('left');
    const bend = bendOf(run, 1)!;
    const library = new Flatten.Arc(
      new Flatten.Point(bend.centre.x, bend.centre.y),
      bend.radius,
      bend.startAngleRad,
      bend.startAngleRad + bend.sweepRad,
      true,
    );
    const path = { frontLine: run.frontLine.slice(1, 3), bends: [run.bends![1]] };
    fc.assert(
      fc.property(
        fc.double({ min: 3000, max: 9000, noNaN: true }),
        fc.double({ min: -1500, max: 5000, noNaN: true }),
        (xMm, yMm) => {
          const point = at(xMm, yMm);
          const [distance] = library.distanceTo(new Flatten.Point(point.x, point.y));
          expect(nearestOnPath(path, point)!.distance).toBeCloseTo(distance, 6);
        },
      ),
      { seed: 11, numRuns: 200 },
    );
  });

  it('keeps its sweep when its ends move', () => {
    const run = hockeyStick('left');
    const [, start, end] = run.frontLine;
    const moved: readonly [PaperPoint, PaperPoint] = [start!, at(9000, 1000)];
    const through = pointCarriedAlong(run.bends![1]!, [start!, end!], moved);
    const before = bendOf(run, 1)!;
    const after = bendOf({ frontLine: moved, bends: [through as PaperPoint] }, 0)!;
    expect(after.sweepRad).toBeCloseTo(before.sweepRad, 9);
  });
});

describe('the arcs that tracing makes', () => {
  it('round a corner off so that both legs are tangents', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 3, noNaN: true }),
        fc.boolean(),
        fc.double({ min: 10, max: 500, noNaN: true }),
        (turn, isLeft, radius) => {
          const far = 1e5;
          const angle = isLeft ? turn : -turn;
          const after = { x: far * Math.cos(angle), y: far * Math.sin(angle) };
          const round = roundedCorner({ x: -far, y: 0 }, { x: 0, y: 0 }, after, radius)!;
          const circle = bendOf(
            { frontLine: [round.start, round.end] as PaperPoint[], bends: [round.through as PaperPoint] },
            0,
          )!;
          expect(circle.radius / radius).toBeCloseTo(1, 6);
          // A tangent is as far from the centre as the radius.
          const library = new Flatten.Point(circle.centre.x, circle.centre.y);
          for (const leg of [{ x: -far, y: 0 }, after]) {
            const line = new Flatten.Line(new Flatten.Point(0, 0), new Flatten.Point(leg.x, leg.y));
            expect(library.distanceTo(line)[0] / radius).toBeCloseTo(1, 6);
          }
        },
      ),
      { seed: 4, numRuns: 200 },
    );
  });

  it('go on along the tangent to the end that is picked', () => {
    // Quarter circle: leaves (0, 0) along +x, ends at (R, R).
    const arc = tangentArc({ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 100, y: 100 })!;
    expect(arc.radius).toBeCloseTo(100, 9);
    expect(arc.sweepRad).toBeCloseTo(Math.PI / 2, 12);
    const right = tangentArc({ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 0, y: -200 })!;
    expect(right.radius).toBeCloseTo(100, 9);
    expect(right.sweepRad).toBeCloseTo(-Math.PI, 12);
    expect(tangentArc({ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 50, y: 0 })).toBeUndefined();
  });
});

describe('the +/- of a bent straight', () => {
  // JCGM 101:2008: the distribution of the result by drawing the inputs at random, here as the outside check.
  const drawnDeviation = (run: TracedRun, measured: (run: TracedRun) => number): number => {
    const { normal } = seededPicks(2026);
    const moved = ({ x, y }: PaperPoint) =>
      paperPoint(x + normal() * run.pickUncertaintyPt!, y + normal() * run.pickUncertaintyPt!);
    const values = Array.from({ length: campaignSize({ sample: 20_000, full: 400_000 }) }, () =>
      measured({
        ...run,
        frontLine: run.frontLine.map(moved),
        bends: run.bends!.map((through) => through && moved(through)),
      }),
    );
    return standardDeviation(values);
  };

  it.each([
    ['a quarter circle', 1],
    ['a shallow arc', 0.15],
    ['nearly three quarters of a circle', 2.6],
  ])('of %s agrees with a Monte Carlo simulation', (_, sagittaShare) => {
    const chordMm = 3000;
    const sagittaMm = (chordMm / 2) * Math.tan((Math.PI / 8) * sagittaShare);
    const run: TracedRun = {
      frontLine: [at(0, 0), at(chordMm, 0)],
      bends: [at(chordMm / 2, -sagittaMm)],
      backSide: 'left',
      depthMm: 100,
      pickUncertaintyPt: 0.5,
    };
    const [straight] = straightsOf(run, scale);
    const length = drawnDeviation(run, (drawn) => straightsOf(drawn, scale)[0]!.lengthMm);
    expect(straight!.plusMinusMm / (2 * length)).toBeGreaterThan(0.96);
    expect(straight!.plusMinusMm / (2 * length)).toBeLessThan(1.04);
    const radius = drawnDeviation(run, (drawn) => straightsOf(drawn, scale)[0]!.bend!.radiusMm);
    // Of a shallow arc the radius, like 1 / sagitta, has a longer tail than first order tells.
    expect(straight!.bend!.radiusPlusMinusMm / (2 * radius)).toBeGreaterThan(0.92);
    expect(straight!.bend!.radiusPlusMinusMm / (2 * radius)).toBeLessThan(1.05);
  });

  it('of a whole front with an arc, and of the turn at its end, agrees too', () => {
    const run: TracedRun = { ...hockeyStick('left'), pickUncertaintyPt: 0.5 };
    const whole = wholeLengthOf(run, scale);
    const drawn = drawnDeviation(run, (one) => wholeLengthOf(one, scale).lengthMm);
    expect(whole.plusMinusMm / (2 * drawn)).toBeCloseTo(1, 1);
    const turn = drawnDeviation(run, (one) => cornersOf(one)[0]!.turnDeg);
    expect(cornersOf(run)[0]!.plusMinusDeg / (2 * turn)).toBeCloseTo(1, 1);
  });

  it('holds the true length for 95 of 100 traces of known arcs, and is not padded', () => {
    const { normal } = seededPicks(77);
    const count = campaignSize({ sample: 500, full: 20_000 });
    const pickUncertaintyPt = 0.3;
    let within = 0;
    let ratios = 0;
    for (let trace = 0; trace < count; trace += 1) {
      const radius = 900 + ((trace * 617) % 6000);
      const sweep = 0.25 + ((trace * 37) % 100) / 45;
      const on = (angle: number) => at(radius * Math.sin(angle), radius * (1 - Math.cos(angle)));
      const picked = ({ x, y }: PaperPoint) =>
        paperPoint(x + normal() * pickUncertaintyPt, y + normal() * pickUncertaintyPt);
      const run: TracedRun = {
        frontLine: [picked(on(0)), picked(on(sweep))],
        bends: [picked(on(sweep / 2))],
        backSide: 'left',
        depthMm: 100,
        pickUncertaintyPt,
      };
      const [straight] = straightsOf(run, scale);
      const errorMm = Math.abs(straight!.lengthMm - radius * sweep);
      if (errorMm <= straight!.plusMinusMm) within += 1;
      ratios += errorMm / straight!.plusMinusMm;
    }
    process.stdout.write(
      `${count} arcs: ${((100 * within) / count).toFixed(1)} % within their +/-, mean error over +/- ${(ratios / count).toFixed(2)}\n`,
    );
    // k = 2 holds 95.4 % of a normal distribution; four standard errors of the sampled share below that.
    expect(within / count).toBeGreaterThan(0.954 - 4 * Math.sqrt((0.954 * 0.046) / count));
    // The mean of |error| is 0.8 standard deviations, 0.4 of the +/-: less would be padding.
    expect(ratios / count).toBeGreaterThan(0.33);
  });

  it('takes in the scale as any length does', () => {
    const sure = hockeyStick('left');
    const [, arc] = straightsOf(sure, { ...scale, relativeUncertainty: 0.004 });
    expect(arc!.plusMinusMm).toBeCloseTo(arc!.lengthMm * 0.004, 6);
  });
});

describe('what stands on a bent straight', () => {
  it('is a chord with the front outside and a tangent with the front inside', () => {
    const centre = at(4000, radiusMm);
    const fromCentreMm = ({ x, y }: PaperPoint) => Math.hypot(x - centre.x, y - centre.y) * mm;
    const module = { fromMm: 1000, toMm: 2300, widthMm: 1200 };
    const outside = moduleFootprint(hockeyStick('left'), 1, module, scale);
    expect(fromCentreMm(outside[0])).toBeCloseTo(radiusMm, 6);
    expect(fromCentreMm(outside[1])).toBeCloseTo(radiusMm, 6);
    expect(Math.hypot(outside[1].x - outside[0].x, outside[1].y - outside[0].y) * mm).toBeCloseTo(1200, 6);
    const inside = moduleFootprint(hockeyStick('right'), 1, module, scale);
    const face = paperPoint((inside[0].x + inside[1].x) / 2, (inside[0].y + inside[1].y) / 2);
    expect(fromCentreMm(face)).toBeCloseTo(radiusMm, 6);
    // Never in front of the line.
    expect(fromCentreMm(inside[0])).toBeGreaterThan(radiusMm);
  });

  it('has an outline that follows the arc, front and back', () => {
    const ring = zoneOutline(hockeyStick('left'), 1, { fromMm: 0, toMm: 2000 }, scale);
    const polygon = new Flatten.Polygon(ring.map(({ x, y }) => new Flatten.Point(x, y)));
    const expectedMm2 = (2000 / radiusMm / 2) * (radiusMm ** 2 - (radiusMm - 600) ** 2);
    expect((Math.abs(polygon.area()) * mm * mm) / expectedMm2).toBeCloseTo(1, 3);
  });

  it('leaves a wedge at a corner with feet square to both fronts', () => {
    const kinked = { ...hockeyStick('left'), bends: [undefined, at(4000 + 2000, 1200)] };
    const [front, footAfter, back, footBefore] = cornerFootprint(kinked, 0, { kind: 'mitre' }, scale);
    expect(placeOnStraight(kinked, 0, footBefore, scale).offsetMm).toBeCloseTo(0, 6);
    expect(placeOnStraight(kinked, 1, footAfter, scale).offsetMm).toBeCloseTo(0, 6);
    expect(Math.hypot(back.x - footAfter.x, back.y - footAfter.y) * mm).toBeCloseTo(600, 6);
    expect(Math.hypot(back.x - footBefore.x, back.y - footBefore.y) * mm).toBeCloseTo(600, 6);
    expect(front.x).toBeCloseTo(kinked.frontLine[1]!.x, 9);
    expect(front.y).toBeCloseTo(0, 9);
  });

  it('is drawn as chords that stay on the arc', () => {
    const points = flattenedPath(hockeyStick('left'));
    expect(points.length).toBeGreaterThan(10);
    expect(polylineLength(points) * mm).toBeCloseTo(6000 + (radiusMm * Math.PI) / 2, -1);
  });
});
