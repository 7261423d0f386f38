import { describe, expect, it } from 'vitest';
import { refusalWords } from '../../../renderer/fitting/refusalWords.ts';

describe('why a run cannot be filled, in words', () => {
  it('names straights and zones as the rail counts them, and whole millimetres', () => {
    expect(
      refusalWords(
        'Front bar: straights[1].openings[0]: overlaps straights[1].bays[0] (4885.609 to 5544.358); join or separate them.',
      ),
    ).toBe(
      'Front bar: opening 1 of straight 2: overlaps bay 1 of straight 2 (4886 to 5544); join or separate them.',
    );
  });

  it('names a whole list of zones', () => {
    expect(
      refusalWords('Servery 3: straights[0].blocked: may have 100 entries at most, found a list of 250.'),
    ).toBe('Servery 3: blocked zones of straight 1: may have 100 entries at most, found a list of 250.');
  });

  it('leaves other words as they are', () => {
    expect(refusalWords('No scale on this sheet.')).toBe('No scale on this sheet.');
    expect(refusalWords('straights[2].lengthMm: must be more than 0')).toBe(
      'straight 3.lengthMm: must be more than 0',
    );
  });
});
