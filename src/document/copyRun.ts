import type { PaperPoint } from '../geometry/point.ts';
import type { Command, SimpleCommand } from './command.ts';
import type { RunId, StationId, VertexId, ZoneId } from './ids.ts';
import type { ProjectDocument, Run, WantedStation, Zone } from './projectDocument.ts';

type Place = (point: PaperPoint) => PaperPoint;

/** Where everything goes, and whether left and right change places. */
interface Placing {
  readonly place: Place;
  readonly isMirrored: boolean;
  /** The item that stands for another one's mirror image: the one of the other hand, else itself. */
  readonly mirroredItem: (item: string) => string;
}

const otherHand = { left: 'right', right: 'left' } as const;

const placedVertices = (run: Run, { place }: Placing, idOf: (id: VertexId) => VertexId): Run['frontLine'] =>
  run.frontLine.map((vertex) => ({
    ...vertex,
    id: idOf(vertex.id),
    at: place(vertex.at),
    ...(vertex.through ? { through: place(vertex.through) } : {}),
  }));

const placedZone = (zone: Zone, { place }: Placing): Zone => ({
  ...zone,
  a: place(zone.a),
  b: place(zone.b),
});

const placedStation = (
  station: WantedStation,
  { place, isMirrored, mirroredItem }: Placing,
): WantedStation => ({
  ...station,
  at: place(station.at),
  ...(isMirrored
    ? {
        item: mirroredItem(station.item),
        ...(station.hand ? { hand: otherHand[station.hand] } : {}),
      }
    : {}),
});

const recordsOf = (document: ProjectDocument, runId: RunId) => ({
  zones: Object.values(document.zones).filter((zone) => zone.runId === runId),
  stations: Object.values(document.stations).filter((station) => station.runId === runId),
});

const mirroredSide = (run: Run, isMirrored: boolean): Run['backSide'] =>
  isMirrored ? otherHand[run.backSide] : run.backSide;

/** Ties a run to the chosen way in where another one is. */
const limits = (document: ProjectDocument, likeId: RunId, runId: RunId): readonly SimpleCommand[] =>
  document.limitedRunIds.includes(likeId) ? [{ type: 'limit-runs', runIds: [runId], isLimited: true }] : [];

/** `Front bar 2`, or the next number that is free. */
export const nameOfCopy = (document: ProjectDocument, name: string): string => {
  const taken = new Set(Object.values(document.runs).map((run) => run.name));
  const stem = name.replace(/ \d{1,3}$/, '').slice(0, 110);
  for (let number = 2; ; number += 1) if (!taken.has(`${stem} ${number}`)) return `${stem} ${number}`;
};

/**
 * A copy of a run with its zones, wanted stations, levels and settings, placed elsewhere, as one step. What was decided
 * or measured for the one that it is copied from (a kept fit, a length measured on site, the run that an end meets) does
 * not go along. Null where the run is gone.
 */
export const copyRun = (
  document: ProjectDocument,
  runId: RunId,
  given: Placing & { readonly freshId: () => string },
): { readonly runId: RunId; readonly command: Command } | null => {
  const run = document.runs[runId];
  if (!run) return null;
  const copyId = `run-${given.freshId()}` as RunId;
  const vertexIds = new Map(run.frontLine.map(({ id }) => [id, `vertex-${given.freshId()}` as VertexId]));
  const { zones, stations } = recordsOf(document, runId);
  const stationIds = new Map(stations.map(({ id }) => [id, `station-${given.freshId()}` as StationId]));
  const vertexOf = (id: VertexId): VertexId => vertexIds.get(id) ?? id;
  const { carriedFrom, ...own } = run;
  const end = ({ meetsRunId, ...rest }: Run['ends'][number]): Run['ends'][number] => rest;
  const copy: Run = {
    ...own,
    id: copyId,
    name: nameOfCopy(document, run.name),
    frontLine: placedVertices(run, given, vertexOf).map(({ siteMeasure, ...vertex }) => vertex),
    backSide: mirroredSide(run, given.isMirrored),
    ends: [end(run.ends[0]), end(run.ends[1])],
    ...(run.symmetrical
      ? {
          symmetrical: run.symmetrical.map(({ vertexId, aboutStationId }) => ({
            vertexId: vertexOf(vertexId),
            aboutStationId: aboutStationId && (stationIds.get(aboutStationId) ?? null),
          })),
        }
      : {}),
  };
  const commands: SimpleCommand[] = [
    { type: 'add-run', run: copy },
    ...zones.map(
      (zone): SimpleCommand => ({
        type: 'add-zone',
        zone: {
          ...placedZone(zone, given),
          id: `zone-${given.freshId()}` as ZoneId,
          runId: copyId,
          vertexId: vertexOf(zone.vertexId),
        },
      }),
    ),
    ...stations.map(
      (station): SimpleCommand => ({
        type: 'want-station',
        station: {
          ...placedStation(station, given),
          id: stationIds.get(station.id) ?? station.id,
          runId: copyId,
          vertexId: vertexOf(station.vertexId),
        },
      }),
    ),
    ...limits(document, runId, copyId),
  ];
  const label = `${given.isMirrored ? 'Copy mirrored' : 'Copy'}: ${run.name}`.slice(0, 120);
  return { runId: copyId, command: { type: 'together', label, commands } };
};

/**
 * The run itself as its mirror image, as one step: front, arcs, zones and stations reflected, back side and hands
 * changed over. Positions along the front stay what they are, so that a kept fit and site measures still hold. Null
 * where the run is gone.
 */
export const mirrorRun = (
  document: ProjectDocument,
  runId: RunId,
  given: Omit<Placing, 'isMirrored'>,
): Command | null => {
  const run = document.runs[runId];
  if (!run) return null;
  const placing: Placing = { ...given, isMirrored: true };
  const { zones, stations } = recordsOf(document, runId);
  const kept = document.keptFits[runId];
  const commands: SimpleCommand[] = [
    { type: 'remove-run', runId },
    {
      type: 'add-run',
      run: {
        ...run,
        frontLine: placedVertices(run, placing, (id) => id),
        backSide: mirroredSide(run, true),
      },
    },
    { type: 'order-runs', runIds: [...document.runIds] },
    ...zones.map((zone): SimpleCommand => ({ type: 'add-zone', zone: placedZone(zone, placing) })),
    ...stations.map(
      (station): SimpleCommand => ({ type: 'want-station', station: placedStation(station, placing) }),
    ),
    ...limits(document, runId, runId),
    ...(kept ? [{ type: 'keep-fit', fit: kept } as const] : []),
  ];
  return { type: 'together', label: `Mirror: ${run.name}`.slice(0, 120), commands };
};
