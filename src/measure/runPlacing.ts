import { type PaperPoint, paperPoint } from '../geometry/point.ts';
import { distanceBetween, dot } from '../geometry/vector.ts';
import {
  mmPerUserUnit,
  type SheetScale,
  straightCountOf,
  straightLineOf,
  type TracedRun,
} from './tracedRun.ts';

/** A copy lies this many depths in front of its original: clear of it, and near (common practice, no source). */
const depthsInFront = 1.5;

const longestStraight = (run: TracedRun) =>
  Array.from({ length: straightCountOf(run) }, (_, index) => straightLineOf(run, index)).reduce(
    (best, line) =>
      distanceBetween(line.start, line.end) > distanceBetween(best.start, best.end) ? line : best,
  );

/** Where a copy of a run goes: in front of its longest straight. */
export const placeInFront = (run: TracedRun, scale: SheetScale): ((point: PaperPoint) => PaperPoint) => {
  const { towardsBack } = longestStraight(run);
  const units = (depthsInFront * run.depthMm) / mmPerUserUnit(scale);
  return ({ x, y }) => paperPoint(x - towardsBack.x * units, y - towardsBack.y * units);
};

/** Where a run's mirror image has its points: start for finish along its longest straight, about the middle of the run. */
export const placeMirrored = (run: TracedRun): ((point: PaperPoint) => PaperPoint) => {
  const { along } = longestStraight(run);
  const places = run.frontLine.map((point) => dot(point, along));
  const middle = (Math.min(...places) + Math.max(...places)) / 2;
  return (point) => {
    const by = 2 * (middle - dot(point, along));
    return paperPoint(point.x + along.x * by, point.y + along.y * by);
  };
};
