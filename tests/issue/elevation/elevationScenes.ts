import { demoPlanTruth } from '../../../src/app/demo/demoPlanTruth.ts';
import type { RunId, SheetId, StationId, VertexId, ZoneId } from '../../../src/document/ids.ts';
import {
  emptyDocument,
  type ProjectDocument,
  type Run,
  type Zone,
} from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { fitRun } from '../../../src/fitting/fitRun.ts';
import { poseProblem } from '../../../src/fitting/poseProblem.ts';
import { type PaperPoint, paperPoint } from '../../../src/geometry/point.ts';
import { elevationOfRun } from '../../../src/issue/elevation/elevationOfRun.ts';
import { paperPointAt } from '../../../src/measure/runPosition.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import type { StockRange } from '../../../src/stock/stockSchema.ts';
import type { DisplayUnit } from '../../../src/units/formatLength.ts';

/** Invented runs for tests of the developed elevation, as documents that the app could hold. */

const ratio = 50;
const scale = { ratio, relativeUncertainty: 0.002, userUnit: 1 };
const sheetId = 'sheet-1' as SheetId;

export interface Zoned {
  readonly kind: Zone['kind'];
  readonly name: string;
  readonly straight: number;
  readonly fromMm: number;
  readonly toMm: number;
}

export interface Scene {
  readonly name: string;
  readonly backSide?: Run['backSide'];
  readonly depthMm?: number;
  readonly frontLine: readonly PaperPoint[];
  /** Points on the arcs by which the front goes on from the point of the same index. */
  readonly bends?: readonly (PaperPoint | undefined)[];
  readonly ends: readonly [Run['ends'][0]['kind'], Run['ends'][0]['kind']];
  readonly zones?: readonly Zoned[];
  readonly wanted?: readonly {
    readonly item: string;
    readonly straight: number;
    readonly nearMm: number;
    readonly withinMm: number;
  }[];
  readonly changes?: Partial<Run>;
}

const pointsPerMm = 72 / 25.4 / ratio;

/** A front line through places of the room, mm, that starts at (0, 0). */
export const frontThrough = (...places: readonly (readonly [number, number])[]): readonly PaperPoint[] =>
  [[0, 0] as const, ...places].map(([x, y]) => paperPoint(200 + x * pointsPerMm, 200 + y * pointsPerMm));

const runId = 'run-1' as RunId;

/** A document with one sheet at 1:50 and the scene's run on it. */
export const documentOf = (scene: Scene): ProjectDocument => {
  const backSide = scene.backSide ?? 'left';
  const depthMm = scene.depthMm ?? 700;
  const traced = { frontLine: scene.frontLine, bends: scene.bends, backSide, depthMm };
  const vertex = (straight: number) => `vertex-${straight}` as VertexId;
  const at = (straight: number, alongMm: number) => paperPointAt(traced, straight, alongMm, 0, scale);
  const end = (kind: Run['ends'][0]['kind']) =>
    kind === 'wall' ? { kind, giveInMm: 0, giveOutMm: 0 } : { kind, giveInMm: 50, giveOutMm: 100 };
  const run: Run = {
    ...runDefaultsOf(demoRange),
    id: runId,
    sheetId,
    name: scene.name,
    backSide,
    depthMm,
    frontLine: scene.frontLine.map((point, index) => {
      const through = scene.bends?.[index];
      return { id: vertex(index), at: point, treatment: null, ...(through ? { through } : {}) };
    }),
    ends: [end(scene.ends[0]), end(scene.ends[1])],
    pickUncertaintyPt: 0.05,
    ...scene.changes,
  };
  return {
    ...emptyDocument('Scenes', { id: demoRange.id, version: demoRange.version }),
    sheetIds: [sheetId],
    sheets: {
      [sheetId]: {
        id: sheetId,
        name: 'Plan',
        planSha256: '0'.repeat(64),
        planFileName: 'plan.pdf',
        pageNumber: 1,
        userUnit: 1,
        acceptedScale: { ratio, relativeUncertainty: 0.002, because: 'scene' },
        layers: {},
      },
    },
    runIds: [runId],
    runs: { [runId]: run },
    zones: Object.fromEntries(
      (scene.zones ?? []).map(({ kind, name, straight, fromMm, toMm }, index) => {
        const id = `zone-${index}` as ZoneId;
        return [
          id,
          {
            id,
            runId,
            kind,
            name,
            vertexId: vertex(straight),
            a: at(straight, fromMm),
            b: at(straight, toMm),
          },
        ];
      }),
    ),
    stations: Object.fromEntries(
      (scene.wanted ?? []).map(({ item, straight, nearMm, withinMm }, index) => {
        const id = `station-${index}` as StationId;
        return [id, { id, runId, item, vertexId: vertex(straight), at: at(straight, nearMm), withinMm }];
      }),
    ),
  };
};

export interface DrawnScene {
  readonly document: ProjectDocument;
  readonly runId: RunId;
  readonly problem: Extract<ReturnType<typeof poseProblem>, { ok: true }>['problem'];
  readonly alternative: NonNullable<ReturnType<typeof fitRun>['alternatives'][0]> | null;
  readonly drawing: NonNullable<ReturnType<typeof elevationOfRun>>;
}

/** A scene posed, fitted (unless it is to stay bare) and drawn. */
export const drawScene = (
  scene: Scene,
  {
    unit = 'mm',
    isBare = false,
    range = demoRange,
  }: { readonly unit?: DisplayUnit; readonly isBare?: boolean; readonly range?: StockRange } = {},
): DrawnScene => {
  const document = documentOf(scene);
  const posed = poseProblem(document, runId, range);
  if (!posed.ok) throw new Error(`${scene.name}: ${posed.message}`);
  const alternative = isBare ? null : (fitRun(posed.problem, { order: posed.order }).alternatives[0] ?? null);
  const drawing = elevationOfRun(document, runId, { range, unit, problem: posed.problem, alternative });
  if (!drawing) throw new Error(`${scene.name}: nothing drawn`);
  return { document, runId, problem: posed.problem, alternative, drawing };
};

const { frontBar, backBar } = demoPlanTruth;

export const demoFrontBar: Scene = {
  name: frontBar.name,
  frontLine: frontBar.frontLine,
  ends: frontBar.ends,
  zones: [
    ...frontBar.blockedZones.map(({ why, ...at }) => ({ kind: 'blocked' as const, name: why, ...at })),
    ...frontBar.openings.map(({ why, ...at }) => ({ kind: 'opening' as const, name: why, ...at })),
    ...frontBar.bays.map(({ equipment, ...at }) => ({ kind: 'opening' as const, name: equipment, ...at })),
  ],
  wanted: frontBar.wantedStations,
};

export const demoBackBar: Scene = {
  name: backBar.name,
  frontLine: backBar.frontLine,
  depthMm: backBar.depthMm,
  ends: backBar.ends,
};
