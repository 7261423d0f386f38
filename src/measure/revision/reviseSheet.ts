import type { SimpleCommand } from '../../document/command.ts';
import { copyRun } from '../../document/copyRun.ts';
import type { ReferenceId, RunId, SheetId } from '../../document/ids.ts';
import type {
  AcceptedScale,
  ProjectDocument,
  Run,
  Sheet,
  SheetRevision,
  WantedStation,
  Zone,
} from '../../document/projectDocument.ts';
import { boxAround, boxCorners } from '../../geometry/box.ts';
import { type PaperPoint, paperPoint } from '../../geometry/point.ts';
import type { ChangedLinework } from '../../sheet/registration/changedLinework.ts';
import { drawnScaleOfRun } from '../scaleOfSheet.ts';
import { mmPerUserUnit } from '../tracedRun.ts';
import { followMovedLines, type LineFinding } from './followMovedLines.ts';

/** A page that follows a sheet, and how it lies to it. */
export interface RevisingSheet {
  readonly id: SheetId;
  readonly name: string;
  readonly planSha256: string;
  readonly planFileName: string;
  readonly pageNumber: number;
  readonly userUnit: number;
  readonly revisionOf: SheetRevision;
  /** Relative +/- (k = 2) of the size that the map gives lengths. */
  readonly mapUncertainty: number;
}

/** One run as it was carried over. */
export interface CarriedRun {
  readonly from: RunId;
  readonly runId: RunId;
  readonly name: string;
  readonly findings: readonly LineFinding[];
}

export interface RevisedSheet {
  readonly commands: readonly SimpleCommand[];
  readonly runs: readonly CarriedRun[];
  /** From ids of the old sheet's runs, vertices, zones and stations to those of the new. */
  readonly newIds: ReadonlyMap<string, string>;
}

const mapped =
  ({ a, b, e, f }: SheetRevision['map']) =>
  ({ x, y }: PaperPoint): PaperPoint =>
    paperPoint(a * x - b * y + e, b * x + a * y + f);

const sizeOf = ({ a, b }: SheetRevision['map']): number => Math.hypot(a, b);

/** The old sheet's accepted scale on the new paper: what was one unit of the old paper is `size` of the new. */
const carriedScale = (old: Sheet, next: RevisingSheet): AcceptedScale | null => {
  const scale = old.acceptedScale;
  if (!scale) return null;
  const size = sizeOf(next.revisionOf.map);
  const factor = old.userUnit / (next.userUnit * size);
  const place = mapped(next.revisionOf.map);
  const sure = (relative: number) => Math.min(1, Math.hypot(relative, next.mapUncertainty));
  return {
    ratio: scale.ratio * factor,
    relativeUncertainty: sure(scale.relativeUncertainty),
    because: `Carried over from ${old.planFileName}: ${scale.because}`.slice(0, 300),
    ...(scale.views
      ? {
          views: scale.views.map(({ name, bbox, ratio, relativeUncertainty }) => {
            const [minX, minY, maxX, maxY] = bbox;
            const corners = boxCorners({ minX, minY, maxX, maxY }).map(({ x, y }) => place(paperPoint(x, y)));
            const box = boxAround(corners)!;
            return {
              name,
              bbox: [box.minX, box.minY, box.maxX, box.maxY] as const,
              ratio: ratio * factor,
              relativeUncertainty: sure(relativeUncertainty),
            };
          }),
        }
      : {}),
  };
};

const found = <Type extends SimpleCommand['type']>(commands: readonly SimpleCommand[], type: Type) =>
  commands.filter((command): command is Extract<SimpleCommand, { type: Type }> => command.type === type);

/** How far a line may lie from what was traced on it: a careful pick's reach, and what the match leaves open. */
const toleranceFor = (run: Run, plusMinusPt: number): number =>
  Math.max(1.5, 4 * run.pickUncertaintyPt, 2 * plusMinusPt);

/**
 * The commands that put a later revision of a sheet into a project: the new sheet with the old one's scale and known
 * dimensions, and its runs carried over with zones and stations. Where `changes` is given, runs follow the lines that
 * moved. Nothing of the old sheet is touched, and fits that were kept stay with it. Null where the old sheet is gone.
 */
export const reviseSheet = (
  document: ProjectDocument,
  oldSheetId: SheetId,
  next: RevisingSheet,
  given: { readonly changes: ChangedLinework | null; readonly freshId: () => string },
): RevisedSheet | null => {
  const old = document.sheets[oldSheetId];
  if (!old) return null;
  const { map, plusMinusPt } = next.revisionOf;
  const place = mapped(map);
  /** Points of 1/72 in on the new paper for one on the old. */
  const paperSize = (sizeOf(map) * next.userUnit) / old.userUnit;
  const { mapUncertainty: _, ...sheet } = next;
  const commands: SimpleCommand[] = [
    { type: 'add-sheet', sheet: { ...sheet, acceptedScale: carriedScale(old, next), layers: {} } },
  ];
  for (const reference of Object.values(document.references))
    if (reference.sheetId === oldSheetId)
      commands.push({
        type: 'add-reference',
        reference: {
          ...reference,
          id: `reference-${given.freshId()}` as ReferenceId,
          sheetId: next.id,
          a: place(reference.a),
          b: place(reference.b),
          pickUncertaintyPt: Math.hypot(reference.pickUncertaintyPt * paperSize, plusMinusPt / 2),
        },
      });
  const newIds = new Map<string, string>();
  const runs: CarriedRun[] = [];
  const carriedCommands: SimpleCommand[][] = [];
  for (const runId of document.runIds) {
    const original = document.runs[runId];
    if (original?.sheetId !== oldSheetId) continue;
    const copied = copyRun(document, runId, {
      place,
      isMirrored: false,
      mirroredItem: (item) => item,
      freshId: given.freshId,
    });
    if (copied?.command.type !== 'together') continue;
    const own = copied.command.commands;
    const copy = found(own, 'add-run')[0]!.run;
    const zones = found(own, 'add-zone').map(({ zone }) => zone);
    const stations = found(own, 'want-station').map(({ station }) => station);
    newIds.set(runId, copied.runId);
    for (const [index, { id }] of original.frontLine.entries()) newIds.set(id, copy.frontLine[index]!.id);
    const belongs = <Mine extends Zone | WantedStation>(records: { readonly [id: string]: Mine }) =>
      Object.values(records).filter((record) => record.runId === runId);
    for (const [index, { id }] of belongs(document.zones).entries()) newIds.set(id, zones[index]!.id);
    for (const [index, { id }] of belongs(document.stations).entries()) newIds.set(id, stations[index]!.id);

    const scale = drawnScaleOfRun(document, original);
    const unitMm = scale ? mmPerUserUnit(scale) / sizeOf(map) : null;
    const followed =
      given.changes && unitMm
        ? followMovedLines({ run: copy, zones, stations }, given.changes, {
            depthPt: original.depthMm / unitMm,
            tolerancePt: toleranceFor(original, plusMinusPt) / next.userUnit,
          })
        : null;
    runs.push({ from: runId, runId: copied.runId, name: original.name, findings: followed?.findings ?? [] });
    const run: Run = {
      ...copy,
      sheetId: next.id,
      name: original.name,
      carriedFrom: runId,
      pickUncertaintyPt: original.pickUncertaintyPt * paperSize,
      frontLine: copy.frontLine.map((vertex, index) => ({ ...vertex, ...followed?.vertices[index] })),
    };
    carriedCommands.push(
      own.map((command): SimpleCommand => {
        if (command.type === 'add-run') return { type: 'add-run', run };
        if (command.type === 'add-zone') {
          const placed = followed?.zones.find(({ id }) => id === command.zone.id);
          return { type: 'add-zone', zone: { ...command.zone, ...placed } };
        }
        if (command.type === 'want-station') {
          const placed = followed?.stations.find(({ id }) => id === command.station.id);
          return { type: 'want-station', station: { ...command.station, ...placed } };
        }
        return command;
      }),
    );
  }
  // What an end meets is known once every run has its new id.
  const meeting = (command: SimpleCommand): SimpleCommand => {
    if (command.type !== 'add-run' || !command.run.carriedFrom) return command;
    const before = document.runs[command.run.carriedFrom];
    const [first, second] = command.run.ends.map((end, index) => {
      const met = before?.ends[index]?.meetsRunId;
      const meetsRunId = met && newIds.get(met);
      return meetsRunId ? { ...end, meetsRunId: meetsRunId as RunId } : end;
    });
    return { type: 'add-run', run: { ...command.run, ends: [first!, second!] } };
  };
  // Each beside the one that it takes the place of, so that numbers stay.
  const runIds = document.runIds.flatMap((id) => {
    const carried = newIds.get(id) as RunId | undefined;
    return carried ? [id, carried] : [id];
  });
  const order: readonly SimpleCommand[] = runs.length > 0 ? [{ type: 'order-runs', runIds }] : [];
  return { commands: [...commands, ...carriedCommands.flat().map(meeting), ...order], runs, newIds };
};
