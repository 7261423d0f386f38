import type { StationId, VertexId, ZoneId } from '../../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../../src/document/projectDocument.ts';
import type { PaperPoint } from '../../../src/geometry/point.ts';
import { distanceBetween } from '../../../src/geometry/vector.ts';
import { alongOf, besideOf, footOnStraight, middleOfStraight, straightFrom } from '../footOnStraight.ts';
import { nearestStraight } from '../nearestStraight.ts';
import { mmPerPaperUnit } from '../paperLengths.ts';
import type { ToolContext } from '../tool.ts';

/** A part of the selected run that can be chosen, moved and removed by itself. */
export type Part =
  | { readonly kind: 'point'; readonly vertexId: VertexId }
  /** Named by the point that it starts at. */
  | { readonly kind: 'straight'; readonly vertexId: VertexId }
  /** The middle of a bent straight, by which its arc is drawn out. */
  | { readonly kind: 'bend'; readonly vertexId: VertexId }
  | { readonly kind: 'zone'; readonly zoneId: ZoneId }
  | { readonly kind: 'zone-side'; readonly zoneId: ZoneId; readonly side: 'a' | 'b' }
  | { readonly kind: 'station'; readonly stationId: StationId };

/** Whether two parts are the same one. */
export const isSamePart = (one: Part | null, other: Part | null): boolean =>
  one === other || (one !== null && other !== null && JSON.stringify(one) === JSON.stringify(other));

/** The points of a run's front line. */
export const frontOf = (run: Run): readonly PaperPoint[] => run.frontLine.map(({ at }) => at);

/** The selected run, if it lies on the sheet in hand. */
export const selectedRunOf = ({ document, selectedRunId, sheetId }: ToolContext): Run | null => {
  const run = (selectedRunId && document.runs[selectedRunId]) || null;
  return run?.sheetId === sheetId ? run : null;
};

const zonesOf = (document: ProjectDocument, run: Run) =>
  Object.values(document.zones).filter(({ runId }) => runId === run.id);

const stationsOf = (document: ProjectDocument, run: Run) =>
  Object.values(document.stations).filter(({ runId }) => runId === run.id);

/** All parts of a run in the order in which keys step through them: along the front line, then what stands on it. */
export const partsOf = (document: ProjectDocument, run: Run): readonly Part[] => [
  ...run.frontLine.flatMap(({ id, through }, index): Part[] =>
    index < run.frontLine.length - 1
      ? [
          { kind: 'point', vertexId: id },
          { kind: 'straight', vertexId: id },
          ...(through ? [{ kind: 'bend' as const, vertexId: id }] : []),
        ]
      : [{ kind: 'point', vertexId: id }],
  ),
  ...zonesOf(document, run).flatMap(({ id }): Part[] => [
    { kind: 'zone', zoneId: id },
    { kind: 'zone-side', zoneId: id, side: 'a' },
    { kind: 'zone-side', zoneId: id, side: 'b' },
  ]),
  ...stationsOf(document, run).map(({ id }): Part => ({ kind: 'station', stationId: id })),
];

/** The part if it still is one of the run's: a part may be gone by an undo, or belong to a run selected before. */
export const partStillThere = (part: Part | null, context: ToolContext): Part | null => {
  const run = selectedRunOf(context);
  if (!part || !run) return null;
  return partsOf(context.document, run).find((one) => isSamePart(one, part)) ?? null;
};

/** Where a part lies: the place that is marked, and that a move starts from. Null for one that is gone. */
export const placeOf = (part: Part, context: ToolContext): PaperPoint | null => {
  const { document } = context;
  const run = selectedRunOf(context);
  if (!run) return null;
  switch (part.kind) {
    case 'point':
      return run.frontLine.find(({ id }) => id === part.vertexId)?.at ?? null;
    case 'straight':
    case 'bend': {
      const straight = straightFrom(run, part.vertexId);
      return straight && middleOfStraight(straight);
    }
    case 'zone':
    case 'zone-side': {
      const zone = document.zones[part.zoneId];
      const straight = zone && straightFrom(run, zone.vertexId);
      if (!zone || !straight) return null;
      const at = part.kind === 'zone' ? middle(zone.a, zone.b) : zone[part.side];
      return footOnStraight(straight, at);
    }
    case 'station': {
      const station = document.stations[part.stationId];
      const straight = station && straightFrom(run, station.vertexId);
      return straight ? footOnStraight(straight, station.at) : null;
    }
  }
};

const middle = (a: { x: number; y: number }, b: { x: number; y: number }) => ({
  x: (a.x + b.x) / 2,
  y: (a.y + b.y) / 2,
});

const nearestOf = (parts: readonly Part[], hand: PaperPoint, context: ToolContext): Part | null => {
  let best: { readonly part: Part; readonly distance: number } | null = null;
  for (const part of parts) {
    const at = placeOf(part, context);
    const distance = at ? distanceBetween(at, hand) : Number.POSITIVE_INFINITY;
    if (distance <= context.touchPt && (!best || distance < best.distance)) best = { part, distance };
  }
  return best?.part ?? null;
};

/** The zone whose area, between front line and back line, the hand is in. */
const zoneUnder = (run: Run, hand: PaperPoint, context: ToolContext): Part | null => {
  const here = mmPerPaperUnit(context, frontOf(run));
  if ('say' in here) return null;
  for (const zone of zonesOf(context.document, run)) {
    const straight = straightFrom(run, zone.vertexId);
    if (!straight) continue;
    const [along, offset] = [alongOf(straight, hand), besideOf(straight, hand)];
    const a = alongOf(straight, zone.a);
    const b = alongOf(straight, zone.b);
    const back = (run.backSide === 'left' ? offset : -offset) * here.mmPerUnit;
    if (along >= Math.min(a, b) && along <= Math.max(a, b) && back >= 0 && back <= run.depthMm)
      return { kind: 'zone', zoneId: zone.id };
  }
  return null;
};

/** The part of the selected run under the hand; sides of the chosen zone first, then points, stations, zones, straights. */
export const partUnder = (hand: PaperPoint, chosen: Part | null, context: ToolContext): Part | null => {
  const run = selectedRunOf(context);
  if (!run) return null;
  const { document } = context;
  const parts = partsOf(document, run);
  const chosenZone = chosen && 'zoneId' in chosen ? chosen.zoneId : null;
  const sides = parts.filter((part) => part.kind === 'zone-side' && part.zoneId === chosenZone);
  const found =
    nearestOf(sides, hand, context) ??
    nearestOf(
      parts.filter(({ kind }) => kind === 'point'),
      hand,
      context,
    ) ??
    nearestOf(
      parts.filter(({ kind }) => kind === 'bend'),
      hand,
      context,
    ) ??
    nearestOf(
      parts.filter(({ kind }) => kind === 'station'),
      hand,
      context,
    ) ??
    zoneUnder(run, hand, context);
  if (found) return found;
  const near = nearestStraight(document, context.sheetId, hand, run.id);
  return near && near.distance <= context.touchPt ? { kind: 'straight', vertexId: near.vertexId } : null;
};
