import { ACCESS_CAUTIONS, type AccessCautionCode } from './accessCautions.ts';
import { crewFor } from './crewFor.ts';
import { handlingOf, type Orientation, orientationOf } from './handling.ts';
import type { TightestMoment } from './momentOutline.ts';
import {
  type MovementDoubt,
  type ObstacleRule,
  type ObstacleVerdict,
  obstacleRule,
  WHOLE_ANSWER,
} from './obstacleRule.ts';
import type { Manner } from './passingWay.ts';
import { resizeObstacle } from './resizeObstacle.ts';
import { tightestMoment } from './tightestMoment.ts';
import {
  type AccessPiece,
  LONGEST_DESCRIBABLE_MM,
  type Obstacle,
  type ObstacleKind,
  type WayIn,
} from './wayInSchema.ts';

/** One cell of the table of pieces by obstacles. */
export interface ObstacleAnswer {
  readonly index: number;
  readonly kind: ObstacleKind;
  readonly name?: string;
  readonly passes: boolean;
  /** False where only the site can tell: see `doubt`. */
  readonly sure: boolean;
  /** Why it is not sure. `sizes`: the obstacle's uncertainty could turn the answer round. */
  readonly doubt?: 'sizes' | MovementDoubt;
  readonly marginMm: number;
  readonly orientation: Orientation;
  readonly manner: Manner;
  readonly part?: 'door' | 'car' | 'flight' | 'landing';
  /** Rated load less the piece's mass, in a lift. */
  readonly spareKg?: number;
  /** Drawing of the tightest moment, where drawings were asked for. */
  readonly moment?: TightestMoment;
}

/** The answer for one piece. */
export interface PieceAnswer {
  readonly id: string;
  readonly passes: boolean;
  /** False where only a site measure can tell. */
  readonly sure: boolean;
  /** Kind of the obstacle that limits; absent where there is none. */
  readonly limitedBy?: ObstacleKind;
  /** Its position in the way, from 0. */
  readonly limitedByIndex?: number;
  readonly limitedByName?: string;
  /** Smallest clearance of the whole way in mm; negative where the piece is too large. (Too heavy: see `spareKg`.) */
  readonly marginMm: number;
  /** How it is held at the limiting obstacle. */
  readonly orientation: Orientation;
  readonly crew: number;
  /** True where a team alone is beyond the handling guidance. */
  readonly needsAid: boolean;
  /** The longest piece of this width and height that passes; the longest describable one where nothing limits it. */
  readonly longestMm: number;
  readonly lengthLimited: boolean;
  readonly cautions: readonly AccessCautionCode[];
  readonly obstacles: readonly ObstacleAnswer[];
}

export interface WayInAnswer {
  readonly pieces: readonly PieceAnswer[];
  readonly cautions: readonly string[];
}

/** An obstacle as drawn, and at both ends of its uncertainty. */
interface Judges {
  readonly obstacle: Obstacle;
  readonly asDrawn: ObstacleRule;
  readonly narrowest: ObstacleRule | null;
  readonly widest: ObstacleRule | null;
}

/**
 * Whether and how every piece passes every obstacle of a way in, with the margin, the obstacle that limits, the people
 * it takes, and the longest piece of the same cross-section that would pass.
 *
 * An answer is sure when it stays the same with every clear dimension larger or smaller by its uncertainty, and when
 * nothing is left open that sizes don't settle (`MovementDoubt`). Lengths in
 * the answer are rounded to a micrometre, `longestMm` downwards.
 *
 * @example checkWayIn({ obstacles: [{ kind: 'doorway', widthMm: 800, heightMm: 2000 }], pieces: [piece] })
 */
export const checkWayIn = (wayIn: WayIn, options: { readonly drawings?: boolean } = {}): WayInAnswer => {
  const judges = wayIn.obstacles.map((obstacle) =>
    judgesOf(obstacle, obstacle.uncertaintyMm ?? wayIn.uncertaintyMm ?? 0),
  );
  return {
    pieces: wayIn.pieces.map((piece) => answerFor(piece, judges, options.drawings === true)),
    cautions: ACCESS_CAUTIONS,
  };
};

const judgesOf = (obstacle: Obstacle, uncertaintyMm: number): Judges => ({
  obstacle,
  asDrawn: obstacleRule(obstacle),
  narrowest: uncertaintyMm > 0 ? obstacleRule(resizeObstacle(obstacle, -uncertaintyMm)) : null,
  widest: uncertaintyMm > 0 ? obstacleRule(resizeObstacle(obstacle, uncertaintyMm)) : null,
});

const answerFor = (piece: AccessPiece, judges: readonly Judges[], drawings: boolean): PieceAnswer => {
  const handling = handlingOf(piece);
  // Lifts last: how long a piece the others let by spares most searches of tilted positions in the car.
  const verdicts: (ObstacleVerdict | null)[] = judges.map(({ obstacle, asDrawn }) =>
    obstacle.kind === 'lift' ? null : asDrawn(piece, handling, WHOLE_ANSWER),
  );
  let longestMm = LONGEST_DESCRIBABLE_MM;
  for (const verdict of verdicts) if (verdict !== null) longestMm = Math.min(longestMm, verdict.longestMm);
  const complete = verdicts.map((verdict, index) => {
    if (verdict !== null) return verdict;
    const fresh = judges[index]!.asDrawn(piece, handling, { ask: 'longest', upToMm: longestMm });
    longestMm = Math.min(longestMm, fresh.longestMm);
    return fresh;
  });
  const crew = crewFor(piece.massKg);
  const obstacles = judges.map((judge, index) => {
    const verdict = complete[index]!;
    const answer = obstacleAnswer(piece, judge, verdict, index);
    return drawings ? { ...answer, moment: tightestMoment(judge.obstacle, piece, verdict.way) } : answer;
  });
  const limiting = limitingOf(obstacles);
  const passes = obstacles.every((obstacle) => obstacle.passes);
  const cautions = new Set<AccessCautionCode>();
  if (crew.needsAid) cautions.add('needs-handling-aid');
  for (const [index, { obstacle }] of judges.entries()) {
    for (const code of cautionsOf(obstacle)) cautions.add(code);
    const { doubt } = complete[index]!;
    if (doubt !== undefined) cautions.add(doubtCautions[doubt]);
  }
  const marginMm = limiting === null ? LONGEST_DESCRIBABLE_MM - piece.lengthMm : limiting.marginMm;
  return {
    id: piece.id,
    passes,
    sure: passes
      ? obstacles.every((obstacle) => obstacle.sure)
      : obstacles.some((obstacle) => !obstacle.passes && obstacle.sure),
    ...(limiting === null
      ? {}
      : {
          limitedBy: limiting.kind,
          limitedByIndex: limiting.index,
          ...(limiting.name === undefined ? {} : { limitedByName: limiting.name }),
        }),
    marginMm,
    orientation: limiting === null ? 'upright' : limiting.orientation,
    crew: crew.people,
    needsAid: crew.needsAid,
    longestMm: roundedDown(longestMm),
    lengthLimited: longestMm < LONGEST_DESCRIBABLE_MM,
    cautions: [...cautions],
    obstacles,
  };
};

const obstacleAnswer = (
  piece: AccessPiece,
  { obstacle, narrowest, widest }: Judges,
  verdict: ObstacleVerdict,
  index: number,
): ObstacleAnswer => {
  const handling = handlingOf(piece);
  const other = verdict.passes ? narrowest : widest;
  const doubt =
    verdict.doubt ??
    (other === null ? undefined : sizesDoubt(verdict, other(piece, handling, { ask: 'passes' })));
  return {
    index,
    kind: obstacle.kind,
    ...(obstacle.name === undefined ? {} : { name: obstacle.name }),
    passes: verdict.passes,
    sure: doubt === undefined,
    ...(doubt === undefined ? {} : { doubt }),
    marginMm: rounded(verdict.way.marginMm),
    orientation: orientationOf(verdict.way.vertical),
    manner: verdict.way.manner,
    ...(verdict.way.part === undefined ? {} : { part: verdict.way.part }),
    ...(verdict.spareKg === undefined ? {} : { spareKg: verdict.spareKg }),
  };
};

/** Whether the answer with the sizes at the other end of their uncertainty is another one, or no longer proved. */
const sizesDoubt = (verdict: ObstacleVerdict, other: ObstacleVerdict): 'sizes' | undefined =>
  other.passes === verdict.passes && other.doubt === undefined ? undefined : 'sizes';

/** The obstacle with the least clearance; where geometry lets everything by but a rated load does not, that lift. */
const limitingOf = (obstacles: readonly ObstacleAnswer[]): ObstacleAnswer | null => {
  const first = obstacles[0];
  if (first === undefined) return null;
  const tightest = obstacles.reduce(
    (least, obstacle) => (obstacle.marginMm < least.marginMm ? obstacle : least),
    first,
  );
  if (!tightest.passes) return tightest;
  return obstacles.find((obstacle) => !obstacle.passes) ?? tightest;
};

const doubtCautions: Readonly<Record<MovementDoubt, AccessCautionCode>> = {
  movement: 'car-position-only',
  'outer-corner': 'outer-corner-not-counted',
};

const cautionsOf = (obstacle: Obstacle): readonly AccessCautionCode[] => {
  switch (obstacle.kind) {
    case 'lift':
      return ['people-not-counted'];
    case 'stair':
      return obstacle.pitchDeg === undefined
        ? ['lower-end-carries-most', 'pitch-not-given']
        : ['lower-end-carries-most'];
    case 'ramp':
      return ['lower-end-carries-most'];
    default:
      return [];
  }
};

const rounded = (mm: number): number => Math.round(mm * 1000) / 1000 + 0;

/** Down to a micrometre, so that a piece of the length given does pass; a nanometre of rounding is forgiven. */
const roundedDown = (mm: number): number => Math.floor((mm + 1e-6) * 1000) / 1000;
