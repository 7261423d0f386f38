/** Longer runs of letters are cut: no word of a plan is, and an index of them would only grow. */
const lettersMost = 40;

/**
 * The words of a text as they are kept and sought: without case, accents and punctuation, each once, in the order of
 * their first coming.
 *
 * @example searchWords('Café “Quay-Side” 12/B') // ['cafe', 'quay', 'side', '12', 'b']
 */
export const searchWords = (text: string): readonly string[] => {
  // Upper case first, so that ß and SS meet; compatibility forms, so that ﬁ is fi and ² is 2.
  const plain = text
    .toUpperCase()
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '');
  const words = plain.split(/[^\p{L}\p{N}]+/u).filter((word) => word !== '');
  return [...new Set(words.map((word) => word.slice(0, lettersMost)))];
};
