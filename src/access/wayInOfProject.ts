import type { ObstacleId, WayInId } from '../document/ids.ts';
import { type DrawnObstacleKind, type SizeName, sizeNames } from '../document/obstacleKinds.ts';
import type { ProjectDocument } from '../document/projectDocument.ts';
import type { DrawnObstacle } from '../document/wayInRecords.ts';
import { isBadInput } from '../scale/badInput.ts';
import { type SizeOnSite, sizeOnSite } from './sizeOnSite.ts';
import { parseWayIn } from './wayInContract.ts';
import type { Obstacle } from './wayInSchema.ts';

/** What each kind of obstacle is called where it has no name of its own. */
export const obstacleWords: Readonly<Record<DrawnObstacleKind, string>> = {
  doorway: 'Doorway',
  passage: 'Passage',
  turn: 'Turn',
  'side-doorway': 'Doorway off a passage',
  lift: 'Lift',
  stair: 'Stair',
  ramp: 'Ramp',
  'height-limit': 'Height limit',
  'set-down': 'Set-down point',
};

/** One obstacle of a project, measured, and what can't be said of it yet. */
export interface MeasuredObstacle {
  readonly drawn: DrawnObstacle;
  readonly name: string;
  readonly sizes: Readonly<Partial<Record<SizeName, SizeOnSite>>>;
  /** As the access contract takes it; null where something is missing or contradicts itself. */
  readonly obstacle: Obstacle | null;
  /** Why it is null, in a sentence. */
  readonly fault: string | null;
}

/** A way in of a project, measured, in its order. */
export interface MeasuredWayIn {
  readonly id: WayInId;
  readonly name: string;
  readonly measured: readonly MeasuredObstacle[];
  /** The obstacles that can be judged, and which obstacle of the project each one is. */
  readonly obstacles: readonly Obstacle[];
  readonly obstacleIds: readonly ObstacleId[];
}

/**
 * A way in of a project as the access contract takes it. Picked sizes follow the scale of their sheet; an obstacle's
 * +/- is the largest of its sizes'. An obstacle that can't be judged is left out of `obstacles` and says why.
 */
export const wayInOfProject = (document: ProjectDocument, wayInId: WayInId): MeasuredWayIn | null => {
  const wayIn = document.waysIn[wayInId];
  if (!wayIn) return null;
  const measured = wayIn.obstacles.map((drawn) => measuredObstacle(document, drawn));
  const judged = measured.flatMap(({ obstacle, drawn }) => (obstacle ? [{ obstacle, id: drawn.id }] : []));
  return {
    id: wayIn.id,
    name: wayIn.name,
    measured,
    obstacles: judged.map(({ obstacle }) => obstacle),
    obstacleIds: judged.map(({ id }) => id),
  };
};

const measuredObstacle = (document: ProjectDocument, drawn: DrawnObstacle): MeasuredObstacle => {
  const name = drawn.name || obstacleWords[drawn.kind];
  const sizes: Partial<Record<SizeName, SizeOnSite>> = {};
  for (const sizeName of sizeNames) {
    const size = drawn.sizes[sizeName];
    if (!size) continue;
    const found = sizeOnSite(document, size, drawn.typedPlusMinusMm);
    if (!found || isBadInput(found))
      return {
        drawn,
        name,
        sizes,
        obstacle: null,
        fault: found
          ? `${name}: ${found.error.message}`
          : `${name} is picked on a sheet that has no scale. Set its scale, or type the size.`,
      };
    sizes[sizeName] = found;
  }
  const given = Object.values(sizes);
  const parsed = parseWayIn({
    obstacles: [
      {
        kind: drawn.kind,
        name,
        ...Object.fromEntries(Object.entries(sizes).map(([key, { lengthMm }]) => [key, lengthMm])),
        ...drawn.figures,
        uncertaintyMm: Math.max(0, ...given.map(({ plusMinusMm }) => plusMinusMm)),
      },
    ],
    pieces: [],
  });
  const obstacle = parsed.ok ? (parsed.wayIn.obstacles[0] ?? null) : null;
  return {
    drawn,
    name,
    sizes,
    obstacle,
    fault: parsed.ok ? null : `${name}: ${parsed.error.message.replace('obstacles[0].', '')}.`,
  };
};
