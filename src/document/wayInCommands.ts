import type { Draft } from 'mutative';
import type { SimpleCommand } from './command.ts';
import type { SheetId } from './ids.ts';
import type { ProjectDocument } from './projectDocument.ts';
import { type Refusal, refusal } from './refusal.ts';
import type { DrawnObstacle } from './wayInRecords.ts';

type DraftDocument = Draft<ProjectDocument>;
type DraftWayIn = DraftDocument['waysIn'][keyof DraftDocument['waysIn']];

const obstaclesMost = 100;

/** Whether a size of any way in is picked on the sheet. */
export const isPickedOn = (
  document: Pick<ProjectDocument, 'waysIn'> | DraftDocument,
  sheetId: SheetId,
): boolean =>
  Object.values(document.waysIn).some((wayIn) =>
    wayIn.obstacles.some((obstacle) =>
      Object.values(obstacle.sizes).some((size) => size?.from === 'sheet' && size.sheetId === sheetId),
    ),
  );

/** What is wrong with the picks of an obstacle, if anything. */
const pickRefusal = (draft: DraftDocument, obstacle: DrawnObstacle, path: string): Refusal | null => {
  for (const [name, size] of Object.entries(obstacle.sizes)) {
    if (size?.from !== 'sheet') continue;
    if (!draft.sheets[size.sheetId]) return refusal('sheet-missing', `${path}.sizes.${name}.sheetId`);
    if (size.a.x === size.b.x && size.a.y === size.b.y)
      return refusal('pick-too-short', `${path}.sizes.${name}.b`);
  }
  return null;
};

const applyObstacleCommand = (draft: DraftDocument, command: SimpleCommand): Refusal | null => {
  if (
    command.type !== 'add-obstacle' &&
    command.type !== 'change-obstacle' &&
    command.type !== 'move-obstacle' &&
    command.type !== 'remove-obstacle'
  )
    return null;
  const wayIn = draft.waysIn[command.wayInId];
  if (!wayIn) return refusal('way-in-missing', 'wayInId');
  const { obstacles } = wayIn;
  if (command.type === 'add-obstacle') {
    if (obstacles.some(({ id }) => id === command.obstacle.id))
      return refusal('obstacle-exists', 'obstacle.id');
    if (command.index > obstacles.length) return refusal('place-out-of-range', 'index');
    if (obstacles.length >= obstaclesMost) return refusal('obstacles-too-many', 'obstacle');
    obstacles.splice(command.index, 0, command.obstacle as Draft<DrawnObstacle>);
    return pickRefusal(draft, command.obstacle, 'obstacle');
  }
  const wanted = command.type === 'change-obstacle' ? command.obstacle.id : command.obstacleId;
  const index = obstacles.findIndex(({ id }) => id === wanted);
  const found = obstacles[index];
  if (!found)
    return refusal('obstacle-missing', command.type === 'change-obstacle' ? 'obstacle.id' : 'obstacleId');
  switch (command.type) {
    case 'change-obstacle':
      if (found.kind !== command.obstacle.kind) return refusal('obstacle-kind-fixed', 'obstacle.kind');
      obstacles[index] = command.obstacle as Draft<DrawnObstacle>;
      return pickRefusal(draft, command.obstacle, 'obstacle');
    case 'move-obstacle':
      if (command.toIndex >= obstacles.length) return refusal('place-out-of-range', 'toIndex');
      wayIn.obstacles = moved(obstacles, index, command.toIndex);
      return null;
    case 'remove-obstacle':
      wayIn.obstacles = obstacles.filter(({ id }) => id !== wanted);
      return null;
  }
};

const moved = (obstacles: DraftWayIn['obstacles'], from: number, to: number): DraftWayIn['obstacles'] => {
  const rest = obstacles.filter((_, index) => index !== from);
  return [...rest.slice(0, to), ...obstacles.slice(from, from + 1), ...rest.slice(to)];
};

/** Applies commands about ways in and deliveries to the draft; null when done or not one of them. */
export const applyWayInCommand = (draft: DraftDocument, command: SimpleCommand): Refusal | null => {
  switch (command.type) {
    case 'add-way-in': {
      const { wayIn } = command;
      if (draft.waysIn[wayIn.id]) return refusal('way-in-exists', 'wayIn.id');
      if (new Set(wayIn.obstacles.map(({ id }) => id)).size !== wayIn.obstacles.length)
        return refusal('obstacle-exists', 'wayIn.obstacles');
      for (const [index, obstacle] of wayIn.obstacles.entries()) {
        const wrong = pickRefusal(draft, obstacle, `wayIn.obstacles.${index}`);
        if (wrong) return wrong;
      }
      draft.waysIn[wayIn.id] = wayIn as DraftWayIn;
      draft.wayInIds.push(wayIn.id);
      draft.chosenWayInId ??= wayIn.id;
      return null;
    }
    case 'name-way-in': {
      const wayIn = draft.waysIn[command.wayInId];
      if (!wayIn) return refusal('way-in-missing', 'wayInId');
      wayIn.name = command.name;
      return null;
    }
    case 'remove-way-in':
      if (!draft.waysIn[command.wayInId]) return refusal('way-in-missing', 'wayInId');
      delete draft.waysIn[command.wayInId];
      draft.wayInIds = draft.wayInIds.filter((id) => id !== command.wayInId);
      if (draft.chosenWayInId === command.wayInId) draft.chosenWayInId = draft.wayInIds[0] ?? null;
      if (draft.chosenWayInId === null) draft.limitedRunIds = [];
      return null;
    case 'choose-way-in':
      if (!draft.waysIn[command.wayInId]) return refusal('way-in-missing', 'wayInId');
      draft.chosenWayInId = command.wayInId;
      return null;
    case 'limit-runs': {
      if (command.runIds.some((id) => !draft.runs[id])) return refusal('run-missing', 'runIds');
      if (command.isLimited && draft.chosenWayInId === null) return refusal('way-in-missing', 'runIds');
      const rest = draft.limitedRunIds.filter((id) => !command.runIds.includes(id));
      draft.limitedRunIds = command.isLimited ? [...rest, ...new Set(command.runIds)] : rest;
      return null;
    }
    case 'describe-vehicle':
      draft.vehicle = command.vehicle;
      return null;
    default:
      return applyObstacleCommand(draft, command);
  }
};
