import { describe, expect, it } from 'vitest';
import { shortNameOf, withNames } from '../../../renderer/fitting/pieceNames.ts';
import type { ZoneId } from '../../../src/document/ids.ts';
import { emptyDocument, type ProjectDocument, type Zone } from '../../../src/document/projectDocument.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import type { StockRange } from '../../../src/stock/stockSchema.ts';

const id = 'zone-4f2' as ZoneId;
const document: ProjectDocument = {
  ...emptyDocument('Quay Street Tap', { id: demoRange.id, version: demoRange.version }),
  zones: { [id]: { id, name: 'Bottle cooler' } as Zone },
};

describe('the solver’s sentences in the operator’s words', () => {
  it('name the equipment of a bay, and leave a zone that is gone as it is', () => {
    expect(withNames('Bay zone-4f2 is kept free from 1 000 to 1 600.', demoRange, document)).toBe(
      'Bay Bottle cooler is kept free from 1 000 to 1 600.',
    );
    expect(withNames('Bay zone-9 is kept free.', demoRange, document)).toBe('Bay zone-9 is kept free.');
  });

  it('call both hands of a station by one of their names', () => {
    const [module] = demoRange.items;
    if (!module) throw new Error('an item');
    const hands = (['left', 'right'] as const).map((hand) => ({
      ...module,
      id: `dish-${hand}`,
      name: `Dish table, ${hand} hand`,
      hand,
    }));
    const range: StockRange = { ...demoRange, items: [...demoRange.items, ...hands] };
    expect(shortNameOf(range, 'dish-left / dish-right')).toBe('Dish table');
  });
});
