/** A, B, … Z, AA, AB, …: datums along a front line, and whatever else counts in letters. */
export const datumLetter = (index: number): string =>
  index < 26
    ? String.fromCharCode(65 + index)
    : datumLetter(Math.floor(index / 26) - 1) + String.fromCharCode(65 + (index % 26));
