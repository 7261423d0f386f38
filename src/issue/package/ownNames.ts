/**
 * Names for files that are to lie in one folder: two of one name, whatever its capitals, get numbers, so that neither is
 * lost.
 *
 * @example ownNames(['bar.pdf', 'Bar.pdf']) // ['bar.pdf', 'Bar 2.pdf']
 */
export const ownNames = (names: readonly string[]): readonly string[] => {
  const taken = new Set<string>();
  return names.map((name) => {
    let candidate = name;
    for (let number = 2; taken.has(candidate.toLowerCase()); number += 1)
      candidate = name.replace(/(\.[^.]*)?$/, ` ${number}$1`);
    taken.add(candidate.toLowerCase());
    return candidate;
  });
};
