/** An input that cannot be used, as a value: what is wrong, where, and what to do about it. */
export interface BadInput {
  readonly error: {
    /** Kebab-case reason, stable across versions. */
    readonly code: string;
    readonly message: string;
    /** The place in the input, such as `references[2].lengthMm`. */
    readonly path: string;
  };
}

/** Builds a {@link BadInput}. */
export const badInput = (code: string, message: string, path: string): BadInput => ({
  error: { code, message, path },
});

/** Tells a {@link BadInput} from a result. */
export const isBadInput = (value: object): value is BadInput => 'error' in value;
