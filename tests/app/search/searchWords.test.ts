import { describe, expect, it } from 'vitest';
import { searchWords, sortingKey } from '../../../src/app/search/searchWords.ts';

describe('the words that things are found by', () => {
  it.each([
    ['are told apart by anything but letters and digits', 'Quay-Side 12/B', ['quay', 'side', '12', 'b']],
    ['lose their accents', 'Café Zoë Ångström', ['cafe', 'zoe', 'angstrom']],
    // Unicode CaseFolding.txt: 00DF; F; 0073 0073 (LATIN SMALL LETTER SHARP S).
    ['fold case as Unicode has it in full', 'STRASSE Straße', ['strasse']],
    // Unicode, UAX 15, figure 6: the ligature fi and the superscript 5 under NFKD.
    ['take compatibility forms for what they stand for', 'ﬁlter 2⁵', ['filter', '25']],
    ['are kept in other scripts', 'Бар 酒吧', ['бар', '酒吧']],
    ['come once', 'bar Bar BAR', ['bar']],
    ['are none in a text without letters', ' — “…” ', []],
  ])('%s', (_, text, words) => {
    expect(searchWords(text)).toEqual(words);
  });

  it('are never longer than 40 letters', () => {
    expect(searchWords('x'.repeat(5000))).toEqual(['x'.repeat(40)]);
  });

  it('sort as a general-purpose collation of base letters does, repeated words and all', () => {
    const names = [
      'Café Café Tap',
      'Cafe Gable',
      'café canal',
      'Quay Quay 2',
      'Quay 10',
      'Zoë',
      'zoe b',
      'Ångström',
    ];
    const collator = new Intl.Collator('en', { sensitivity: 'base' });
    const byKey = [...names].sort((one, other) => (sortingKey(one) < sortingKey(other) ? -1 : 1));
    expect(byKey).toEqual([...names].sort(collator.compare));
  });
});
