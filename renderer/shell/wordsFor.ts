/** The sentence to show for anything thrown. */
export const wordsFor = (thrown: unknown): string =>
  thrown instanceof Error ? thrown.message : `Something went wrong: ${String(thrown)}`;
