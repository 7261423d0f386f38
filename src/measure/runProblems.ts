import { doSegmentsTouch, type Segment } from '../geometry/line.ts';
import { segmentsOf } from '../geometry/polyline.ts';
import { backPathOf } from './backLine.ts';
import { cornersOf } from './corners.ts';
import { isPartUsedUp } from './offsetPath.ts';
import { flattenedPart } from './runPath.ts';
import { straightsOf } from './straights.ts';
import type { SheetScale, TracedRun } from './tracedRun.ts';

/** What is wrong with a traced run: a code, where, and what to do about it. */
export interface RunProblem {
  readonly code:
    | 'run-too-few-points'
    | 'run-point-not-finite'
    | 'run-depth-not-positive'
    | 'run-pick-uncertainty-negative'
    | 'run-straight-too-short'
    | 'run-doubles-back'
    | 'run-bend-too-tight'
    | 'run-crosses-itself'
    | 'run-deeper-than-its-straight';
  readonly message: string;
  /** Such as `frontLine[2]` or `depthMm`. */
  readonly path: string;
}

/** A straight shorter than this is a slip of the hand: two picks at one place. */
export const SHORTEST_STRAIGHT_MM = 1;

/** The back of a bent straight with the front outside keeps at least this radius. */
export const LEAST_BACK_RADIUS_MM = 1;

/** A front that turns by more than this runs back along itself. */
export const SHARPEST_TURN_DEG = 175;

function shapeProblems(run: TracedRun): readonly RunProblem[] {
  const problems: RunProblem[] = [];
  if (run.frontLine.length < 2) {
    const message = `A front line needs at least two points, found ${run.frontLine.length}: pick where it ends.`;
    problems.push({ code: 'run-too-few-points', message, path: 'frontLine' });
  }
  for (const [index, { x, y }] of run.frontLine.entries()) {
    if (Number.isFinite(x) && Number.isFinite(y)) continue;
    const message = `The point has coordinates that are not numbers, found (${x}, ${y}): pick it again.`;
    problems.push({ code: 'run-point-not-finite', message, path: `frontLine[${index}]` });
  }
  if (!(run.depthMm > 0 && Number.isFinite(run.depthMm))) {
    const message = `The depth must be more than 0 mm, found ${run.depthMm}: type it, or pick the back line.`;
    problems.push({ code: 'run-depth-not-positive', message, path: 'depthMm' });
  }
  if (
    run.pickUncertaintyPt !== undefined &&
    !(run.pickUncertaintyPt >= 0 && Number.isFinite(run.pickUncertaintyPt))
  ) {
    const message = `The uncertainty of a pick must be 0 or more points, found ${run.pickUncertaintyPt}.`;
    problems.push({ code: 'run-pick-uncertainty-negative', message, path: 'pickUncertaintyPt' });
  }
  return problems;
}

function straightProblems(run: TracedRun, scale: SheetScale): readonly RunProblem[] {
  const short = straightsOf(run, scale)
    .filter(({ lengthMm }) => lengthMm < SHORTEST_STRAIGHT_MM)
    .map(({ index, lengthMm }): RunProblem => {
      const message = `Straight ${index + 1} is ${lengthMm.toFixed(2)} mm long: take one of its two points away.`;
      return { code: 'run-straight-too-short', message, path: `frontLine[${index + 1}]` };
    });
  if (short.length > 0) return short;
  const tight = straightsOf(run, scale).flatMap(({ index, bend }): RunProblem[] => {
    if (!bend || bend.front === 'inside' || bend.radiusMm > run.depthMm + LEAST_BACK_RADIUS_MM) return [];
    const message = `Straight ${index + 1} is bent to a radius of ${bend.radiusMm.toFixed(0)} mm, but the bar is ${run.depthMm} mm deep: nothing is left of its back. Bend it less, or make the bar shallower.`;
    return [{ code: 'run-bend-too-tight', message, path: `bends[${index}]` }];
  });
  if (tight.length > 0) return tight;
  return cornersOf(run)
    .filter(({ turnDeg }) => Math.abs(turnDeg) > SHARPEST_TURN_DEG)
    .map(({ index, turnDeg }): RunProblem => {
      const message = `The front turns by ${Math.abs(turnDeg).toFixed(1)} degrees and runs back along itself: move the corner.`;
      return { code: 'run-doubles-back', message, path: `frontLine[${index + 1}]` };
    });
}

/** An island bar may end where it began: its last straight then touches its first, and only there. */
const isIslandClosing = (run: TracedRun, earlierIndex: number, laterIndex: number): boolean => {
  const first = run.frontLine[0];
  const last = run.frontLine.at(-1);
  const isClosed = first !== undefined && last !== undefined && first.x === last.x && first.y === last.y;
  return isClosed && earlierIndex === 0 && laterIndex === run.frontLine.length - 2;
};

const doPartsTouch = (one: readonly Segment[], other: readonly Segment[]): boolean =>
  one.some((ours) => other.some((theirs) => doSegmentsTouch(ours, theirs)));

function crossingProblems(run: TracedRun, scale: SheetScale): readonly RunProblem[] {
  const parts = run.frontLine.slice(1).map((_, index) => segmentsOf(flattenedPart(run, index)));
  const crossings = parts.flatMap((later, index) =>
    parts.slice(0, Math.max(0, index - 1)).flatMap((earlier, earlierIndex): RunProblem[] => {
      if (!doPartsTouch(earlier, later) || isIslandClosing(run, earlierIndex, index)) return [];
      const message = `Straight ${index + 1} meets straight ${earlierIndex + 1} again: move a corner, or trace two runs.`;
      return [{ code: 'run-crosses-itself', message, path: `frontLine[${index + 1}]` }];
    }),
  );
  const back = backPathOf(run, scale);
  const tooDeep = parts.flatMap((_, index): RunProblem[] => {
    if (!isPartUsedUp(run, back, index)) return [];
    const message = `No length of straight ${index + 1} is left at the back, ${run.depthMm} mm behind the front: check the depth and the side of the back.`;
    return [{ code: 'run-deeper-than-its-straight', message, path: 'depthMm' }];
  });
  return [...crossings, ...tooDeep];
}

/**
 * What is wrong with a run, if anything, the gravest first: only where its numbers are sound are its straights looked
 * at, and only where those are sound its crossings. An empty list means that everything in this folder can measure it.
 */
export function runProblems(run: TracedRun, scale: SheetScale): readonly RunProblem[] {
  for (const problemsOf of [shapeProblems, straightProblems, crossingProblems]) {
    const problems = problemsOf(run, scale);
    if (problems.length > 0) return problems;
  }
  return [];
}
