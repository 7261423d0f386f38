import type { RunId } from '../document/ids.ts';
import type { BayClearance, BayEquipment, ProjectDocument, Zone } from '../document/projectDocument.ts';
import type { StockService } from '../stock/stockSchema.ts';
import { runAsTraced } from './runAsTraced.ts';
import type { SheetScale } from './tracedRun.ts';
import { type ZoneOnStraight, zoneOn } from './zones.ts';

/** A zone of a run with its name, placed on its straight. Its own fields are there where its kind has them. */
export interface RunZone extends Pick<ZoneOnStraight, 'straight' | 'fromMm' | 'toMm'> {
  readonly id: Zone['id'];
  readonly kind: Zone['kind'];
  readonly name: string;
  /** Of a column that takes only the back: how deep, and its place among the columns of its straight in a fit problem. */
  readonly column?: { readonly depthMm: number; readonly index: number };
  /** Of a bay. */
  readonly clearance?: BayClearance;
  readonly equipmentKind?: BayEquipment;
  readonly services?: readonly StockService[];
  /** Of a low section; left out where it is as the stock range has it. */
  readonly topHeightMm?: number;
}

/** The zones of a run in the order of their ids, each placed on its straight. */
export const zonesOfRun = (
  document: ProjectDocument,
  runId: RunId,
  scale: SheetScale,
): readonly RunZone[] => {
  const run = document.runs[runId];
  if (!run) return [];
  const traced = runAsTraced(run);
  const zones = Object.values(document.zones)
    .filter((zone) => zone.runId === runId)
    .sort((one, other) => (one.id < other.id ? -1 : 1))
    .flatMap((zone): RunZone[] => {
      const {
        id,
        kind,
        name,
        vertexId,
        a,
        b,
        clearance,
        equipmentKind,
        services,
        topHeightMm,
        columnDepthMm,
      } = zone;
      const straight = run.frontLine.findIndex((vertex) => vertex.id === vertexId);
      if (straight < 0 || straight >= run.frontLine.length - 1) return [];
      const { fromMm, toMm } = zoneOn(traced, straight, [a, b], scale);
      const isColumn = kind === 'blocked' && columnDepthMm != null && columnDepthMm < run.depthMm;
      return [
        {
          id,
          kind,
          name,
          straight,
          fromMm,
          toMm,
          ...(isColumn ? { column: { depthMm: columnDepthMm, index: -1 } } : {}),
          ...(kind === 'bay' && clearance ? { clearance } : {}),
          ...(kind === 'bay' && equipmentKind ? { equipmentKind } : {}),
          ...(kind === 'bay' && services?.length ? { services } : {}),
          ...(kind === 'low' && topHeightMm != null ? { topHeightMm } : {}),
        },
      ];
    });
  // The order in which `fitGeometryOf` counts them.
  const columns = zones
    .filter(({ column }) => column)
    .toSorted((one, other) => one.fromMm - other.fromMm || one.toMm - other.toMm);
  return zones.map((zone) =>
    zone.column
      ? {
          ...zone,
          column: {
            ...zone.column,
            index: columns.filter(({ straight }) => straight === zone.straight).indexOf(zone),
          },
        }
      : zone,
  );
};

/** The whole length that a zone keeps: of a bay with the clearances on both its sides. */
export const keptSpanOf = ({
  fromMm,
  toMm,
  clearance,
}: Pick<RunZone, 'fromMm' | 'toMm' | 'clearance'>): { readonly fromMm: number; readonly toMm: number } => ({
  fromMm: fromMm - (clearance?.beforeMm ?? 0),
  toMm: toMm + (clearance?.afterMm ?? 0),
});
