import { millimetres } from './micrometre.ts';

/** A length in mm as the documents print it: thousands set apart by a space, no trailing zeros. */
export const lengthText = (lengthUm: number): string => {
  const [whole = '0', fraction] = String(Math.abs(millimetres(lengthUm))).split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ' ');
  return `${lengthUm < 0 ? '-' : ''}${grouped}${fraction ? `.${fraction}` : ''}`;
};

/** "a, b and c". */
export const listText = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
