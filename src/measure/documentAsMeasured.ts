import type { ProjectDocument, Run } from '../document/projectDocument.ts';
import { type PaperPoint, type Point, paperPoint } from '../geometry/point.ts';
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
}

const isMeasured = (run: Run): boolean => run.frontLine.some(({ siteMeasure }) => siteMeasure !== undefined);

const movedBy = (point: Point, by: Point): PaperPoint => paperPoint(point.x + by.x, point.y + by.y);

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
    const at = movedBy(vertex.at, shift);
    const next = run.frontLine[index + 1];
    let bend = {};
    if (next) {
      const drawnMm = partLength(traced, index) * mm;
      const found = vertex.siteMeasure && drawnMm > 0 ? vertex.siteMeasure.lengthMm / drawnMm : 1;
      // A run that lies as measured stays so to the last bit.
      const share = Math.abs(found - 1) < 1e-9 ? 1 : found;
      straights.set(vertex.id, { from: vertex.at, start: at, share });
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

/**
 * The document with every run as it lies on site: a straight that was measured has its measured length, and what is
 * marked on it keeps its share of the length (a mark at the far corner stays at the far corner). Runs without a site
 * measure, or without a scale, stay as they were traced; so does everything in a project without any.
 */
export const documentAsMeasured = (document: ProjectDocument): ProjectDocument => {
  const measured = document.runIds.flatMap((runId) => {
    const run = document.runs[runId];
    const scale = run && isMeasured(run) ? scaleOfRun(document, run) : undefined;
    return run && scale && !isBadInput(scale) ? [relaidRun(run, scale)] : [];
  });
  if (measured.length === 0) return document;
  const byRun = new Map(measured.map((relaid) => [relaid.run.id, relaid]));
  const place = (runId: Run['id'], vertexId: string, point: PaperPoint): PaperPoint => {
    const straight = byRun.get(runId)?.straights.get(vertexId);
    if (!straight) return point;
    return paperPoint(
      straight.start.x + (point.x - straight.from.x) * straight.share,
      straight.start.y + (point.y - straight.from.y) * straight.share,
    );
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
