import { floorAt } from '../../measure/floorLevels.ts';
import { isColumnPassed } from '../../quote/isColumnPassed.ts';
import type { Drawing, Shape } from '../drawing/drawing.ts';
import { pointsOfPath } from '../drawing/drawnPath.ts';
import type { PartName } from '../fitOnPlan.ts';
import { type DevelopedRun, developedRun } from './developedRun.ts';
import {
  drawBareOutline,
  drawCutMark,
  drawFloor,
  drawNeighbour,
  drawOtherShelves,
  drawServingShelf,
  drawTopLine,
  drawWall,
  joinedStretches,
  wallDrawnMm,
} from './drawBackdrop.ts';
import { drawPiece } from './drawPiece.ts';
import {
  drawBlocked,
  drawCornerReturn,
  drawCornerUnit,
  drawCornerWedge,
  drawEndPanel,
  drawFold,
  drawLeftover,
  drawOpening,
  drawWanted,
} from './drawSpan.ts';
import { drawBay, drawLowSection, drawPassedColumn, ownSpanOf } from './drawZones.ts';
import { type ElevationBuild, elevationBuild } from './elevationBuild.ts';
import { elevationChains } from './elevationChains.ts';
import type { ElevationInput } from './elevationInput.ts';
import { levelsOf } from './elevationLevels.ts';
import { elevationParts } from './elevationParts.ts';
import { calloutsOf, captionOf, notesOf, placedAs } from './elevationTexts.ts';
import { partOfSpan } from './partOfSpan.ts';
import { type Span, spansOf } from './spansOf.ts';

/** The floor is drawn this far past an end that meets no wall, mm. */
const floorBeyondMm = 260;

/** What carries the run's working top: openings, blocked zones, low sections and what an end gave up carry none. */
const hasTop = ({ kind }: Span): boolean =>
  kind !== 'opening' && kind !== 'blocked' && kind !== 'low' && kind !== 'give';

/**
 * The developed elevation of a run: its working side unrolled into one straight drawing, at true proportions, as it will
 * stand. Every piece, leftover, corner and zone carries its part's name, so that plan and elevation can light up
 * together. Without a fit it is the bare traced run.
 */
export const drawElevation = (given: ElevationInput): Drawing<PartName> => {
  const input = ofThisRun(given);
  const { run, range, alternative } = input;
  const straights = spansOf(input);
  const developed = developedRun(run, straights);
  const build = onItsFloor(elevationBuild(range, run.levels), run, developed);
  const spans = straights.flatMap((straight) => straight.spans);
  const ends = developed.isFirstPointAtRight ? [run.ends[1], run.ends[0]] : run.ends;
  const endWord = (isFirst: boolean, kind: string) => {
    const met = input.meets?.[isFirst ? 0 : 1] ?? 'another run';
    return `${isFirst ? 'Start' : 'End'}: ${kind === 'meets' ? `meets ${met}` : kind}`;
  };
  const { totalMm } = developed;
  const leftMm = ends[0]?.kind === 'wall' ? -wallDrawnMm : -floorBeyondMm;
  const rightMm = totalMm + (ends[1]?.kind === 'wall' ? wallDrawnMm : floorBeyondMm);

  const topped = joinedStretches(spans.filter(hasTop).map(developed.stretch));
  const joints = spans
    .filter(({ kind }) => kind === 'piece' || kind === 'leftover' || kind === 'corner')
    .flatMap((span) => Object.values(developed.stretch(span)));
  const shapes: readonly Shape<PartName>[] = [
    ...(ends[0]?.kind === 'wall' ? drawWall(0, 'left', build) : []),
    ...(ends[1]?.kind === 'wall' ? drawWall(totalMm, 'right', build) : []),
    ...(ends[0]?.kind === 'meets' ? drawNeighbour(0, 'left', build) : []),
    ...(ends[1]?.kind === 'meets' ? drawNeighbour(totalMm, 'right', build) : []),
    ...(alternative ? drawServingShelf(topped, [...new Set(joints)], build) : drawBareOutline(topped, build)),
    ...drawOtherShelves(topped, build),
    ...drawnInOrder(spans).flatMap((span) => drawSpan(input, span, developed, build)),
    ...(alternative ? drawTopLine(topped, build) : []),
    ...drawHosted(input, developed, build),
    ...drawFolds(input, developed, build),
    ...drawWantedMarks(input, developed),
    ...drawColumns(input, developed, build),
    ...drawFloor(leftMm, rightMm, build, run.levels?.raisedFloorBehindMm),
    ...(input.cuts ?? []).flatMap(({ straight, alongMm }) =>
      drawCutMark(developed.xOf(straight, alongMm), build),
    ),
  ];
  const heights = shapes.flatMap(({ path }) => pointsOfPath(path).map(({ y }) => y));
  return {
    title: `${input.runNumber} ${run.name}`,
    caption: captionOf(input),
    leftEnd: endWord(!developed.isFirstPointAtRight, ends[0]?.kind ?? 'wall'),
    rightEnd: endWord(developed.isFirstPointAtRight, ends[1]?.kind ?? 'wall'),
    leftMm,
    rightMm,
    topMm: Math.max(...heights),
    folds: input.corners.map((_, index) => developed.foldAt(index)),
    shapes,
    notes: notesOf(input, spans, developed, build),
    callouts: calloutsOf(input, developed, build),
    chains: elevationChains(input, straights, developed),
    levels: levelsOf(input, build),
    parts: elevationParts(input, straights, developed, shapes, build),
  };
};

/**
 * What is given, without a fit or wanted stations of an earlier tracing: those name straights that the run no longer has,
 * and would be drawn where they never stood.
 */
const ofThisRun = (input: ElevationInput): ElevationInput => {
  const { straights, corners, alternative, problem } = input;
  const isHere = ({ straight }: { readonly straight: number }) => straight < straights.length;
  const isCurrent =
    alternative !== null &&
    alternative.corners.length === corners.length &&
    alternative.pieces.every(isHere) &&
    alternative.leftovers.every(isHere);
  return {
    ...input,
    alternative: isCurrent ? alternative : null,
    problem: problem && { ...problem, wanted: (problem.wanted ?? []).filter(isHere) },
  };
};

/** End panels stand before the feet beside them. */
const drawnInOrder = (spans: readonly Span[]): readonly Span[] =>
  spans.toSorted((one, other) => Number(one.kind === 'end-panel') - Number(other.kind === 'end-panel'));

const drawSpan = (
  input: ElevationInput,
  span: Span,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Shape<PartName>[] => {
  const { alternative, range, zones } = input;
  const stretch = developed.stretch(span);
  const part = partOfSpan(input, span);
  if (span.kind === 'end-panel') return drawEndPanel(stretch, build);
  if (part === undefined) return [];
  if (span.kind === 'piece') {
    const item = range.items.find(({ id }) => id === alternative?.pieces[span.index]?.item);
    return drawPiece(
      { part, leftMm: stretch.left, widthMm: stretch.right - stretch.left, item },
      range,
      build,
    );
  }
  if (span.kind === 'wedge') return drawLeftover(stretch, 'made-to-measure', part, build);
  if (span.kind === 'leftover')
    return drawLeftover(stretch, alternative?.leftovers[span.index]?.verdict ?? 'filler', part, build);
  if (span.kind === 'blocked') return drawBlocked(stretch, part, build);
  const zone = zones[span.index];
  if (span.kind === 'bay' && zone)
    return drawBay(stretch, developed.stretch(ownSpanOf(zone, span)), zone, part, build);
  if (span.kind === 'low' && zone) return drawLowSection(stretch, zone, range, part, build);
  if (span.kind === 'opening') return drawOpening(stretch, zones[span.index]?.name ?? '', part, build);
  const fold = developed.foldAt(span.index);
  const face = { stretch, foldSide: Math.abs(stretch.left - fold) < 1 ? 'left' : 'right' } as const;
  const treatment = alternative?.corners[span.index]?.treatment;
  if (treatment === 'corner-unit') return drawCornerUnit(face, part, build);
  if (treatment === 'mitre') return drawCornerWedge(face, part, build);
  return drawCornerReturn(face, part, build);
};

/** A build on the run's own floor, which falls evenly from its first point to its last. */
const onItsFloor = (
  build: ElevationBuild,
  { levels }: ElevationInput['run'],
  { totalMm, isFirstPointAtRight }: DevelopedRun,
): ElevationBuild => {
  if (!levels) return build;
  const share = (x: number) => (isFirstPointAtRight ? totalMm - x : x) / Math.max(1, totalMm);
  return { ...build, floorAt: (x) => build.datum + floorAt(levels, share(x)) };
};

const drawColumns = (
  { zones, alternative }: ElevationInput,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Shape<PartName>[] =>
  zones.flatMap((zone) =>
    isColumnPassed(zone, alternative)
      ? drawPassedColumn(developed.stretch(zone), `zone:${zone.id}`, build)
      : [],
  );

const drawHosted = (
  { alternative, range }: ElevationInput,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Shape<PartName>[] =>
  (alternative?.pieces ?? []).flatMap((piece, index) => {
    if (piece.host === undefined) return [];
    const { left, right } = developed.stretch(piece);
    const item = range.items.find(({ id }) => id === piece.item);
    return drawPiece({ part: `piece:${index}`, leftMm: left, widthMm: right - left, item }, range, build);
  });

const drawFolds = (
  { corners }: ElevationInput,
  developed: DevelopedRun,
  build: ElevationBuild,
): readonly Shape<PartName>[] =>
  corners.flatMap((_, index) => drawFold(developed.foldAt(index), `corner:${index}`, build));

const drawWantedMarks = (input: ElevationInput, developed: DevelopedRun): readonly Shape<PartName>[] =>
  (input.problem?.wanted ?? []).flatMap(({ id, straight, nearMm }) => {
    const part = placedAs(input, id);
    const isOpen = part !== undefined || input.alternative === null;
    return drawWanted(developed.xOf(straight, nearMm), isOpen, part);
  });
