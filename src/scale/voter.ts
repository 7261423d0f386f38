import type { TextRun } from '../sheet/textRun.ts';
import type { DimensionSpan } from './dimensionSpans.ts';
import type { DimensionText } from './dimensionText.ts';

/** A dimension text with the lengths that it may state, as a voter for the scale. */
export interface Voter {
  readonly text: TextRun;
  readonly dimension: DimensionText;
  /** The number in the unit that this vote is about. */
  readonly value: number;
  readonly step: number;
  /** Drafting and export leave the ends of its spans this uncertain, in user-space units. */
  readonly endUncertainty: number;
  readonly spans: readonly DimensionSpan[];
}

/** A voter that agrees, and the span by which it does. */
export interface Supporter {
  readonly voter: Voter;
  readonly span: DimensionSpan;
}
