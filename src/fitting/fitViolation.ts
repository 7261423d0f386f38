/** One rule of DESIGN section 5 that an answer breaks, and where in the answer. */
export interface FitViolation {
  readonly code: string;
  readonly message: string;
  readonly path: string;
}
