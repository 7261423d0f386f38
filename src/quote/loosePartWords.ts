import type { LoosePartVerdict } from './looseParts.ts';

/**
 * Whether a loose part comes in, in words. Parts had by length are joined on site from lengths that do.
 *
 * @param lengthWords how a length in mm is written
 *
 * @example 'stopped by Cellar turn: comes in in lengths of up to 2 300 mm packed'
 */
export const loosePartWords = (
  { kind, passes, sure, limitedByName, longestMm }: LoosePartVerdict,
  lengthWords: (mm: number) => string,
): string => {
  if (!sure) return `only the site can tell${limitedByName === null ? '' : `, at ${limitedByName}`}`;
  if (passes) return 'comes in';
  const stopped = limitedByName === null ? 'stopped' : `stopped by ${limitedByName}`;
  return kind === 'shelf' && longestMm > 0
    ? `${stopped}: comes in in lengths of up to ${lengthWords(Math.floor(longestMm))} packed`
    : `${stopped}: does not come in whole`;
};
