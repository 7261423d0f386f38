import { type BoxInBox, type BoxSearch, longestBoxInBox } from './boxInBox.ts';
import type { Triple } from './boxRotation.ts';
import { floorWays } from './floorWays.ts';
import { type Handling, sizeOf } from './handling.ts';
import { bestWay, isPassing, longestOf, type PassingWay } from './passingWay.ts';
import { type MovingPlan, planWays } from './planWays.ts';
import { sectionWays, slopeWays } from './sectionWays.ts';
import { deepCornerPlan, sideDoorwayPlan, turnPlan } from './turnPlan.ts';
import { type AccessPiece, LONGEST_DESCRIBABLE_MM, type Obstacle, type ObstacleOf } from './wayInSchema.ts';

/** What one obstacle says of one piece. */
export interface ObstacleVerdict {
  readonly passes: boolean;
  /** The way that leaves most room (of the tightest part, where the obstacle has several). */
  readonly way: PassingWay;
  /** The longest piece of this width and height that passes here, by any allowed way; 0 where none does. */
  readonly longestMm: number;
  /** Rated load less the piece's mass, in a lift. */
  readonly spareKg?: number;
  /** What geometry alone can't settle, where there is something. */
  readonly doubt?: MovementDoubt;
}

/**
 * - `movement`: it passes a lift's door and lies in its car, but going from the one into the other is not proved.
 * - `outer-corner`: it is too long for the turn, unless it can be backed into the outer corner and drawn out the other way.
 */
export type MovementDoubt = 'movement' | 'outer-corner';

/** An obstacle made ready to judge pieces; it remembers what it has worked out for equal cross-sections. */
export type ObstacleRule = (
  piece: AccessPiece,
  handling: Handling,
  question: AccessQuestion,
) => ObstacleVerdict;

/**
 * What the caller wants to know; it spares the search of tilted positions in lifts where that cannot matter.
 * - `passes`: only whether it passes; the margin may then be too small and the longest piece too short.
 * - `longest`: everything, though of a longest piece beyond `upToMm` only that it is beyond.
 */
export type AccessQuestion =
  | { readonly ask: 'passes' }
  | { readonly ask: 'longest'; readonly upToMm: number };

/** Asks for the whole answer. */
export const WHOLE_ANSWER: AccessQuestion = { ask: 'longest', upToMm: Number.POSITIVE_INFINITY };

/**
 * Makes an obstacle ready. Obstacles are judged one by one: between two of them a piece may be taken up differently,
 * as carriers do.
 */
export const obstacleRule = (obstacle: Obstacle): ObstacleRule => {
  switch (obstacle.kind) {
    case 'doorway': {
      const widthMm = obstacle.widthMm - (obstacle.leafMm ?? 0);
      const heightMm = obstacle.heightMm - (obstacle.thresholdMm ?? 0);
      return (piece, handling) => judged(sectionWays(piece, handling, widthMm, heightMm));
    }
    case 'passage':
      return (piece, handling) => judged(sectionWays(piece, handling, obstacle.widthMm, obstacle.heightMm));
    case 'ramp': {
      const slopeRad = radians(obstacle.slopeDeg ?? 0);
      return (piece, handling) =>
        judged(slopeWays(piece, handling, obstacle.widthMm, obstacle.heightMm, slopeRad));
    }
    case 'turn': {
      const turn = { ...obstacle, turnRad: radians(obstacle.angleDeg ?? 90) };
      const plan = turnPlan(turn);
      const deepPlan = deepCornerPlan(turn);
      return (piece, handling) => {
        const verdict = judged(planWays(piece, handling, plan));
        return !verdict.passes && deepPlan && judged(planWays(piece, handling, deepPlan)).passes
          ? { ...verdict, doubt: 'outer-corner' }
          : verdict;
      };
    }
    case 'side-doorway': {
      const widthMm = obstacle.widthMm - (obstacle.leafMm ?? 0);
      const heightMm = obstacle.heightMm - (obstacle.thresholdMm ?? 0);
      const plan = sideDoorwayPlan(
        { passageMm: obstacle.passageMm, doorMm: widthMm, wallMm: obstacle.wallMm ?? 0 },
        heightMm,
      );
      return (piece, handling) => judged(planWays(piece, handling, plan));
    }
    case 'lift':
      return liftRule(obstacle);
    case 'stair':
      return stairRule(obstacle);
    case 'height-limit':
      return (piece, handling) => judged(underLimit(piece, handling, obstacle.heightMm));
    case 'set-down':
      return (piece, handling) =>
        judged(
          floorWays(
            piece,
            handling,
            obstacle.widthMm,
            obstacle.depthMm,
            obstacle.heightMm ?? LONGEST_DESCRIBABLE_MM,
          ),
        );
  }
};

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

const judged = (ways: readonly PassingWay[]): ObstacleVerdict => {
  const way = bestWay(ways);
  return { passes: isPassing(way.marginMm), way, longestMm: longestOf(ways) };
};

/** Of two parts that must both be passed, the tighter one speaks. */
const bothOf = (
  first: ObstacleVerdict,
  firstPart: NonNullable<PassingWay['part']>,
  second: ObstacleVerdict,
  secondPart: NonNullable<PassingWay['part']>,
): ObstacleVerdict => ({
  passes: first.passes && second.passes,
  way:
    first.way.marginMm <= second.way.marginMm
      ? { ...first.way, part: firstPart }
      : { ...second.way, part: secondPart },
  longestMm: Math.min(first.longestMm, second.longestMm),
});

const underLimit = (piece: AccessPiece, handling: Handling, heightMm: number): readonly PassingWay[] =>
  handling.verticals.map((vertical) => {
    const marginMm = heightMm - sizeOf(piece, vertical);
    return {
      vertical,
      along: null,
      manner: 'straight',
      marginMm,
      longestMm: vertical === 'length' ? heightMm : isPassing(marginMm) ? LONGEST_DESCRIBABLE_MM : 0,
    };
  });

/**
 * A lift: through its door along one axis of the piece, and within its car at rest, judged apart. The movement from the
 * one to the other is proved where the piece simply goes straight on: see `goesStraightIn`. Where it would have to be
 * turned or stood up on its way, that depends on where the door sits in its wall and how thick it is, and is left in
 * doubt. Tilted positions in the car are searched only where a piece
 * that stands on a face does not already answer the question. The rated load is held against the piece alone.
 */
const liftRule = (lift: ObstacleOf<'lift'>): ObstacleRule => {
  const car: Triple = [lift.carWidthMm, lift.carDepthMm, lift.carHeightMm];
  const known = new Map<string, BoxInBox>();
  const tilted = (piece: AccessPiece, search: BoxSearch): BoxInBox => {
    const key = `${Math.min(piece.widthMm, piece.heightMm)} ${Math.max(piece.widthMm, piece.heightMm)}`;
    const before = known.get(key);
    if (before !== undefined && isAnswered(before, search)) return before;
    const fresh = longestBoxInBox(car, piece.widthMm, piece.heightMm, search);
    known.set(key, fresh);
    return fresh;
  };
  return (piece, handling, question) => {
    const door = judged(sectionWays(piece, handling, lift.doorWidthMm, lift.doorHeightMm));
    const standing = judged(floorWays(piece, handling, lift.carWidthMm, lift.carDepthMm, lift.carHeightMm));
    const wantedMm = question.ask === 'passes' ? piece.lengthMm : Math.min(question.upToMm, door.longestMm);
    let inCar = standing;
    if (handling.verticals.length === 3 && (!standing.passes || standing.longestMm < wantedMm)) {
      // A margin of a tilted position needs the whole search; a longest piece only as far as it is wanted.
      const search =
        question.ask === 'passes'
          ? { enoughMm: wantedMm, leastMm: wantedMm }
          : { enoughMm: standing.passes ? wantedMm : Number.POSITIVE_INFINITY, leastMm: 0 };
      const found = tilted(piece, { ...search, knownMm: standing.longestMm });
      inCar = { ...standing, longestMm: Math.max(standing.longestMm, found.longestMm) };
      if (!standing.passes && found.rows !== null) {
        const marginMm = found.longestMm - piece.lengthMm;
        if (marginMm > standing.way.marginMm) {
          inCar = judged([
            {
              vertical: null,
              along: null,
              manner: 'tilted',
              marginMm,
              longestMm: found.longestMm,
              rows: found.rows,
            },
          ]);
        }
      }
    }
    const spareKg = lift.ratedKg - piece.massKg;
    const both = bothOf(door, 'door', inCar, 'car');
    const passes = both.passes && spareKg >= 0;
    const inDoubt = passes && !goesStraightIn(piece, handling, lift);
    return { ...both, passes, spareKg, ...(inDoubt ? { doubt: 'movement' } : {}) };
  };
};

/**
 * Whether a piece goes through a lift's door and straight on to the back of its car, held all the way as it is in the
 * door: its section passes what door and car have in common, and it is no longer than the car is deep. The door lies
 * within the front of the car, wherever it sits.
 */
const goesStraightIn = (piece: AccessPiece, handling: Handling, lift: ObstacleOf<'lift'>): boolean =>
  sectionWays(
    piece,
    handling,
    Math.min(lift.doorWidthMm, lift.carWidthMm),
    Math.min(lift.doorHeightMm, lift.carHeightMm),
  ).some(
    ({ along, marginMm }) =>
      along !== null && isPassing(marginMm) && isPassing(lift.carDepthMm - sizeOf(piece, along)),
  );

/** Whether an earlier search of the same box still answers: run to its end, or decided at the length asked for. */
const isAnswered = (
  found: BoxInBox,
  { enoughMm = Number.POSITIVE_INFINITY, leastMm = 0 }: BoxSearch,
): boolean =>
  found.boundMm - found.longestMm < 0.05 || found.longestMm >= enoughMm || found.boundMm < leastMm;

/**
 * A straight stair: its flight, as a slope of the given width and headroom, and the turn on its landing.
 *
 * The landing is taken as a turn from a passage as wide as the flight into one as wide as the landing is long, level,
 * under the same headroom. Turning back on itself (180) makes two such turns on a landing two flights and the well
 * wide, on which the piece must lie between them. 0 is a landing passed straight on: no turn.
 */
const stairRule = (stair: ObstacleOf<'stair'>): ObstacleRule => {
  const slopeRad = radians(stair.pitchDeg ?? 0);
  const turnDeg = stair.landingTurnDeg ?? 90;
  const landingWidthMm = 2 * stair.widthMm + (stair.wellMm ?? 0);
  const plan: MovingPlan | null =
    turnDeg === 0
      ? null
      : turnPlan({
          fromMm: stair.widthMm,
          toMm: stair.landingMm,
          heightMm: stair.headroomMm,
          turnRad: Math.PI / 2,
          ...(turnDeg === 180 ? { toLegMm: landingWidthMm } : {}),
        });
  return (piece, handling) => {
    const flight = judged(slopeWays(piece, handling, stair.widthMm, stair.headroomMm, slopeRad));
    if (plan === null) return { ...flight, way: { ...flight.way, part: 'flight' } };
    return bothOf(flight, 'flight', judged(planWays(piece, handling, plan)), 'landing');
  };
};
