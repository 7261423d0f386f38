import type { StationId, VertexId, ZoneId } from '../../document/ids.ts';
import type { Run, WantedStation, Zone } from '../../document/projectDocument.ts';
import { type Box, boxAround, boxBetween, doBoxesTouch, grownBox } from '../../geometry/box.ts';
import { intersectLines, type Segment } from '../../geometry/line.ts';
import { type PaperPoint, type Point, paperPoint } from '../../geometry/point.ts';
import {
  cross,
  dot,
  leftOf,
  movedBy,
  unitVector,
  type Vector,
  vectorBetween,
} from '../../geometry/vector.ts';
import type { ChangedLinework } from '../../sheet/registration/changedLinework.ts';
import { nearestCounterpart } from './nearestCounterpart.ts';

/** What became of the line that a straight, an end or a side of a zone was traced on. */
export interface LineFinding {
  readonly of:
    | { readonly kind: 'straight'; readonly straight: number }
    | { readonly kind: 'end'; readonly end: 0 | 1 }
    | { readonly kind: 'zone'; readonly zoneId: ZoneId };
  /** `gone`: the line is no longer there, and nothing like it is near. */
  readonly became: 'moved' | 'gone';
  /** How far it moved, in paper points: square to a straight, along it for an end or a zone. 0 where it is gone. */
  readonly byPt: number;
}

/** Where a run that was carried over would lie on the lines of the new sheet. */
export interface FollowedRun {
  readonly vertices: readonly {
    readonly id: VertexId;
    readonly at: PaperPoint;
    readonly through?: PaperPoint;
  }[];
  readonly zones: readonly { readonly id: ZoneId; readonly a: PaperPoint; readonly b: PaperPoint }[];
  readonly stations: readonly { readonly id: StationId; readonly at: PaperPoint }[];
  readonly findings: readonly LineFinding[];
}

interface Changed extends Segment {
  readonly vector: Vector | null;
}

/** Sine of 1.5 degrees: a traced straight and its line run alike within that. */
const alikeSine = 0.026;
/** Sine of 20 degrees: what crosses a straight at less than that is no end of it. */
const crossingSine = 0.342;
/** Of a straight, the share that changed lines must run along to speak for it. */
const leastShare = 0.2;

const lengthOf = ({ start, end }: Segment): number => Math.hypot(end.x - start.x, end.y - start.y);

const directionOf = (segment: Segment): Vector =>
  unitVector(vectorBetween(segment.start, segment.end)) ?? { x: 1, y: 0 };

/** The move that most of the length agrees on, within `tolerance`; null for nothing. */
const agreedMove = (
  moves: readonly { readonly by: number; readonly weight: number }[],
  tolerance: number,
): { readonly by: number; readonly weight: number } | null => {
  let best: { by: number; weight: number } | null = null;
  for (const { by } of moves) {
    const alike = moves.filter((other) => Math.abs(other.by - by) <= tolerance);
    const weight = alike.reduce((sum, other) => sum + other.weight, 0);
    if (!best || weight > best.weight)
      best = { by: alike.reduce((sum, other) => sum + other.by * other.weight, 0) / weight, weight };
  }
  return best;
};

/** Of the changed lines, those that run along a straight: how much of it, and how far across they moved. */
const alongStraight = (straight: Segment, changed: readonly Changed[], tolerance: number) => {
  const along = directionOf(straight);
  const across = leftOf(along);
  const length = lengthOf(straight);
  return changed.flatMap((line) => {
    const own = directionOf(line);
    if (Math.abs(cross(along, own)) > alikeSine) return [];
    const [from, to] = [line.start, line.end].map((point) => {
      const way = vectorBetween(straight.start, point);
      return { along: dot(way, along), across: dot(way, across) };
    });
    if (!from || !to || Math.abs(from.across) > tolerance || Math.abs(to.across) > tolerance) return [];
    const overlap =
      Math.min(length, Math.max(from.along, to.along)) - Math.max(0, Math.min(from.along, to.along));
    if (overlap <= 0) return [];
    return [{ by: line.vector ? dot(line.vector, across) : null, weight: overlap }];
  });
};

/** Of the changed lines that cross a straight at a place on it: how far along it they moved. */
const crossingAt = (
  straight: Segment,
  alongPt: number,
  reach: { readonly lowPt: number; readonly highPt: number },
  changed: readonly Changed[],
  tolerance: number,
) => {
  const along = directionOf(straight);
  const across = leftOf(along);
  return changed.flatMap((line) => {
    const own = directionOf(line);
    const sine = cross(along, own);
    if (Math.abs(sine) < crossingSine) return [];
    const foot = intersectLines(straight.start, along, line.start, own);
    if (!foot || Math.abs(dot(vectorBetween(straight.start, foot), along) - alongPt) > tolerance) return [];
    const offsets = [line.start, line.end].map((point) => dot(vectorBetween(straight.start, point), across));
    const overlap =
      Math.min(reach.highPt, Math.max(...offsets)) - Math.max(reach.lowPt, Math.min(...offsets));
    if (overlap < -tolerance) return [];
    const normal = leftOf(own);
    const by = line.vector ? dot(line.vector, normal) / dot(along, normal) : null;
    return [{ by, weight: Math.max(overlap, tolerance) }];
  });
};

/** What changed lines say together: a move, that they are gone, or nothing. */
const verdictOf = (
  found: readonly { readonly by: number | null; readonly weight: number }[],
  least: number,
  tolerance: number,
): { readonly became: 'moved' | 'gone'; readonly byPt: number } | null => {
  const moves = found.flatMap(({ by, weight }) => (by === null ? [] : [{ by, weight }]));
  const agreed = agreedMove(moves, tolerance);
  const gone = found.reduce((sum, { by, weight }) => sum + (by === null ? weight : 0), 0);
  if (agreed && agreed.weight >= least && agreed.weight >= gone)
    return Math.abs(agreed.by) <= tolerance / 4 ? null : { became: 'moved', byPt: agreed.by };
  return gone >= Math.max(least, 1e-9) ? { became: 'gone', byPt: 0 } : null;
};

const segmentOf = ({ x0, y0, x1, y1 }: ChangedLinework['gone'][number]): Segment => ({
  start: { x: x0, y: y0 },
  end: { x: x1, y: y1 },
});

/**
 * The lines about a run that are gone, with the way each went. One whose length changed as well was not paired when the
 * sheets were compared: it went to the new line beside it, where there is no doubt which one that is.
 */
const changedNear = (
  run: Run,
  changes: ChangedLinework,
  depthPt: number,
  tolerance: number,
): readonly Changed[] => {
  const around = boxAround(run.frontLine.map(({ at }) => at));
  if (!around) return [];
  const near = grownBox(around, depthPt + tolerance);
  const isNear = ({ start, end }: Segment, box: Box) => doBoxesTouch(boxBetween(start, end), box);
  const added = changes.added.map(segmentOf).filter((line) => isNear(line, grownBox(near, depthPt)));
  const vectors = new Map(changes.moved.map(({ gone, vector }) => [gone, vector]));
  return changes.gone.flatMap((part, index): Changed[] => {
    const line = segmentOf(part);
    if (!isNear(line, near)) return [];
    const vector = vectors.get(index) ?? nearestCounterpart(line, added, { reach: depthPt, tolerance });
    return [{ ...line, vector }];
  });
};

/**
 * Where a run lies on the lines of a revised sheet: each straight goes with the line that it was traced on, each end
 * with what it ran against, each zone's side with the line that bounded it; corners lie where the straights meet. What
 * has no changed line stays where it was carried over to. An offer: nothing says that the run must follow.
 *
 * @param carried the run with its zones and stations, laid on the new sheet
 * @param changes what is gone, new and moved, in the new sheet's paper points; see `changedLinework`
 * @param depthPt the run's depth in paper points
 * @param tolerancePt how far a line may lie from what was traced on it
 */
export const followMovedLines = (
  carried: {
    readonly run: Run;
    readonly zones: readonly Zone[];
    readonly stations: readonly WantedStation[];
  },
  changes: ChangedLinework,
  { depthPt, tolerancePt }: { readonly depthPt: number; readonly tolerancePt: number },
): FollowedRun => {
  const { run, zones, stations } = carried;
  const changed = changedNear(run, changes, depthPt, tolerancePt);
  const points = run.frontLine.map(({ at }) => at);
  const straights = points.slice(1).map((end, index): Segment => ({ start: points[index]!, end }));
  const isBent = (straight: number): boolean => run.frontLine[straight]?.through !== undefined;
  const findings: LineFinding[] = [];
  const backSign = run.backSide === 'left' ? 1 : -1;
  const reach = {
    lowPt: Math.min(0, backSign * depthPt),
    highPt: Math.max(0, backSign * depthPt),
  };

  const shifts = straights.map((straight, index) => {
    if (isBent(index)) return 0;
    const found = alongStraight(straight, changed, tolerancePt);
    const verdict = verdictOf(found, leastShare * lengthOf(straight), tolerancePt);
    if (verdict) findings.push({ of: { kind: 'straight', straight: index }, ...verdict });
    return verdict?.byPt ?? 0;
  });
  const endShift = (end: 0 | 1): number => {
    const index = end === 0 ? 0 : straights.length - 1;
    const straight = straights[index];
    if (!straight || isBent(index)) return 0;
    const found = crossingAt(straight, end === 0 ? 0 : lengthOf(straight), reach, changed, tolerancePt);
    const verdict = verdictOf(found, tolerancePt, tolerancePt);
    if (verdict) findings.push({ of: { kind: 'end', end }, ...verdict });
    return verdict?.byPt ?? 0;
  };
  const ends = [endShift(0), endShift(1)] as const;

  const shifted = straights.map((straight, index): Segment => {
    const across = leftOf(directionOf(straight));
    return {
      start: movedBy(straight.start, across, shifts[index]),
      end: movedBy(straight.end, across, shifts[index]),
    };
  });
  const placeOf = (index: number): Point => {
    const before = shifted[index - 1];
    const after = shifted[index];
    if (before && after) {
      // Straights in line with one another, or an arc, have no corner to find: the point goes with what moved.
      const isCorner =
        !isBent(index - 1) &&
        !isBent(index) &&
        Math.abs(cross(directionOf(before), directionOf(after))) > alikeSine;
      const corner = isCorner
        ? intersectLines(before.end, directionOf(before), after.start, directionOf(after))
        : undefined;
      return corner ?? (shifts[index - 1] !== 0 ? before.end : after.start);
    }
    if (after) return movedBy(after.start, directionOf(after), ends[0]);
    return before ? movedBy(before.end, directionOf(before), ends[1]) : points[index]!;
  };
  const placed = points.map((_, index) => placeOf(index));

  const straightOf = (vertexId: VertexId): number => run.frontLine.findIndex(({ id }) => id === vertexId);
  const across = (vertexId: VertexId): Vector => {
    const index = straightOf(vertexId);
    const straight = straights[index];
    if (!straight) return { x: 0, y: 0 };
    const normal = leftOf(directionOf(straight));
    const by = shifts[index] ?? 0;
    return { x: normal.x * by, y: normal.y * by };
  };
  const asPaper = ({ x, y }: Point): PaperPoint => paperPoint(x, y);
  const followedZones = zones.map((zone) => {
    const index = straightOf(zone.vertexId);
    const straight = straights[index];
    const shift = across(zone.vertexId);
    if (!straight || isBent(index)) return { id: zone.id, a: zone.a, b: zone.b };
    const along = directionOf(straight);
    const moves = [zone.a, zone.b].map((point) =>
      verdictOf(
        crossingAt(straight, dot(vectorBetween(straight.start, point), along), reach, changed, tolerancePt),
        tolerancePt,
        tolerancePt,
      ),
    );
    for (const verdict of moves)
      if (verdict) findings.push({ of: { kind: 'zone', zoneId: zone.id }, ...verdict });
    const [a, b] = [zone.a, zone.b].map((point, side) =>
      asPaper(movedBy(movedBy(point, along, moves[side]?.byPt ?? 0), shift)),
    );
    return { id: zone.id, a: a!, b: b! };
  });
  return {
    vertices: run.frontLine.map(({ id, through }, index) => ({
      id,
      at: asPaper(placed[index]!),
      ...(through ? { through } : {}),
    })),
    zones: followedZones,
    stations: stations.map(({ id, at, vertexId }) => ({ id, at: asPaper(movedBy(at, across(vertexId))) })),
    findings,
  };
};
