import type { LoosePartVerdict } from './looseParts.ts';

/**
 * Whether a loose part comes in, in words. Parts had by length are joined on site from lengths that do.
 *
 * @example 'comes in by lengths of up to 2300 mm packed only, because of Cellar turn'
 */
export const loosePartWords = ({
  kind,
  passes,
  sure,
  limitedByName,
  longestMm,
}: LoosePartVerdict): string => {
  const by = limitedByName === null ? '' : `, because of ${limitedByName}`;
  if (!sure) return `only the site can tell whether it comes in${by}`;
  if (passes) return 'comes in';
  return kind === 'shelf' && longestMm > 0
    ? `comes in by lengths of up to ${Math.floor(longestMm)} mm packed only${by}`
    : `does not come in whole${by}`;
};
