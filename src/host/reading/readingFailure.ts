/** Why a plan cannot be read. */
export type ReadingFailureCode =
  | 'password-needed'
  | 'password-wrong'
  | 'not-a-pdf'
  | 'damaged'
  | 'no-pages'
  | 'no-such-page'
  | 'page-damaged'
  | 'reading-timed-out'
  | 'reading-out-of-memory'
  | 'reading-cancelled'
  | 'reading-crashed';

/** A refusal to read, as a value that crosses threads. */
export interface ReadingFailure {
  readonly code: ReadingFailureCode;
  readonly message: string;
}

/** Thrown inside the reading thread for a file that is to blame; the message is for the person. */
export class ReadingError extends Error {
  readonly code: ReadingFailureCode;
  constructor(code: ReadingFailureCode, message: string) {
    super(message);
    this.name = 'ReadingError';
    this.code = code;
  }
}
