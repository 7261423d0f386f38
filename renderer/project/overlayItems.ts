import type { RunId, SheetId } from '../../src/document/ids.ts';
import type { ProjectDocument, Run } from '../../src/document/projectDocument.ts';
import type { FitAlternative } from '../../src/fitting/fitAnswer.ts';
import { paperPoint } from '../../src/geometry/point.ts';
import { distanceBetween } from '../../src/geometry/vector.ts';
import type { FitOnPlan, PartName } from '../../src/issue/fitOnPlan.ts';
import { backLineOf } from '../../src/measure/backLine.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { flattenedPath, hasBends } from '../../src/measure/runPath.ts';
import { drawnScaleOfRun } from '../../src/measure/scaleOfSheet.ts';
import { straightsOf } from '../../src/measure/straights.ts';
import { backSign, frontMiddleOf, type SheetScale } from '../../src/measure/tracedRun.ts';
import { type DisplayUnit, formatLength, formatPlusMinus } from '../../src/units/formatLength.ts';
import type { DisplayItem, ItemState, LabelItem } from '../board/displayList.ts';
import { shortened } from '../tools/shortened.ts';
import { depthOf, directionOf, middleOf, widthOf } from './ringMeasures.ts';
import { zoneItems } from './zoneItems.ts';

/** A part of a run's fit, as the board, the elevation and the schedule name it to one another. */
export interface PartOfRun {
  readonly runId: RunId;
  readonly part: PartName;
}

/** The board's items for one part of a fit: its outline to scale, its hatch where it is a leftover, its mark. */
export const fitItems = (
  runId: RunId,
  parts: readonly FitOnPlan[],
  highlighted: PartName | null,
  unit: DisplayUnit,
): readonly DisplayItem[] =>
  parts.flatMap((part): DisplayItem[] => {
    const id = `${runId}/${part.part}`;
    const state: ItemState = part.part === highlighted ? 'selected' : 'normal';
    const [start, end] = part.ring;
    const alongRad = start && end ? directionOf(start, end) : 0;
    const label = (which: string, text: string, upPx: number): LabelItem => ({
      kind: 'label',
      id: `${id}/${which}`,
      at: middleOf(part.letterRing),
      text,
      sizePx: 11,
      isStrong: which === 'mark',
      alongRad,
      shift: { directionRad: alongRad + Math.PI / 2, px: upPx },
      roomUnits: widthOf(part.letterRing),
      // Two lines share the depth, with a little air.
      roomAcrossUnits: depthOf(part.letterRing) / 2.4,
      isHittable: false,
    });
    // Walking along the front, the text may be read from the other side: above is where its own top is.
    const isReadBackwards =
      Math.cos(alongRad) < -1e-9 || (Math.abs(Math.cos(alongRad)) < 1e-9 && alongRad < 0);
    const upPx = isReadBackwards ? -7 : 7;
    const lettered = (width?: number): readonly LabelItem[] =>
      width === undefined
        ? [label('mark', part.mark, 0)]
        : [label('mark', part.mark, upPx), label('width', formatLength(width, { unit }), -upPx)];
    if (part.kind === 'leftover')
      return [
        {
          kind: 'polygon',
          id,
          state,
          points: part.outline ?? part.ring,
          fill: { tone: part.verdict === 'made-to-measure' ? 'made-to-measure' : 'filler', opacity: 0.16 },
          hatch: {
            kind: part.verdict,
            tone: part.verdict === 'made-to-measure' ? 'made-to-measure' : 'filler',
          },
          line: { tone: part.verdict === 'made-to-measure' ? 'made-to-measure' : 'filler', widthPx: 1.5 },
        },
        ...lettered(part.widthMm),
      ];
    if (part.kind === 'wedge')
      return [
        {
          kind: 'polygon',
          id,
          state,
          points: part.ring,
          hatch: { kind: 'made-to-measure', tone: 'made-to-measure' },
          line: { tone: 'made-to-measure', widthPx: 1 },
        },
      ];
    if (part.kind === 'corner')
      return [
        {
          kind: 'polygon',
          id,
          state,
          points: part.ring,
          fill: { tone: 'module', opacity: 0.05 },
          line: { tone: 'module', widthPx: 1.25 },
        },
        ...lettered(),
      ];
    return [
      {
        kind: 'polygon',
        id,
        state,
        points: part.ring,
        fill: { tone: part.isStation ? 'station' : 'module', opacity: part.isStation ? 0.14 : 0.04 },
        line: { tone: part.isStation ? 'station' : 'module', widthPx: 1.25 },
      },
      ...lettered(part.widthMm),
    ];
  });

/** A run as traced: front line, back line, the length of each straight with its +/-. */
const runItems = (
  run: Run,
  scale: SheetScale | null,
  isSelected: boolean,
  unit: DisplayUnit,
): readonly DisplayItem[] => {
  const traced = runAsTraced(run);
  const front: DisplayItem = {
    kind: 'polyline',
    id: `run/${run.id}`,
    points: flattenedPath(traced),
    ...(hasBends(traced) ? { handlePoints: traced.frontLine } : {}),
    state: isSelected ? 'selected' : 'normal',
    hasHandles: true,
    line: { tone: 'front', widthPx: isSelected ? 3 : 2.25 },
  };
  if (!scale) return [front];
  const items: DisplayItem[] = [
    {
      kind: 'polyline',
      id: `run/${run.id}/back`,
      points: backLineOf(traced, scale),
      isHittable: false,
      line: { tone: 'front', widthPx: 1, dashPx: [8, 4], opacity: 0.8 },
    },
    front,
  ];
  for (const straight of straightsOf(traced, scale)) {
    const middle = frontMiddleOf(traced, straight.index);
    const { along, towardsBack } = middle;
    const radius = straight.bend ? `  R ${formatLength(straight.bend.radiusMm, { unit })}` : '';
    items.push({
      kind: 'label',
      id: `run/${run.id}/length-${straight.index}`,
      at: middle.at,
      text: formatLength(straight.lengthMm, { unit }),
      quietText: ` ${formatPlusMinus(straight.plusMinusMm, { unit })}${radius}`,
      tone: 'front',
      isStrong: isSelected,
      // The lengths of the run in hand always show; those of the others where they don't lie over one another.
      roomUnits: isSelected ? undefined : distanceBetween(straight.startPaper, straight.endPaper),
      alongRad: Math.atan2(along.y, along.x),
      shift: { directionRad: Math.atan2(-towardsBack.y, -towardsBack.x), px: 14 },
      isHittable: false,
    });
  }
  const first = run.frontLine[0]?.at;
  const second = run.frontLine[1]?.at;
  if (first && second)
    items.push({
      kind: 'label',
      id: `run/${run.id}/name`,
      at: first,
      text: shortened(run.name),
      tone: 'front',
      isStrong: true,
      align: 'start',
      alongRad: directionOf(first, second),
      shift: { directionRad: directionOf(first, second) - (backSign(run) * Math.PI) / 2, px: 30 },
      isHittable: false,
    });
  return items;
};

/** Everything of a project that lies over one of its sheets, but for fits and what a tool is drawing. */
export const tracedItems = (
  document: ProjectDocument,
  sheetId: SheetId,
  selectedRunId: RunId | null,
  unit: DisplayUnit,
  /** The fit shown of each run: it decides whether a column is passed. */
  shown: (runId: RunId) => FitAlternative | null = () => null,
): readonly DisplayItem[] => {
  const items: DisplayItem[] = [];
  for (const reference of Object.values(document.references)) {
    if (reference.sheetId !== sheetId) continue;
    items.push(
      {
        kind: 'polyline',
        id: `reference/${reference.id}`,
        points: [reference.a, reference.b],
        line: { tone: 'scale', widthPx: 1.5, dashPx: [2, 3] },
        hasHandles: true,
      },
      {
        kind: 'label',
        id: `reference/${reference.id}/label`,
        at: paperPoint((reference.a.x + reference.b.x) / 2, (reference.a.y + reference.b.y) / 2),
        text: `K ${formatLength(reference.lengthMm, { unit })}`,
        tone: 'scale',
        alongRad: directionOf(reference.a, reference.b),
        isHittable: false,
      },
    );
  }
  for (const runId of document.runIds) {
    const run = document.runs[runId];
    if (!run || run.sheetId !== sheetId) continue;
    const scale = drawnScaleOfRun(document, run);
    if (scale) items.push(...zoneItems(document, run, scale, shown(runId)));
    items.push(...runItems(run, scale, runId === selectedRunId, unit));
  }
  return items;
};
