import type { ProjectDocument, Run, Zone } from '../document/projectDocument.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
import { dot, magnitudeOf, movedBy, scaledBy, type Vector, vectorBetween } from '../geometry/vector.ts';
import { isBadInput } from '../scale/badInput.ts';
import { runAsTraced } from './runAsTraced.ts';
import { partLength } from './runPath.ts';
import { scaleOfRun } from './scaleOfSheet.ts';
import { mmPerUserUnit, type SheetScale } from './tracedRun.ts';

/** How the points of one straight go from where they were traced to where the site measure has them. */
interface Relaid {
  readonly from: Point;
  readonly start: Point;
  readonly share: number;
  /** Along the straight as traced, of length 1; null where it is an arc, which grows as a whole. */
  readonly along: Vector | null;
  readonly length: number;
}

const isMeasured = (run: Run): boolean => run.frontLine.some(({ siteMeasure }) => siteMeasure !== undefined);

/**
 * Lays a front line anew with its measured lengths: from its first point, each straight in the direction in which it
 * was traced, with what stands behind it moved along.
 */
const relaidRun = (
  run: Run,
  scale: SheetScale,
): { readonly run: Run; readonly straights: ReadonlyMap<string, Relaid> } => {
  const mm = mmPerUserUnit(scale);
  const traced = runAsTraced(run);
  const straights = new Map<string, Relaid>();
  let shift = { x: 0, y: 0 };
  const frontLine = run.frontLine.map((vertex, index) => {
    const at = paperPoint(vertex.at.x + shift.x, vertex.at.y + shift.y);
    const next = run.frontLine[index + 1];
    let bend = {};
    if (next) {
      const drawnMm = partLength(traced, index) * mm;
      const found = vertex.siteMeasure && drawnMm > 0 ? vertex.siteMeasure.lengthMm / drawnMm : 1;
      // A run that lies as measured stays so to the last bit.
      const share = Math.abs(found - 1) < 1e-9 ? 1 : found;
      const chord = vectorBetween(vertex.at, next.at);
      const length = magnitudeOf(chord);
      const along = vertex.through || length === 0 ? null : scaledBy(chord, 1 / length);
      straights.set(vertex.id, { from: vertex.at, start: at, share, along, length });
      // An arc grows as a whole: its sweep, and so the directions at its ends, stay.
      const { through } = vertex;
      if (through)
        bend = {
          through: paperPoint(
            at.x + (through.x - vertex.at.x) * share,
            at.y + (through.y - vertex.at.y) * share,
          ),
        };
      shift = {
        x: shift.x + (next.at.x - vertex.at.x) * (share - 1),
        y: shift.y + (next.at.y - vertex.at.y) * (share - 1),
      };
    }
    return { ...vertex, at, ...bend };
  });
  return { run: { ...run, frontLine }, straights };
};

/** From, to: distances along a straight as traced. */
type Stretch = readonly [fromAlong: number, toAlong: number];

const alongOf = ({ from, along }: Relaid, point: Point): number =>
  along ? dot(vectorBetween(from, point), along) : 0;

/** What zones take of a straight, within it, in order and without overlaps. */
const takenBy = (zones: readonly Zone[], straight: Relaid): readonly Stretch[] => {
  const within = (at: number) => Math.min(Math.max(at, 0), straight.length);
  const stretches = zones
    .map(({ a, b }): Stretch => {
      const [one, other] = [within(alongOf(straight, a)), within(alongOf(straight, b))];
      return [Math.min(one, other), Math.max(one, other)];
    })
    .sort(([one], [other]) => one - other);
  const merged: Stretch[] = [];
  for (const [from, to] of stretches) {
    const last = merged.at(-1);
    if (last && from <= last[1]) merged[merged.length - 1] = [last[0], Math.max(last[1], to)];
    else merged.push([from, to]);
  }
  return merged;
};

/**
 * Where a distance along a straight goes. What is marked keeps its width, because a machine, a flap or a column is no
 * wider for a longer wall; the free lengths between take up the difference, each by its share. Where what is marked
 * leaves no free length for that, all of it is drawn out alike.
 */
const relaidAlong = (at: number, { length, share }: Relaid, taken: readonly Stretch[]): number => {
  const fixed = taken.reduce((sum, [from, to]) => sum + to - from, 0);
  const free = length - fixed;
  const freeShare = free > length * 1e-9 ? (length * share - fixed) / free : 0;
  if (freeShare <= 0) return at * share;
  const fixedBefore = taken.reduce((sum, [from, to]) => sum + Math.min(Math.max(at - from, 0), to - from), 0);
  return fixedBefore + (at - fixedBefore) * freeShare;
};

/**
 * The document with every run as it lies on site: a straight that was measured has its measured length, zones marked on
 * it keep their width, and the free lengths between share the difference (a mark at the far corner stays at the far
 * corner). Runs without a site measure, or without a scale, stay as they were traced; so does everything in a project
 * without any.
 */
export const documentAsMeasured = (document: ProjectDocument): ProjectDocument => {
  const measured = document.runIds.flatMap((runId) => {
    const run = document.runs[runId];
    const scale = run && isMeasured(run) ? scaleOfRun(document, run) : undefined;
    return run && scale && !isBadInput(scale) ? [relaidRun(run, scale)] : [];
  });
  if (measured.length === 0) return document;
  const byRun = new Map(measured.map((relaid) => [relaid.run.id, relaid]));
  const takenOf = new Map<string, readonly Stretch[]>();
  for (const { run, straights } of measured)
    for (const [vertexId, straight] of straights) {
      const zones = Object.values(document.zones).filter(
        (zone) => zone.runId === run.id && zone.vertexId === vertexId,
      );
      takenOf.set(`${run.id} ${vertexId}`, takenBy(zones, straight));
    }
  const place = (runId: Run['id'], vertexId: string, point: PaperPoint): PaperPoint => {
    const straight = byRun.get(runId)?.straights.get(vertexId);
    if (!straight) return point;
    const { from, start, share, along } = straight;
    const off = vectorBetween(from, point);
    if (!along || share === 1) {
      const moved = movedBy(start, off, share);
      return paperPoint(moved.x, moved.y);
    }
    const at = dot(off, along);
    const moved = movedBy(
      movedBy(start, off),
      along,
      relaidAlong(at, straight, takenOf.get(`${runId} ${vertexId}`) ?? []) - at,
    );
    return paperPoint(moved.x, moved.y);
  };
  const mapped = <Record extends object>(
    records: { readonly [id: string]: Record },
    change: (record: Record) => Record,
  ) => Object.fromEntries(Object.entries(records).map(([id, record]) => [id, change(record)]));
  return {
    ...document,
    runs: mapped(document.runs, (run) => byRun.get(run.id)?.run ?? run),
    zones: mapped(document.zones, (zone) => ({
      ...zone,
      a: place(zone.runId, zone.vertexId, zone.a),
      b: place(zone.runId, zone.vertexId, zone.b),
    })),
    stations: mapped(document.stations, (station) => ({
      ...station,
      at: place(station.runId, station.vertexId, station.at),
    })),
  };
};
