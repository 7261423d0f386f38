import { type ArcFront, arcFrontOf, jointUmOn } from './arcFront.ts';
import { arcWedges } from './arcWedges.ts';
import type { FitAlternative, FitLeftover, FitPiece, FitWedge } from './fitAnswer.ts';
import { leftoverVerdict } from './leftoverVerdict.ts';
import { micrometres, millimetres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';
import type { RunLayout } from './runSolver.ts';
import { publishedScore } from './scoreVector.ts';
import { ownWidthOf, type StretchLayout, widthOf } from './stretchLayout.ts';

const publishPieces = (
  layout: StretchLayout,
  jointUm: number,
  arc: ArcFront | undefined,
  pieces: FitPiece[],
): void => {
  const { straight } = layout.stretch;
  let fromUm = layout.fromUm;
  for (const piece of layout.sequence) {
    const toUm = fromUm + widthOf(piece);
    const host = pieces.length;
    const own = piece.event?.own;
    const widthMm = millimetres(ownWidthOf(piece));
    const insetUm = arc?.insetUm(widthMm) ?? 0;
    const overhangMm = arc?.moduleOf(widthMm)?.overhangMm;
    pieces.push({
      straight,
      item: piece.event ? piece.event.item : piece.item.id,
      fromMm: millimetres(fromUm + insetUm),
      toMm: millimetres(toUm - insetUm),
      ...(overhangMm === undefined ? {} : { widthMm, overhangMm: Math.round(overhangMm * 1000) / 1000 }),
      ...(own ? { wanted: own.id } : {}),
    });
    if (piece.event && piece.event.hosted.length > 0) {
      const placement = piece.event.hostedAt(fromUm);
      if (placement === undefined) throw new Error('A hosted piece must have its place.');
      for (const [index, station] of piece.event.hosted.entries()) {
        const hostedUm = placement.fromUm[index]!;
        pieces.push({
          straight,
          item: station.item,
          fromMm: millimetres(hostedUm),
          toMm: millimetres(hostedUm + station.widthUm),
          wanted: station.id,
          host,
        });
      }
    }
    fromUm = toUm + jointUm;
  }
};

/** The leftovers of one stretch, left part first. */
export const publishLeftovers = (
  layout: StretchLayout,
  jointUm: number,
  fillerMaxUm: number,
  confirmed: boolean,
): readonly FitLeftover[] => {
  const { stretch, sequence, fromUm, leftUm, rightUm } = layout;
  const lengthUm =
    sequence.reduce((sum, piece) => sum + widthOf(piece), 0) + jointUm * Math.max(0, sequence.length - 1);
  const leftFromUm = sequence.length === 0 ? fromUm : fromUm - leftUm;
  const rightFromUm = fromUm + lengthUm;
  return [
    { partUm: leftUm, startUm: leftFromUm },
    { partUm: rightUm, startUm: rightFromUm },
  ]
    .filter(({ partUm }) => partUm > 0)
    .map(({ partUm, startUm }) => ({
      straight: stretch.straight,
      fromMm: millimetres(startUm),
      toMm: millimetres(startUm + partUm),
      widthMm: millimetres(partUm),
      verdict: leftoverVerdict(partUm, leftUm + rightUm, stretch.uncertaintyUm, fillerMaxUm),
      confirmed,
    }));
};

/** A solved run in the shape of the contract. */
export const publishedLayout = (
  problem: FitProblem,
  run: RunLayout,
  reason: string,
  isConfirmed: (layout: StretchLayout) => boolean,
): FitAlternative => {
  const fillerMaxUm = micrometres(problem.fillerMaxMm);
  const pieces: FitPiece[] = [];
  const leftovers: FitLeftover[] = [];
  const wedges: FitWedge[] = [];
  for (const layout of run.straights.flatMap((straight) => straight.layouts)) {
    const { straight } = layout.stretch;
    const jointUm = jointUmOn(problem, straight);
    const arc = arcFrontOf(problem, straight);
    const first = pieces.length;
    publishPieces(layout, jointUm, arc, pieces);
    if (arc) wedges.push(...arcWedges(layout, arc, pieces, first));
    leftovers.push(...publishLeftovers(layout, jointUm, fillerMaxUm, isConfirmed(layout)));
  }
  const passedColumns = run.straights.flatMap(({ passed = [] }, straight) =>
    passed.map((column) => ({ straight, column })),
  );
  return {
    reason,
    corners: run.corners.map(({ corner }) => corner),
    pieces,
    leftovers,
    score: publishedScore(run.score),
    ...(passedColumns.length > 0 ? { passedColumns } : {}),
    ...(wedges.length > 0 ? { wedges } : {}),
  };
};
