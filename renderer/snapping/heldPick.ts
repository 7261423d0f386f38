import { intersectLines } from '../../src/geometry/line.ts';
import { type PaperPoint, paperPoint } from '../../src/geometry/point.ts';
import { dot, type Vector, vectorBetween } from '../../src/geometry/vector.ts';
import { heldDirectionRad } from '../tools/holds.ts';
import type { Guides, Hold, Relation, RelationKind } from '../tools/pick.ts';
import type { Candidate } from './candidate.ts';
import type { NearLine } from './drawnCandidates.ts';

const kinds: Readonly<Record<Hold['kind'], RelationKind>> = {
  on: 'in-line',
  square: 'square',
  sheet: 'in-line',
  steps: 'in-line',
  direction: 'parallel',
};
const words: Readonly<Record<Hold['kind'], string>> = {
  on: 'straight on',
  square: 'square to the last',
  sheet: 'in line',
  steps: '15° steps',
  direction: 'parallel to',
};

/** A drawn line nearer than this to the held direction does not say where on it to stop. */
const leastCrossing = Math.sin((2 * Math.PI) / 180);

/**
 * Places on the held direction: level with a drawn point near the hand, where it meets a drawn line near the hand, else
 * at the foot of the hand itself. Null where the hold says nothing.
 */
export const heldCandidates = (
  hand: PaperPoint,
  hold: Hold,
  guides: Guides,
  drawn: { readonly candidates: readonly Candidate[]; readonly lines: readonly NearLine[] },
  sheetRightRad: number,
): readonly Candidate[] | null => {
  const { anchor } = guides;
  if (!anchor || (anchor.x === hand.x && anchor.y === hand.y)) return null;
  const alongRad = heldDirectionRad(
    hold,
    guides,
    Math.atan2(hand.y - anchor.y, hand.x - anchor.x),
    sheetRightRad,
  );
  if (alongRad === null) return null;
  const way: Vector = { x: Math.cos(alongRad), y: Math.sin(alongRad) };
  const footOf = (point: PaperPoint): PaperPoint => {
    const along = dot(vectorBetween(anchor, point), way);
    return paperPoint(anchor.x + way.x * along, anchor.y + way.y * along);
  };
  const held = (word: string | null): Relation => ({
    kind: kinds[hold.kind],
    word: word ? `${words[hold.kind]}, ${word}` : words[hold.kind],
    alongRad,
    isDrawn: word !== null,
    towards: anchor,
  });
  const points = drawn.candidates
    .filter(({ relation }) => relation.kind !== 'on-line')
    .map(
      ({ at, distance, relation }): Candidate => ({
        at: footOf(at),
        distance,
        relation: held(`level with ${relation.word}`),
      }),
    );
  const crossings = drawn.lines.flatMap(({ start, along }): Candidate[] => {
    if (Math.abs(way.x * along.y - way.y * along.x) < leastCrossing) return [];
    const at = intersectLines(anchor, way, start, along);
    return at ? [{ at: paperPoint(at.x, at.y), distance: 0, relation: held('on a line') }] : [];
  });
  const free: Candidate = {
    at: footOf(hand),
    distance: 0,
    relation: held(null),
  };
  return [...points, ...crossings, free];
};
