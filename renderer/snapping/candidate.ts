import type { PaperPoint } from '../../src/geometry/point.ts';
import type { Relation, RelationKind } from '../tools/pick.ts';

/** A place that a pick may be caught by. */
export interface Candidate {
  readonly at: PaperPoint;
  readonly relation: Relation;
  /** From the hand, in user-space units. */
  readonly distance: number;
  /** Of an earlier point that is picked again, in points; else the drawing or the hand says how sure it is. */
  readonly uncertaintyPt?: number;
}

/**
 * What is preferred where several are within reach: a place is taken before another unless it is this share of the reach
 * farther from the hand. Drawn points come first, then places that a drawn line and a direction give together, then bare
 * lines, then bare directions.
 */
const bias: Readonly<Record<RelationKind, number>> = {
  end: 0,
  crossing: 0.05,
  square: 0.25,
  middle: 0.3,
  parallel: 0.45,
  'in-line': 0.4,
  'on-line': 0.6,
};
/** A direction without a drawn line to stop it is caught all along it, so that it must not win over any line. */
const bareBias = 0.8;
/** Two directions that cross say as much as a drawn line, but less than a drawn point. */
const crossedBias = 0.5;

/** How a candidate stands among others: the least cost is offered first. */
export const costOf = ({ relation, distance }: Candidate, reach: number): number => {
  const isCrossed = !relation.isDrawn && relation.word.includes(',');
  const share =
    relation.isDrawn || relation.kind === 'end' ? bias[relation.kind] : isCrossed ? crossedBias : bareBias;
  return distance + share * reach;
};
