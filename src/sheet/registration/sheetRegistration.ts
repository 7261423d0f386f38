import type { Box } from '../../geometry/box.ts';
import type { Linework } from '../linework.ts';
import type { RegistrationUncertainty } from './registrationUncertainty.ts';
import type { Similarity } from './similarity.ts';

/** A sheet as registration needs it. */
export interface RegistrationSheet {
  readonly linework: Linework;
  /** What is shown of the page, in its user space. */
  readonly viewBox: Box;
}

export interface RegistrationOptions {
  /** Told how far the work is, between its steps. */
  readonly onProgress?: (done: number, of: number) => void;
  /** Asked between steps; once true the answer is `none` with the reason `stopped`. */
  readonly shouldStop?: () => boolean;
}

/** Why an answer is as sure as it is: a code, and a sentence with the numbers. */
export interface RegistrationReason {
  readonly code:
    | 'agrees'
    | 'rival'
    | 'little-matched'
    | 'little-shown'
    | 'only-title-matched'
    | 'few-lines'
    | 'no-linework'
    | 'nothing-matched'
    | 'stopped';
  readonly message: string;
}

/** Another way to lay the sheets on one another. */
export interface RivalRegistration {
  readonly transform: Similarity;
  /** Its support over that of the answer: 1 where both explain as much. */
  readonly supportRatio: number;
  /** Share of the answer's support that the answer alone explains, and that the rival alone explains. */
  readonly onlyAnswer: number;
  readonly onlyRival: number;
  /** How far apart the two take the corners of the old linework, at most, in new paper points. */
  readonly apartPt: number;
}

/** How a new sheet lies to the old one. */
export type SheetRegistration =
  | {
      readonly certainty: 'sure' | 'unsure';
      /** From a paper point of the old sheet to the new sheet's. */
      readonly transform: Similarity;
      readonly uncertainty: RegistrationUncertainty;
      readonly reasons: readonly RegistrationReason[];
      /** Share of the old sheet's distinct linework, by length, found on the new, of what it shows; hatching counts little. */
      readonly oldShare: number;
      /** The same of the new sheet's, found on the old. */
      readonly newShare: number;
      /** Distinct lines of the old sheet that lie on lines of the new. */
      readonly matchedLines: number;
      /** Root mean square distance of matched lines, in new paper points. */
      readonly residualPt: number;
      readonly rival: RivalRegistration | null;
    }
  | {
      /** Two picked points are needed; see `registerByPicks`. */
      readonly certainty: 'none';
      readonly reasons: readonly RegistrationReason[];
    };
