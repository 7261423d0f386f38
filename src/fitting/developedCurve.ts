import type { CurvedFit } from './curvedFit.ts';
import type { FitLeftover, FitPiece, FitScore } from './fitAnswer.ts';

/** A made-to-measure wedge between two pieces of a curved straight. */
export interface FitWedge {
  readonly straight: number;
  /** Index in `pieces` of the piece before it. */
  readonly after: number;
  /** The gap that it closes, along the developed front. */
  readonly fromMm: number;
  readonly toMm: number;
  /** What it measures across, at the front and at the back of the counter, and the angle between its sides. */
  readonly frontMm: number;
  readonly backMm: number;
  readonly angleDeg: number;
}

/** A curved straight in the shape in which a fit publishes a straight one. */
export interface DevelopedCurve {
  readonly pieces: readonly FitPiece[];
  readonly leftovers: readonly FitLeftover[];
  readonly wedges: readonly FitWedge[];
  /** To be added to that of the run: each wedge counts as one piece and one made to measure, as at a mitred corner. */
  readonly score: FitScore;
}

/**
 * A curved straight's answer, unrolled: every place in mm along the arc of the front from the straight's traced start,
 * so that schedules, elevations and sums take it as they take a straight one. A piece's `toMm - fromMm` is the arc
 * between its front corners and differs from its stock width by the little that chord and arc (or tangent and arc)
 * differ; take widths from the stock. Between neighbours lies the front of their wedge.
 *
 * @example developedCurve(curvedRun(problem), 2).pieces[0] // { straight: 2, item: 'M900', fromMm: 58.1, toMm: 960.6 }
 */
export const developedCurve = (fit: CurvedFit, straight: number): DevelopedCurve => {
  const arcAt = (deg: number, { fromDeg, toDeg, arcMm }: CurvedFit['leftovers'][number]) =>
    Math.round(((deg * arcMm) / (toDeg - fromDeg)) * 1000) / 1000;
  return {
    pieces: fit.pieces.map(({ item, fromMm, toMm }) => ({ straight, item, fromMm, toMm })),
    leftovers: fit.leftovers.map((leftover) => {
      const fromMm = arcAt(leftover.fromDeg, leftover);
      const toMm = arcAt(leftover.toDeg, leftover);
      const { arcMm: widthMm, verdict, confirmed } = leftover;
      return { straight, fromMm, toMm, widthMm, verdict, confirmed };
    }),
    wedges: fit.wedges.map(({ after, angleDeg, frontMm, backMm }) => ({
      straight,
      after,
      fromMm: fit.pieces[after]!.toMm,
      toMm: fit.pieces[after + 1]!.fromMm,
      frontMm,
      backMm,
      angleDeg,
    })),
    score: {
      unplaced: 0,
      madeToMeasure: fit.score.madeToMeasure + fit.score.wedges,
      leftoverMm: fit.score.leftoverMm,
      fillers: fit.score.fillers,
      pieces: fit.score.pieces + fit.score.wedges,
      displacementMm: 0,
      price: fit.score.price,
    },
  };
};
