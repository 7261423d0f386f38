import type { PaperPoint } from '../../geometry/point.ts';
import { fitSimilarity, type WeightedPair } from './fitSimilarity.ts';
import type { RegistrationUncertainty } from './registrationUncertainty.ts';
import { applySimilarity, type Similarity, similarityScale } from './similarity.ts';

/** The same place picked on the old sheet and on the new. */
export interface PickedPair {
  readonly old: PaperPoint;
  readonly new: PaperPoint;
  /** Standard uncertainty (k = 1) of each pick along each axis, in its own sheet's points; 0.5 where not given. */
  readonly oldUncertaintyPt?: number;
  readonly newUncertaintyPt?: number;
}

/** What picked pairs say of how a new sheet lies to the old. */
export interface PickedRegistration {
  readonly transform: Similarity;
  readonly uncertainty: RegistrationUncertainty;
  /** For each pair: where its new pick lies from where the transform takes its old pick, in new paper points. */
  readonly residuals: readonly PickResidual[];
  /** Set where more than two pairs disagree by clearly more than their uncertainty. */
  readonly warning: { readonly code: 'picks-disagree'; readonly message: string } | null;
}

export interface PickResidual {
  readonly x: number;
  readonly y: number;
  readonly distancePt: number;
}

/** Why picks give no registration: a kebab-case code, what is wrong and what to do, and where. */
export interface PicksRefused {
  readonly error: {
    readonly code: 'too-few-picks' | 'picks-too-near' | 'pick-not-finite' | 'pick-uncertainty';
    readonly message: string;
    readonly path: string;
  };
}

/** A careful pick on a drawn line, k = 1, in points. */
const CAREFUL_PICK_PT = 0.5;

/** Picks nearer to one another than this many of their own uncertainties say nothing of scale and turn. */
const LEAST_SPREAD = 10;

/** A scatter this many times what the uncertainties explain is worth a warning. */
const CLEAR_SCATTER = 2;

/**
 * The similarity that takes the old picks to the new ones by weighted least squares; see {@link fitSimilarity}.
 *
 * Errors of the old picks are carried over at the fitted scale (JCGM 100:2008 5.1.2 eq. (10)); where more than two pairs
 * scatter more than their uncertainties explain, the covariance is widened by the square of the Birge ratio.
 *
 * @returns the registration, or why there is none: `too-few-picks`, `picks-too-near`, `pick-not-finite`,
 * `pick-uncertainty`.
 * @example registerByPicks([{ old: a, new: a2 }, { old: b, new: b2 }])
 */
export const registerByPicks = (pairs: readonly PickedPair[]): PickedRegistration | PicksRefused => {
  const wrong = wrongPick(pairs);
  if (wrong) return wrong;
  // The weights need the scale and the scale the weights. It settles at once: only ratios of weights move the fit.
  let scale = 1;
  let weights = weightsAt(pairs, scale);
  let fit = fitSimilarity(weighted(pairs, weights));
  for (let round = 0; round < 3 && fit; round++) {
    scale = similarityScale(fit.transform);
    weights = weightsAt(pairs, scale);
    fit = fitSimilarity(weighted(pairs, weights));
  }
  if (!fit) return tooNear();
  const { transform, centre, weightSum, spreadSquare } = fit;
  // 1 / sqrt(spreadSquare) is the standard uncertainty of a and b; over the scale, that of the turn in radians.
  if (!(1 / Math.sqrt(spreadSquare) / scale < 1 / LEAST_SPREAD)) return tooNear();
  let chiSquare = 0;
  const residuals = pairs.map((pair, index) => {
    const at = applySimilarity(transform, pair.old);
    const [x, y] = [pair.new.x - at.x, pair.new.y - at.y];
    chiSquare += weights[index]! * (x * x + y * y);
    return { x, y, distancePt: Math.sqrt(x * x + y * y) };
  });
  const freedom = 2 * pairs.length - 4;
  const birge = freedom > 0 ? Math.sqrt(chiSquare / freedom) : 0;
  const widened = Math.max(1, birge) ** 2;
  const [place, turn] = [widened / weightSum, widened / spreadSquare];
  return {
    transform,
    uncertainty: { centre, covariance: [turn, 0, 0, 0, 0, turn, 0, 0, 0, 0, place, 0, 0, 0, 0, place] },
    residuals,
    warning: birge > CLEAR_SCATTER ? picksDisagree(birge) : null,
  };
};

const weightsAt = (pairs: readonly PickedPair[], scale: number): number[] =>
  pairs.map(
    ({ oldUncertaintyPt = CAREFUL_PICK_PT, newUncertaintyPt = CAREFUL_PICK_PT }) =>
      1 / (newUncertaintyPt ** 2 + (scale * oldUncertaintyPt) ** 2),
  );

const weighted = (pairs: readonly PickedPair[], weights: readonly number[]): WeightedPair[] =>
  pairs.map((pair, index) => ({ old: pair.old, new: pair.new, weight: weights[index]! }));

const picksDisagree = (birge: number): NonNullable<PickedRegistration['warning']> => ({
  code: 'picks-disagree',
  message: `The picked pairs disagree: they miss one another ${birge.toFixed(1)} times as far as careful picks would. One of them may be picked at another place than its partner.`,
});

const refused = (code: PicksRefused['error']['code'], message: string, path: string): PicksRefused => ({
  error: { code, message, path },
});

const tooNear = (): PicksRefused =>
  refused(
    'picks-too-near',
    'The picked points lie too near to one another to tell scale and turn. Pick two places far apart, such as opposite corners of the building.',
    'pairs',
  );

const wrongPick = (pairs: readonly PickedPair[]): PicksRefused | null => {
  if (pairs.length < 2) {
    return refused(
      'too-few-picks',
      `Found ${pairs.length} picked pair(s) where at least 2 are needed. Pick two places on the old sheet and the same two on the new.`,
      'pairs',
    );
  }
  for (const [index, pair] of pairs.entries()) {
    if (![pair.old.x, pair.old.y, pair.new.x, pair.new.y].every(Number.isFinite))
      return refused(
        'pick-not-finite',
        'A picked point is not a finite number. Pick it again.',
        `pairs[${index}]`,
      );
    for (const uncertainty of [pair.oldUncertaintyPt, pair.newUncertaintyPt]) {
      if (uncertainty !== undefined && !(uncertainty > 0 && uncertainty < Infinity))
        return refused(
          'pick-uncertainty',
          `A pick's uncertainty is ${uncertainty} where a number of points above 0 is needed.`,
          `pairs[${index}]`,
        );
    }
  }
  return null;
};
