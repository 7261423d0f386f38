import type { Draft } from 'mutative';
import { pointCarriedAlong } from '../geometry/arc.ts';
import { orientation } from '../geometry/orientation.ts';
import type { SimpleCommand } from './command.ts';
import type { RunId, VertexId } from './ids.ts';
import type { ProjectDocument } from './projectDocument.ts';
import { type Refusal, refusal } from './refusal.ts';

type DraftDocument = Draft<ProjectDocument>;
type DraftRun = DraftDocument['runs'][RunId];

const neighboursCoincide = (run: DraftRun): boolean =>
  run.frontLine.some(({ at }, index) => {
    const next = run.frontLine[index + 1]?.at;
    return next !== undefined && next.x === at.x && next.y === at.y;
  });

const startsStraight = (run: DraftRun, vertexId: VertexId): boolean =>
  run.frontLine.slice(0, -1).some(({ id }) => id === vertexId);

/** How far along the straight from `from` to `to` a point lies: 0 at its start, 1 at its end. */
const shareAlong = (
  from: { x: number; y: number },
  to: { x: number; y: number },
  point: { x: number; y: number },
): number => {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  return ((point.x - from.x) * dx + (point.y - from.y) * dy) / (dx * dx + dy * dy);
};

/**
 * Hands zones and stations over to the straights that hold them now, after the straight that starts at `fromId` was
 * cut at the vertex with index `cut`: what lies beyond the cut belongs to the new second part.
 */
const handOverBeyond = (draft: DraftDocument, run: DraftRun, cut: number): void => {
  const before = run.frontLine[cut - 1];
  const at = run.frontLine[cut];
  const after = run.frontLine[cut + 1];
  if (!before || !at || !after) return;
  const isBeyond = (point: { x: number; y: number }) =>
    shareAlong(before.at, after.at, point) > shareAlong(before.at, after.at, at.at);
  for (const zone of Object.values(draft.zones)) {
    const middle = { x: (zone.a.x + zone.b.x) / 2, y: (zone.a.y + zone.b.y) / 2 };
    if (zone.runId === run.id && zone.vertexId === before.id && isBeyond(middle)) zone.vertexId = at.id;
  }
  for (const station of Object.values(draft.stations))
    if (station.runId === run.id && station.vertexId === before.id && isBeyond(station.at))
      station.vertexId = at.id;
};

/** What stood on a straight that starts at a removed vertex stands on the straight that took its place. */
const handOverTo = (draft: DraftDocument, run: DraftRun, removed: VertexId, heir: VertexId): void => {
  for (const record of [...Object.values(draft.zones), ...Object.values(draft.stations)])
    if (record.runId === run.id && record.vertexId === removed) record.vertexId = heir;
};

const removeRun = (draft: DraftDocument, runId: RunId): void => {
  for (const zone of Object.values(draft.zones)) if (zone.runId === runId) delete draft.zones[zone.id];
  for (const station of Object.values(draft.stations))
    if (station.runId === runId) delete draft.stations[station.id];
  delete draft.keptFits[runId];
  draft.limitedRunIds = draft.limitedRunIds.filter((id) => id !== runId);
  delete draft.runs[runId];
  draft.runIds = draft.runIds.filter((id) => id !== runId);
};

/** Takes the arcs of a front line along after its points moved from `drawn`: each keeps its sweep. */
const carryBends = (run: DraftRun, drawn: readonly { x: number; y: number }[]): void => {
  for (const [index, vertex] of run.frontLine.entries()) {
    const [from, to, next] = [drawn[index], drawn[index + 1], run.frontLine[index + 1]];
    if (!vertex.through || !from || !to || !next) continue;
    vertex.through = pointCarriedAlong(vertex.through, [from, to], [vertex.at, next.at]) as NonNullable<
      typeof vertex.through
    >;
  }
};

/** Moves points of a front line together, with what stands on straights that move whole. */
const moveVertices = (
  draft: DraftDocument,
  { runId, vertexIds, by }: Extract<SimpleCommand, { type: 'move-vertices' }>,
): Refusal | null => {
  const run = draft.runs[runId];
  if (!run) return refusal('run-missing', 'runId');
  const named = new Set(vertexIds);
  if (vertexIds.some((id) => !run.frontLine.some((vertex) => vertex.id === id)))
    return refusal('vertex-missing', 'vertexIds');
  const moved = (point: { x: number; y: number }) =>
    ({ x: point.x + by.x, y: point.y + by.y }) as DraftRun['frontLine'][number]['at'];
  const wholeStraights = new Set(
    run.frontLine
      .filter(({ id }, index) => named.has(id) && named.has(run.frontLine[index + 1]?.id ?? id))
      .map(({ id }) => id),
  );
  const drawn = run.frontLine.map(({ at }) => at);
  for (const vertex of run.frontLine) if (named.has(vertex.id)) vertex.at = moved(vertex.at);
  carryBends(run, drawn);
  if (neighboursCoincide(run)) return refusal('vertices-coincide', 'by');
  for (const zone of Object.values(draft.zones))
    if (zone.runId === runId && wholeStraights.has(zone.vertexId)) {
      zone.a = moved(zone.a);
      zone.b = moved(zone.b);
    }
  for (const station of Object.values(draft.stations))
    if (station.runId === runId && wholeStraights.has(station.vertexId)) station.at = moved(station.at);
  return null;
};

const applyVertexCommand = (draft: DraftDocument, command: SimpleCommand): Refusal | null => {
  if (command.type === 'move-vertices') return moveVertices(draft, command);
  if (
    command.type !== 'insert-vertex' &&
    command.type !== 'move-vertex' &&
    command.type !== 'remove-vertex' &&
    command.type !== 'pin-corner' &&
    command.type !== 'bend-straight' &&
    command.type !== 'measure-on-site'
  )
    return null;
  const run = draft.runs[command.runId];
  if (!run) return refusal('run-missing', 'runId');
  if (command.type === 'insert-vertex') {
    if (command.index > run.frontLine.length) return refusal('index-out-of-range', 'index');
    if (run.frontLine.some(({ id }) => id === command.vertex.id))
      return refusal('vertex-exists', 'vertex.id');
    run.frontLine.splice(command.index, 0, command.vertex as Draft<typeof command.vertex>);
    // A measure was of the whole straight that is now cut in two.
    delete run.frontLine[command.index - 1]?.siteMeasure;
    if (neighboursCoincide(run)) return refusal('vertices-coincide', 'vertex.at');
    handOverBeyond(draft, run, command.index);
    return null;
  }
  const index = run.frontLine.findIndex(({ id }) => id === command.vertexId);
  const vertex = run.frontLine[index];
  if (!vertex) return refusal('vertex-missing', 'vertexId');
  if (command.type === 'measure-on-site') {
    if (index === run.frontLine.length - 1) return refusal('straight-missing', 'vertexId');
    if (command.siteMeasure === null) delete vertex.siteMeasure;
    else if (vertex.through) return refusal('measure-of-arc', 'vertexId');
    else vertex.siteMeasure = command.siteMeasure;
    return null;
  }
  if (command.type === 'bend-straight') {
    const next = run.frontLine[index + 1];
    if (!next) return refusal('straight-missing', 'vertexId');
    if (command.through === null) delete vertex.through;
    else if (orientation(vertex.at, command.through, next.at) === 0)
      return refusal('through-on-chord', 'through');
    else {
      vertex.through = command.through as NonNullable<typeof vertex.through>;
      delete vertex.siteMeasure;
    }
    return null;
  }
  if (command.type === 'pin-corner') {
    if (index === 0 || index === run.frontLine.length - 1) return refusal('corner-at-end', 'vertexId');
    vertex.treatment = command.treatment;
    return null;
  }
  if (command.type === 'move-vertex') {
    const drawn = run.frontLine.map(({ at }) => at);
    vertex.at = command.to as typeof vertex.at;
    carryBends(run, drawn);
    return neighboursCoincide(run) ? refusal('vertices-coincide', 'to') : null;
  }
  if (run.frontLine.length <= 2) return refusal('too-few-vertices', 'vertexId');
  const before = run.frontLine[index - 1];
  // An arc ends with its end, unless what comes after goes on as one.
  if (before && !vertex.through) delete before.through;
  run.frontLine.splice(index, 1);
  if (neighboursCoincide(run)) return refusal('vertices-coincide', 'vertexId');
  const heir = run.frontLine[Math.min(Math.max(index - 1, 0), run.frontLine.length - 2)];
  if (heir) {
    handOverTo(draft, run, vertex.id, heir.id);
    const last = run.frontLine.at(-1);
    if (last) handOverTo(draft, run, last.id, heir.id);
  }
  for (const end of [run.frontLine[0], run.frontLine.at(-1)]) if (end) end.treatment = null;
  delete run.frontLine[index - 1]?.siteMeasure;
  delete run.frontLine.at(-1)?.through;
  delete run.frontLine.at(-1)?.siteMeasure;
  return null;
};

const applyZoneCommand = (draft: DraftDocument, command: SimpleCommand): Refusal | null => {
  switch (command.type) {
    case 'add-zone': {
      const { zone } = command;
      if (draft.zones[zone.id]) return refusal('zone-exists', 'zone.id');
      const run = draft.runs[zone.runId];
      if (!run) return refusal('run-missing', 'zone.runId');
      if (!startsStraight(run, zone.vertexId)) return refusal('straight-missing', 'zone.vertexId');
      draft.zones[zone.id] = zone as Draft<typeof zone>;
      return null;
    }
    case 'change-zone': {
      const zone = draft.zones[command.zoneId];
      if (!zone) return refusal('zone-missing', 'zoneId');
      Object.assign(zone, command.changes);
      const run = draft.runs[zone.runId];
      return run && startsStraight(run, zone.vertexId)
        ? null
        : refusal('straight-missing', 'changes.vertexId');
    }
    case 'remove-zone':
      if (!draft.zones[command.zoneId]) return refusal('zone-missing', 'zoneId');
      delete draft.zones[command.zoneId];
      return null;
    case 'want-station': {
      const { station } = command;
      if (draft.stations[station.id]) return refusal('station-exists', 'station.id');
      const run = draft.runs[station.runId];
      if (!run) return refusal('run-missing', 'station.runId');
      if (!startsStraight(run, station.vertexId)) return refusal('straight-missing', 'station.vertexId');
      draft.stations[station.id] = station as Draft<typeof station>;
      return null;
    }
    case 'change-station': {
      const station = draft.stations[command.stationId];
      if (!station) return refusal('station-missing', 'stationId');
      Object.assign(station, command.changes);
      const run = draft.runs[station.runId];
      return run && startsStraight(run, station.vertexId)
        ? null
        : refusal('straight-missing', 'changes.vertexId');
    }
    case 'remove-station':
      if (!draft.stations[command.stationId]) return refusal('station-missing', 'stationId');
      delete draft.stations[command.stationId];
      return null;
    default:
      return null;
  }
};

/** Applies commands about runs, their zones, stations and fits to the draft; null when done or not one of them. */
export const applyRunCommand = (draft: DraftDocument, command: SimpleCommand): Refusal | null => {
  switch (command.type) {
    case 'add-run': {
      const { run } = command;
      if (draft.runs[run.id]) return refusal('run-exists', 'run.id');
      if (!draft.sheets[run.sheetId]) return refusal('sheet-missing', 'run.sheetId');
      const added = run as DraftRun;
      if (new Set(run.frontLine.map(({ id }) => id)).size !== run.frontLine.length)
        return refusal('vertex-exists', 'run.frontLine');
      if (neighboursCoincide(added)) return refusal('vertices-coincide', 'run.frontLine');
      if (added.frontLine[0]?.treatment || added.frontLine.at(-1)?.treatment)
        return refusal('corner-at-end', 'run.frontLine');
      draft.runs[run.id] = added;
      draft.runIds.push(run.id);
      return null;
    }
    case 'change-run': {
      const run = draft.runs[command.runId];
      if (!run) return refusal('run-missing', 'runId');
      Object.assign(run, command.changes);
      return null;
    }
    case 'remove-run':
      if (!draft.runs[command.runId]) return refusal('run-missing', 'runId');
      removeRun(draft, command.runId);
      return null;
    case 'order-runs': {
      const named = new Set(command.runIds);
      if (
        named.size !== draft.runIds.length ||
        command.runIds.length !== draft.runIds.length ||
        draft.runIds.some((id) => !named.has(id))
      )
        return refusal('run-order-incomplete', 'runIds');
      draft.runIds = command.runIds;
      return null;
    }
    case 'keep-fit':
      if (!draft.runs[command.fit.runId]) return refusal('run-missing', 'fit.runId');
      draft.keptFits[command.fit.runId] = command.fit as Draft<typeof command.fit>;
      return null;
    case 'release-fit':
      if (!draft.runs[command.runId]) return refusal('run-missing', 'runId');
      delete draft.keptFits[command.runId];
      return null;
    default:
      return applyVertexCommand(draft, command) ?? applyZoneCommand(draft, command);
  }
};
