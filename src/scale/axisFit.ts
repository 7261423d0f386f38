import { bestClusterNear } from './dimensionVote.ts';
import { type RefinedScale, refineScale } from './refineScale.ts';
import type { Voter } from './voter.ts';

/** The scale along the page's x and y axes, each from dimensions that run along it. */
export interface AxisFit {
  readonly x: RefinedScale;
  readonly y: RefinedScale;
  /** Whether the axes differ by more than their uncertainty explains. */
  readonly isStretched: boolean;
}

/** A sheet stretched by more than this in one direction is looked at as two views. */
const MOST_STRETCH = 0.08;

/** Cosine of the angle within which a dimension runs along an axis: 1.3 degrees. */
const ALONG_AXIS = 0.99975;

/** Below this share a difference of the axes is drafting. */
const LEAST_STRETCH = 0.002;

/**
 * Fits the scale along x and along y near a ratio that won the vote. The axis that did not win may have a ratio of its
 * own a few percent away, as on a scan or a print that was stretched.
 *
 * @returns null where one of the axes has fewer than two agreeing dimensions.
 */
export const fitAxes = (voters: readonly Voter[], unitsPerPoint: number): AxisFit | null => {
  const x = fitAlong(voters, 'x', unitsPerPoint);
  const y = fitAlong(voters, 'y', unitsPerPoint);
  if (!x || !y) return null;
  const difference = Math.abs(Math.log(x.unitsPerPoint / y.unitsPerPoint));
  const explained = Math.hypot(x.relativeUncertainty, y.relativeUncertainty);
  return { x, y, isStretched: difference > Math.max(LEAST_STRETCH, 1.5 * explained) };
};

const fitAlong = (voters: readonly Voter[], axis: 'x' | 'y', unitsPerPoint: number): RefinedScale | null => {
  const along: Voter[] = [];
  for (const voter of voters) {
    const spans = voter.spans.filter(({ a, b, length }) => Math.abs(a[axis] - b[axis]) > ALONG_AXIS * length);
    if (spans.length > 0) along.push({ ...voter, spans });
  }
  const supporters = bestClusterNear(along, unitsPerPoint, MOST_STRETCH);
  if (!supporters) return null;
  const fit = refineScale(supporters);
  return fit && fit.supporters.length >= 2 ? fit : null;
};
