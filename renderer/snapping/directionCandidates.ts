import { intersectLines } from '../../src/geometry/line.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import {
  cross,
  distanceBetween,
  dot,
  leftOf,
  type Vector,
  vectorBetween,
} from '../../src/geometry/vector.ts';
import { lastStraightRad } from '../tools/holds.ts';
import type { EarlierPoint, Guides } from '../tools/pick.ts';
import type { Candidate } from './candidate.ts';
import type { NearLine } from './drawnCandidates.ts';

/** A line through an earlier point along which the next one may lie. */
interface Direction {
  readonly through: PaperPoint;
  readonly along: Vector;
  readonly kind: 'in-line' | 'square' | 'parallel';
  readonly word: string;
}

/** Lines and directions closer than this to parallel have no crossing worth offering. */
const leastCrossing = Math.sin((2 * Math.PI) / 180);
/** How many earlier points are looked at: those of the trace itself come first. */
const mostPoints = 24;

const wayOf = (angleRad: number): Vector => ({ x: Math.cos(angleRad), y: Math.sin(angleRad) });

/** The directions through earlier points that pass within reach of the hand. */
const directionsNear = (
  hand: PaperPoint,
  reach: number,
  guides: Guides,
  lines: readonly NearLine[],
  sheetRightRad: number,
): readonly Direction[] => {
  const { anchor } = guides;
  const right = wayOf(sheetRightRad);
  const last = lastStraightRad(guides);
  const directions: Direction[] = [];
  if (anchor) {
    if (last !== null) {
      const on = wayOf(last);
      directions.push({ through: anchor, along: on, kind: 'in-line', word: 'straight on' });
      directions.push({ through: anchor, along: leftOf(on), kind: 'square', word: 'square to the last' });
    }
    for (const along of [right, leftOf(right)])
      directions.push({ through: anchor, along, kind: 'in-line', word: 'in line' });
    for (const { along } of lines)
      directions.push({ through: anchor, along, kind: 'parallel', word: 'parallel to' });
  }
  for (const { at: through } of guides.points.slice(0, mostPoints))
    for (const along of [right, leftOf(right)])
      directions.push({ through, along, kind: 'in-line', word: 'in line' });
  const kept: Direction[] = [];
  for (const direction of directions) {
    const way = vectorBetween(direction.through, hand);
    const isNear = Math.abs(cross(direction.along, way)) <= reach && Math.hypot(way.x, way.y) > reach;
    const isNew = kept.every(
      ({ through, along }) => through !== direction.through || Math.abs(cross(along, direction.along)) > 1e-9,
    );
    if (isNear && isNew) kept.push(direction);
  }
  return kept;
};

const onDirection = (
  { through, along, kind, word }: Direction,
  at: PaperPoint,
  hand: PaperPoint,
  more: { readonly word: string; readonly isDrawn: boolean } | null,
): Candidate => ({
  at,
  distance: distanceBetween(at, hand),
  relation: {
    kind,
    word: more ? `${more.word}, ${word}` : word,
    alongRad: Math.atan2(along.y, along.x),
    isDrawn: more?.isDrawn ?? false,
    towards: through,
  },
});

const crossingOf = (
  one: { readonly at: PaperPoint; readonly along: Vector },
  other: { readonly at: PaperPoint; readonly along: Vector },
): PaperPoint | null => {
  if (Math.abs(cross(one.along, other.along)) < leastCrossing) return null;
  const at = intersectLines(one.at, one.along, other.at, other.along);
  return at ? paperPoint(at.x, at.y) : null;
};

const isOnLine = ({ start, end, along }: NearLine, at: PaperPoint): boolean => {
  const share = dot(vectorBetween(start, at), along);
  return share >= -1e-6 && share <= distanceBetween(start, end) + 1e-6;
};

/**
 * Places that directions give: on a drawn line and square to it from the anchor, on a drawn line and in line with an
 * earlier point, where two directions cross, and anywhere along one.
 */
export const directionCandidates = (
  hand: PaperPoint,
  reach: number,
  guides: Guides,
  lines: readonly NearLine[],
  sheetRightRad: number,
): readonly Candidate[] => {
  const { anchor } = guides;
  const candidates: Candidate[] = [];
  const add = (candidate: Candidate) => {
    if (candidate.distance <= reach) candidates.push(candidate);
  };
  if (anchor)
    for (const line of lines) {
      const along = dot(vectorBetween(line.start, anchor), line.along);
      const foot = paperPoint(line.start.x + line.along.x * along, line.start.y + line.along.y * along);
      if (isOnLine(line, foot) && distanceBetween(foot, anchor) > reach)
        add({
          at: foot,
          distance: distanceBetween(foot, hand),
          relation: {
            kind: 'square',
            word: 'square to',
            alongRad: Math.atan2(line.along.y, line.along.x),
            isDrawn: true,
            towards: anchor,
          },
        });
    }
  const directions = directionsNear(hand, reach, guides, lines, sheetRightRad);
  for (const [place, direction] of directions.entries()) {
    const here = { at: direction.through, along: direction.along };
    for (const line of lines) {
      const at = crossingOf(here, { at: line.start, along: line.along });
      if (at && isOnLine(line, at))
        add(onDirection(direction, at, hand, { word: 'on a line', isDrawn: true }));
    }
    for (const other of directions.slice(place + 1)) {
      if (other.through === direction.through) continue;
      const at = crossingOf(here, { at: other.through, along: other.along });
      if (at) add(onDirection(direction, at, hand, { word: other.word, isDrawn: false }));
    }
    const along = dot(vectorBetween(direction.through, hand), direction.along);
    const foot = paperPoint(
      direction.through.x + direction.along.x * along,
      direction.through.y + direction.along.y * along,
    );
    add(onDirection(direction, foot, hand, null));
  }
  return candidates;
};

/** Earlier points within reach of the hand: they are ends as good as drawn ones. */
export const pointCandidates = (
  hand: PaperPoint,
  reach: number,
  points: readonly EarlierPoint[],
): readonly Candidate[] =>
  points.flatMap(({ at, uncertaintyPt }): Candidate[] => {
    const distance = distanceBetween(at, hand);
    return distance <= reach
      ? [
          {
            at,
            distance,
            uncertaintyPt,
            relation: { kind: 'end', word: 'point', alongRad: null, isDrawn: false, towards: at },
          },
        ]
      : [];
  });
