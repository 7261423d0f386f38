/** Longer runs of letters are cut: no word of a plan is, and an index of them would only grow. */
const lettersMost = 40;

/** A text's words one after another, as often as they come, without case, accents and punctuation. */
const foldedWords = (text: string): readonly string[] =>
  text
    // Upper case first, so that ß and SS meet; compatibility forms, so that ﬁ is fi and ² is 2.
    .toUpperCase()
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');

/**
 * The words of a text as they are kept and sought: without case, accents and punctuation, each once, in the order of
 * their first coming.
 *
 * @example searchWords('Café “Quay-Side” 12/B') // ['cafe', 'quay', 'side', '12', 'b']
 */
export const searchWords = (text: string): readonly string[] => [
  ...new Set(foldedWords(text).map((word) => word.slice(0, lettersMost))),
];

/**
 * What a text is sorted by: its words with single spaces between them.
 *
 * @example sortingKey('The “Café” Café') // 'the cafe cafe'
 */
export const sortingKey = (text: string): string => foldedWords(text).join(' ');
