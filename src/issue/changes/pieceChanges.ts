import { alignedItems } from './alignedItems.ts';
import { sameLengthMm, type TakeoffChange } from './takeoffChange.ts';
import type { PieceFacts, RunFacts } from './takeoffFacts.ts';

/** A straight by the point that it starts at, so that a straight put in before it changes nothing about it. */
const vertexOf = (run: RunFacts, straight: number): string =>
  run.straights[straight]?.vertexId ?? String(straight);

const inOrder = (run: RunFacts, vertexId: string): readonly PieceFacts[] =>
  run.pieces
    .filter(({ wanted, straight }) => wanted === null && vertexOf(run, straight) === vertexId)
    .toSorted((one, other) => one.fromMm - other.fromMm || one.toMm - other.toMm);

const nameOf = ({ mark, name }: PieceFacts): string => `${mark} ${name}`;

const placeOf = ({ fromMm }: PieceFacts) => ({ lengthMm: fromMm });

interface Moved {
  readonly before: PieceFacts;
  readonly after: PieceFacts;
}

/** Modules beside one another that moved alike are one change. */
const movedTogether = (moved: readonly Moved[]): readonly (readonly Moved[])[] => {
  const groups: Moved[][] = [];
  const shift = ({ before, after }: Moved): number => after.fromMm - before.fromMm;
  for (const one of moved) {
    const last = groups.at(-1);
    const isAlike =
      last?.[0] &&
      last[0].after.straight === one.after.straight &&
      Math.abs(shift(last[0]) - shift(one)) <= sameLengthMm;
    if (isAlike) last.push(one);
    else groups.push([one]);
  }
  return groups;
};

/** Modules and stations of a run that came, went or moved along their straight. */
export const pieceChanges = (before: RunFacts, after: RunFacts): readonly TakeoffChange[] => {
  const where = after.name;
  const changes: TakeoffChange[] = [];
  const vertices = [...new Set([...before.straights, ...after.straights].map(({ vertexId }) => vertexId))];
  for (const vertexId of vertices) {
    const straight = after.straights.findIndex((one) => one.vertexId === vertexId);
    const onStraight = straight < 0 ? '' : ` on straight ${straight + 1}`;
    const { both, onlyBefore, onlyAfter } = alignedItems(
      inOrder(before, vertexId),
      inOrder(after, vertexId),
      ({ item }) => item,
    );
    for (const piece of onlyBefore)
      changes.push({
        kind: 'piece',
        where,
        what: `${nameOf(piece)} is gone${onStraight}`,
        was: placeOf(piece),
        is: null,
      });
    for (const piece of onlyAfter)
      changes.push({
        kind: 'piece',
        where,
        what: `${nameOf(piece)} is new${onStraight}`,
        was: null,
        is: placeOf(piece),
      });
    const moved = both
      .filter(([one, other]) => Math.abs(one.fromMm - other.fromMm) > sameLengthMm)
      .map(([one, other]) => ({ before: one, after: other }));
    for (const group of movedTogether(moved)) {
      const [first, last] = [group[0]!, group.at(-1)!];
      const names =
        group.length === 1
          ? `${nameOf(first.after)} moved`
          : `${group.length} modules moved alike, ${first.after.mark} to ${last.after.mark}`;
      changes.push({
        kind: 'piece',
        where,
        what: `${names}${onStraight}`,
        was: placeOf(first.before),
        is: placeOf(first.after),
      });
    }
  }
  return [...changes, ...stationChanges(before, after)];
};

const stationChanges = (before: RunFacts, after: RunFacts): readonly TakeoffChange[] => {
  const where = after.name;
  const stationsOf = (run: RunFacts) =>
    new Map(run.pieces.flatMap((piece) => (piece.wanted === null ? [] : [[piece.wanted, piece] as const])));
  const [earlier, later] = [stationsOf(before), stationsOf(after)];
  const changes: TakeoffChange[] = [];
  for (const [wanted, piece] of earlier) {
    const now = later.get(wanted);
    if (!now)
      changes.push({
        kind: 'station',
        where,
        what: `Station ${nameOf(piece)} is gone`,
        was: placeOf(piece),
        is: null,
      });
    else if (now.item !== piece.item)
      changes.push({
        kind: 'station',
        where,
        what: `Station ${now.mark} is another`,
        was: piece.name,
        is: now.name,
      });
    else if (vertexOf(before, piece.straight) !== vertexOf(after, now.straight))
      changes.push({
        kind: 'station',
        where,
        what: `Station ${nameOf(now)} stands on another straight`,
        was: `straight ${piece.straight + 1}`,
        is: `straight ${now.straight + 1}`,
      });
    else if (Math.abs(piece.fromMm - now.fromMm) > sameLengthMm)
      changes.push({
        kind: 'station',
        where,
        what: `Station ${nameOf(now)} moved on straight ${now.straight + 1}`,
        was: placeOf(piece),
        is: placeOf(now),
      });
  }
  for (const [wanted, piece] of later)
    if (!earlier.has(wanted))
      changes.push({
        kind: 'station',
        where,
        what: `Station ${nameOf(piece)} is new on straight ${piece.straight + 1}`,
        was: null,
        is: placeOf(piece),
      });
  const placeless = (run: RunFacts) => new Set(run.leftOut.map(({ wanted }) => wanted));
  for (const { wanted, name } of after.leftOut)
    if (!placeless(before).has(wanted))
      changes.push({
        kind: 'station',
        where,
        what: `${name} finds no place`,
        was: earlier.has(wanted) ? 'placed' : null,
        is: 'left out',
      });
  return changes;
};
