/** Letters of revisions: without I and O, which are mistaken for 1 and 0 (common practice, also ISO 5457's grid). */
const letters = 'ABCDEFGHJKLMNPQRSTUVWXYZ';

/**
 * The letter of an issue in the title block's revision index: A for issue 1, and after Z AA, AB, …
 *
 * @example revisionLetter(9) // 'J'
 */
export const revisionLetter = (number: number): string => {
  if (!Number.isSafeInteger(number) || number < 1) throw new RangeError(`No issue is numbered ${number}`);
  const rest = Math.floor((number - 1) / letters.length);
  return `${rest > 0 ? revisionLetter(rest) : ''}${letters[(number - 1) % letters.length]}`;
};
