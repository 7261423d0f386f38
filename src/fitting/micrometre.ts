/** Millimetres as integer micrometres: the solver's own length, in which 1/8 in is exactly 3175. */
export const micrometres = (lengthMm: number): number => {
  const lengthUm = Math.round(lengthMm * 1000);
  return lengthUm === 0 ? 0 : lengthUm;
};

/** Integer micrometres as millimetres. */
export const millimetres = (lengthUm: number): number => lengthUm / 1000;
