import { type FittedCircle, fitCircle } from '../geometry/fitCircle.ts';
import type { Point } from '../geometry/point.ts';
import { signedTurnRad } from '../geometry/turn.ts';
import { distanceBetween, vectorBetween } from '../geometry/vector.ts';

/** A stretch of a line that goes along a circle. */
export interface FollowedArc {
  /** The stretch of the line: from this point to the next. */
  readonly straight: number;
  readonly centre: Point;
  readonly radius: number;
  /** The point of the arc half-way. */
  readonly through: Point;
}

/** A line with its round stretches taken together: fewer points, and which of its stretches are arcs. */
export interface LineWithArcs {
  readonly points: readonly Point[];
  readonly arcs: readonly FollowedArc[];
}

/** Chords of a drawn arc turn by no more than this; an octagon's corners turn by more. */
const mostTurnRad = (40 * Math.PI) / 180;
/** What turns by less in all may as well be straight. */
const leastSweepRad = (8 * Math.PI) / 180;
/** Chords of one arc are alike: only its first and last may be cut short. */
const likeLengths = 2.5;
/**
 * How far a point may lie beside the circle: points of paper, for the rounding of plots, and a share of the radius, for
 * curves (a quarter of a circle as one cubic is off by 0.03 % of its radius).
 */
const besidePt = 0.06;
const besideShare = 0.0006;
/** An arc is seen by at least so many chords: through three points there always is a circle. */
const leastChords = 3;

/** How many chords from `first` on turn the same way, little by little, and are alike. */
const chordsAlike = (points: readonly Point[], first: number): number => {
  const chord = (at: number) => vectorBetween(points[at]!, points[at + 1]!);
  const length = (at: number) => distanceBetween(points[at]!, points[at + 1]!);
  let side = 0;
  let count = 1;
  // The second chord is the measure: the first may be cut short.
  const measure = first + 2 < points.length ? length(first + 1) : 0;
  if (length(first) > likeLengths * measure) return 0;
  while (first + count + 1 < points.length) {
    const turn = signedTurnRad(chord(first + count - 1), chord(first + count));
    if (Math.abs(turn) > mostTurnRad || turn === 0) break;
    if (side === 0) side = Math.sign(turn);
    if (Math.sign(turn) !== side) break;
    const next = length(first + count);
    if (next > likeLengths * measure) break;
    count += 1;
    // A short one is the last.
    if (next * likeLengths < measure) break;
  }
  return count;
};

const sweepOf = (points: readonly Point[], first: number, chords: number): number => {
  let sweep = 0;
  for (let at = first + 1; at < first + chords; at += 1)
    sweep += signedTurnRad(
      vectorBetween(points[at - 1]!, points[at]!),
      vectorBetween(points[at]!, points[at + 1]!),
    );
  // Half a turn more at either end: chords start and stop in the middle of what they turn by.
  return chords > 1 ? sweep * (chords / (chords - 1)) : sweep;
};

/** The longest arc that starts at a point: how many chords it takes, and its circle. */
const arcFrom = (points: readonly Point[], first: number) => {
  const most = chordsAlike(points, first);
  if (most < leastChords) return null;
  const circleOf = (chords: number): FittedCircle | null => {
    const circle = fitCircle(points.slice(first, first + chords + 1));
    return circle && circle.residual <= Math.max(besidePt, besideShare * circle.radius) ? circle : null;
  };
  // Twice as many at a time, then halved: most chains are arcs as far as they go, or none at all.
  let [good, bad, circle] = [0, most + 1, null as FittedCircle | null];
  for (let chords = leastChords; good < bad - 1; ) {
    const found = circleOf(chords);
    if (found) [good, circle] = [chords, found];
    else bad = chords;
    if (!circle) return null;
    chords = bad <= most ? (good + bad) >> 1 : Math.min(most, 2 * good);
  }
  const sweep = sweepOf(points, first, good);
  return circle && Math.abs(sweep) >= leastSweepRad ? { chords: good, sweep, circle } : null;
};

/**
 * Finds the stretches of a line that were drawn as arcs: chains of alike chords that turn the same way little by little
 * and whose points all lie on one circle. Their inner points go; a corner stays a corner.
 *
 * @param within points that lie within a straight: they stay only where an arc starts or stops
 */
export const findArcs = (line: readonly Point[], within: ReadonlySet<Point> = new Set()): LineWithArcs => {
  const points: Point[] = [];
  const arcs: FollowedArc[] = [];
  let at = 0;
  let arcEnd = -1;
  while (at < line.length) {
    const start = line[at]!;
    const found = at + leastChords < line.length ? arcFrom(line, at) : null;
    if (found || at === arcEnd || !within.has(start)) points.push(start);
    if (!found) {
      at += 1;
      continue;
    }
    const { chords, sweep, circle } = found;
    const { centre, radius } = circle;
    const end = line[at + chords]!;
    const from = Math.atan2(start.y - centre.y, start.x - centre.x);
    const to = Math.atan2(end.y - centre.y, end.x - centre.x);
    // The way round that the chords took, however much of the circle that is.
    const turns = Math.round((sweep - (to - from)) / (2 * Math.PI));
    const middle = from + (to - from + turns * 2 * Math.PI) / 2;
    arcs.push({
      straight: points.length - 1,
      centre,
      radius,
      through: { x: centre.x + radius * Math.cos(middle), y: centre.y + radius * Math.sin(middle) },
    });
    at += chords;
    arcEnd = at;
  }
  return { points, arcs };
};
