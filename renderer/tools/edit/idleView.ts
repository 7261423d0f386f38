import type { Run } from '../../../src/document/projectDocument.ts';
import { formatLength } from '../../../src/units/formatLength.ts';
import { directionNear, straightFrom } from '../footOnStraight.ts';
import { shortened } from '../shortened.ts';
import type { ToolAct, ToolContext, ToolHandle, ToolView } from '../tool.ts';
import { toolView } from '../toolView.ts';
import { canBeRounded } from './bends.ts';
import type { EditIdle } from './editState.ts';
import { type Part, partStillThere, partsOf, placeOf, selectedRunOf } from './part.ts';
import { typedAbout } from './typedPart.ts';

const remove = (words: string): ToolAct => ({ name: 'remove', words, key: 'Del' });
const moveRun: ToolAct = { name: 'move-run', words: 'Move the whole run', key: 'm' };

const roundOff: ToolAct = { name: 'round', words: 'Round the corner', key: 'r' };
const bend: ToolAct = { name: 'bend', words: 'Bend it to an arc', key: 'b' };
const straighten: ToolAct = { name: 'straighten', words: 'Make it straight', key: 's' };

const endOf = (run: Run, part: Part): Run['ends'][0] | null => {
  if (part.kind !== 'point') return null;
  if (part.vertexId === run.frontLine[0]?.id) return run.ends[0];
  return part.vertexId === run.frontLine.at(-1)?.id ? run.ends[1] : null;
};

const actsFor = (run: Run, part: Part | null): readonly ToolAct[] => {
  if (!part) return [moveRun];
  switch (part.kind) {
    case 'point': {
      const end = endOf(run, part);
      const turn: readonly ToolAct[] = end
        ? [
            {
              name: 'turn-end',
              words: end.kind === 'wall' ? 'Make it an exposed end' : 'Make it a wall end',
              key: 'e',
            },
          ]
        : [];
      const round = canBeRounded(run, part.vertexId) ? [roundOff] : [];
      return [...turn, ...round, ...(run.frontLine.length > 2 ? [remove('Remove the point')] : [])];
    }
    case 'straight':
      return [
        { name: 'insert-point', words: 'Insert a point', key: 'i' },
        straightFrom(run, part.vertexId)?.through ? straighten : bend,
        moveRun,
      ];
    case 'bend':
      return [straighten, moveRun];
    case 'zone':
    case 'zone-side':
      return [remove('Remove it')];
    case 'station':
      return [remove('Do without it')];
  }
};

const promptFor = (run: Run, part: Part | null, context: ToolContext): string => {
  if (!part)
    return `${shortened(run.name)}: drag a point, a straight or a zone; Page Down steps through its parts; Shift and a pick put a point in.`;
  switch (part.kind) {
    case 'point':
      if (canBeRounded(run, part.vertexId))
        return 'Drag the corner, or move it with the arrow keys; type a radius to round it.';
      return 'Drag the point, or move it with the arrow keys: 1 mm, with Shift 10 mm.';
    case 'bend':
      return 'Drag the arc’s middle, or type its radius. Near a tangent of its neighbours it becomes one.';
    case 'straight':
      return 'Type its length, or drag it sideways. With Ctrl the whole run comes along.';
    case 'zone': {
      const zone = context.document.zones[part.zoneId];
      return `${shortened(zone?.name ?? '')}: drag it along, drag a side of it, or type its width.`;
    }
    case 'zone-side':
      return 'Drag this side, or type how far it is from the straight’s start.';
    case 'station':
      return 'Drag the station along the front line, or type how far it is from the straight’s start.';
  }
};

/** Handles of what can be held now: what is chosen, the chosen zone's two sides, the run's stations. */
const handlesFor = (run: Run, chosen: Part | null, context: ToolContext): readonly ToolHandle[] =>
  partsOf(context.document, run).flatMap((part): ToolHandle[] => {
    const isChosen = chosen !== null && JSON.stringify(part) === JSON.stringify(chosen);
    const isShown =
      part.kind === 'zone-side'
        ? chosen !== null && 'zoneId' in chosen && chosen.zoneId === part.zoneId
        : part.kind === 'station' || part.kind === 'bend' || isChosen;
    const at = isShown ? placeOf(part, context) : null;
    const straight = at && straightOf(run, part, context);
    if (!at || !straight) return [];
    const along = directionNear(straight, at);
    const alongRad = Math.atan2(along.y, along.x);
    return [{ at, alongRad, isChosen }];
  });

const straightOf = (run: Run, part: Part, { document }: ToolContext) => {
  if (part.kind === 'straight' || part.kind === 'bend') return straightFrom(run, part.vertexId);
  if (part.kind === 'point') {
    const index = run.frontLine.findIndex(({ id }) => id === part.vertexId);
    const from = run.frontLine[Math.min(index, run.frontLine.length - 2)];
    return from ? straightFrom(run, from.id) : null;
  }
  const record = part.kind === 'station' ? document.stations[part.stationId] : document.zones[part.zoneId];
  return record ? straightFrom(run, record.vertexId) : null;
};

/** What the tool for editing shows while nothing is being moved. */
export const idleView = (state: EditIdle, context: ToolContext): ToolView => {
  const { document, sheetId, scale, unit } = context;
  const run = selectedRunOf(context);
  if (!run) {
    const hasRuns = document.runIds.some((id) => document.runs[id]?.sheetId === sheetId);
    return toolView({
      prompt: hasRuns
        ? 'Pick a run to work on it.'
        : scale
          ? 'Trace the first run.'
          : 'Set the scale of this sheet, then trace.',
      hand: 'sheet',
    });
  }
  const part = partStillThere(state.part, context);
  const typed = part && typedAbout(part, context);
  return toolView({
    prompt: promptFor(run, part, context),
    entry: typed && { label: typed.label, example: formatLength(typed.nowMm, { unit }) },
    handles: handlesFor(run, part, context),
    acts: actsFor(run, part),
    hand: partStillThere(state.hover, context) ? 'hold' : 'sheet',
    takesNudges: part !== null,
  });
};
