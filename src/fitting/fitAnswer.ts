import type { CornerTreatment } from './problemSchema.ts';

/** What a length that no stock piece covers asks for (DESIGN section 2). */
export type LeftoverVerdict = 'closes' | 'filler' | 'made-to-measure';

/** How one corner is made; `item` is the corner unit where there is one. */
export interface FitCorner {
  /** `joint`: an arc goes on from its neighbour without a turn, and there is nothing to make. */
  readonly treatment: CornerTreatment | 'joint';
  readonly item?: string;
}

/** One piece, measured in mm along the traced front of its straight. */
export interface FitPiece {
  readonly straight: number;
  readonly item: string;
  readonly fromMm: number;
  readonly toMm: number;
  /** Id of the wanted station that it answers. */
  readonly wanted?: string;
  /** Index in `pieces` of the standing piece that carries a drop-in or countertop piece. */
  readonly host?: number;
  /** How much wider than its stock width it is made, in place of a made-to-measure piece beside it. */
  readonly widenedMm?: number;
  /**
   * Only on an arc: the piece's own width, and how far the curved top overhangs its straight front. `fromMm` and `toMm`
   * are then where the corners of its front lie as seen from the centre.
   */
  readonly widthMm?: number;
  readonly overhangMm?: number;
}

/**
 * A made-to-measure wedge on an arc: between two neighbours, or between the outermost piece and the line across the
 * counter that it ends at (a wall, a joint, a zone). Wedges count as no piece and no made-to-measure piece in the score.
 */
export interface FitWedge {
  readonly straight: number;
  /** Index in `pieces` of the piece before it; absent at the start of a stretch. */
  readonly after?: number;
  /** Index in `pieces` of the piece behind it; absent at the end of a stretch. */
  readonly before?: number;
  /** What it takes of the front line. */
  readonly fromMm: number;
  readonly toMm: number;
  /** Across, from corner to corner of its neighbours, at the front and at the back. */
  readonly frontMm: number;
  readonly backMm: number;
  readonly angleDeg: number;
}

/** A length that no stock piece covers, in mm along the traced front of its straight. */
export interface FitLeftover {
  readonly straight: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly widthMm: number;
  readonly verdict: LeftoverVerdict;
  /** Whether layout and verdict hold over the straight's length plus and minus its uncertainty. */
  readonly confirmed: boolean;
}

/** The counts by which fits are compared; less is better in each. */
export interface FitScore {
  readonly unplaced: number;
  readonly madeToMeasure: number;
  readonly leftoverMm: number;
  readonly fillers: number;
  readonly pieces: number;
  readonly displacementMm: number;
  readonly price: number;
}

/** A wanted station that has no place in this fit, and why. */
export interface LeftOutStation {
  readonly wanted: string;
  readonly item: string;
  readonly straight: number;
  readonly reason: string;
  /**
   * The nearest place, as its centre along the traced front, at which it could stand with every station that this fit
   * places still placed within its own tolerance. Proven: no place is nearer to where it is wanted. Absent where there is
   * none on its straight, or the search for it was stopped.
   */
  readonly nearest?: { readonly straight: number; readonly atMm: number };
}

/** A column that takes only the back, with pieces or a leftover in front of it. */
export interface PassedColumn {
  readonly straight: number;
  readonly column: number;
}

/** One complete filling of a run. */
export interface FitAlternative {
  readonly reason: string;
  readonly corners: readonly FitCorner[];
  readonly pieces: readonly FitPiece[];
  readonly leftovers: readonly FitLeftover[];
  readonly score: FitScore;
  readonly leftOut?: readonly LeftOutStation[];
  /** The columns that this fit passes in front of, by their index in the straight's `columns`; the others stop it. */
  readonly passedColumns?: readonly PassedColumn[];
  /** Only where a straight is an arc. */
  readonly wedges?: readonly FitWedge[];
}

/** The answer of `footrail fit`, DESIGN section 6. */
export interface FitAnswer {
  readonly status: 'optimal' | 'infeasible' | 'stopped';
  readonly alternatives: readonly FitAlternative[];
  readonly explanation: string;
  readonly questions: readonly string[];
  /** Only when infeasible: the smallest set of wishes that clash, as paths into the problem. */
  readonly clash?: readonly string[];
  /** Only when stopped: no fit can score better than this, read in the order asked for. */
  readonly bound?: FitScore;
}
