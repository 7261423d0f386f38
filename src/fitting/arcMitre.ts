import { type Curve, curveCrossings } from '../geometry/curveCrossings.ts';
import type { Point } from '../geometry/point.ts';
import { distanceBetween, leftOf, movedBy, type Vector } from '../geometry/vector.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';

/** A straight or an arc that ends at the corner, which lies at the origin, with the back on the left. */
interface Leg {
  readonly along: Vector;
  /** Of an arc; on the left where the front is outside. */
  readonly centre: Point | undefined;
  readonly radiusMm: number;
  readonly isFrontOutside: boolean;
}

const legOf = (problem: FitProblem, straight: number, along: Vector): Leg => {
  const { arc } = problem.straights[straight]!;
  if (arc === undefined) return { along, centre: undefined, radiusMm: 0, isFrontOutside: true };
  const isFrontOutside = arc.front === 'outside';
  const centre = movedBy({ x: 0, y: 0 }, leftOf(along), isFrontOutside ? arc.radiusMm : -arc.radiusMm);
  return { along, centre, radiusMm: arc.radiusMm, isFrontOutside };
};

const movedBack = (leg: Leg, offsetMm: number): Curve =>
  leg.centre
    ? { centre: leg.centre, radius: leg.radiusMm + (leg.isFrontOutside ? -offsetMm : offsetMm) }
    : { at: movedBy({ x: 0, y: 0 }, leftOf(leg.along), offsetMm), along: leg.along };

/** How far along the front of a leg the foot of a point lies from the corner, in the leg's direction. */
const footMm = (leg: Leg, point: Point): number => {
  const { centre, along } = leg;
  if (!centre) return point.x * along.x + point.y * along.y;
  const [corner, foot] = [
    { x: -centre.x, y: -centre.y },
    { x: point.x - centre.x, y: point.y - centre.y },
  ];
  const turned = Math.atan2(corner.x * foot.y - corner.y * foot.x, corner.x * foot.x + corner.y * foot.y);
  return (leg.isFrontOutside ? turned : -turned) * leg.radiusMm;
};

/** What a wedge at a corner takes off both straights. */
export interface MitreOffs {
  readonly firstUm: number;
  readonly secondUm: number;
}

/**
 * What the wedge at corner `index` takes off both straights, in micrometres along their traced fronts, where at least one
 * of them is an arc: from the corner to the feet of the point where their back lines meet (front outside), or where the
 * lines behind their cladding meet (front inside). Between two straights that is (depth + cladding) x tan(|turn| / 2), or
 * less than nothing, -cladding x tan(|turn| / 2). Nothing where the lines don't meet.
 */
export const arcMitreOffs = (problem: FitProblem, index: number): MitreOffs | undefined => {
  const turnRad = (problem.corners![index]!.turnDeg * Math.PI) / 180;
  const claddingMm = problem.allowances?.claddingMm ?? 0;
  const offsetMm = turnRad > 0 ? claddingMm + problem.depthMm : claddingMm;
  const first = legOf(problem, index, { x: 1, y: 0 });
  const second = legOf(problem, index + 1, { x: Math.cos(turnRad), y: Math.sin(turnRad) });
  if (offsetMm === 0) return { firstUm: 0, secondUm: 0 };
  const reachMm = offsetMm * Math.tan(turnRad / 2);
  const guess = { x: -reachMm, y: offsetMm };
  const meeting = curveCrossings(movedBack(first, offsetMm), movedBack(second, offsetMm)).toSorted(
    (a, b) => distanceBetween(a, guess) - distanceBetween(b, guess),
  )[0];
  if (meeting === undefined) return undefined;
  return { firstUm: micrometres(-footMm(first, meeting)), secondUm: micrometres(footMm(second, meeting)) };
};
