import type { LeftoverVerdict } from '../../src/fitting/fitAnswer.ts';

/** A module on the curve. Angles in degrees from the start of the front, overhang of the curved top in mm. */
export interface CurvedPiece {
  readonly item: string;
  readonly widthMm: number;
  /** The angle that it takes at its widest as seen from the centre. */
  readonly fromDeg: number;
  readonly toDeg: number;
  /**
   * The two corners of its front, seen from the centre, along the developed front. Their distance along the arc is not
   * its width: a chord (front outside) is shorter than its arc, a tangent (front inside) longer.
   */
  readonly fromMm: number;
  readonly toMm: number;
  readonly overhangMm: number;
}

/** The made-to-measure wedge between two neighbours: nearly nothing at one side, open at the other. */
export interface CurvedWedge {
  /** Index of the piece before it. */
  readonly after: number;
  readonly angleDeg: number;
  readonly frontMm: number;
  readonly backMm: number;
}

/**
 * What opens between the outermost module and the straight line across the counter there: the wall, the panel of an
 * exposed end, the leftover or the run that it meets. It is scribed in with the piece that closes the end and is not
 * counted.
 */
export interface CurvedEndWedge {
  readonly at: 'start' | 'end';
  readonly angleDeg: number;
  readonly frontMm: number;
  readonly backMm: number;
}

export interface CurvedLeftover {
  readonly fromDeg: number;
  readonly toDeg: number;
  /** Along the front line. */
  readonly arcMm: number;
  readonly verdict: LeftoverVerdict;
  /** Whether modules and verdicts hold over the front's length plus and minus its uncertainty. */
  readonly confirmed: boolean;
}

/** The answer for a curved run. */
export interface CurvedFit {
  readonly status: 'optimal' | 'infeasible' | 'stopped';
  readonly pieces: readonly CurvedPiece[];
  readonly wedges: readonly CurvedWedge[];
  readonly endWedges: readonly CurvedEndWedge[];
  readonly leftovers: readonly CurvedLeftover[];
  readonly score: {
    /** Leftovers that are made to measure; the wedges are counted apart. */
    readonly madeToMeasure: number;
    readonly leftoverMm: number;
    readonly fillers: number;
    readonly pieces: number;
    readonly wedges: number;
    readonly price: number;
  };
  readonly explanation: string;
}
