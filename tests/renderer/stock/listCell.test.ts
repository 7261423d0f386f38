import { describe, expect, it } from 'vitest';
import { cellOf, includesCell, includesParts, partsOf } from '../../../renderer/stock/listCell.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { itemCells } from '../../../src/stock/stockCells.ts';

describe('a list within a cell', () => {
  it('comes apart into its parts and together again, for every piece of the demo range', () => {
    const cells = demoRange.items.map(itemCells);
    expect(cells.some(({ services }) => services)).toBe(true);
    for (const { services = '', elevation = '', includes = '' } of cells) {
      expect(cellOf(partsOf(services))).toBe(services);
      expect(cellOf(partsOf(elevation))).toBe(elevation);
      expect(includesCell(includesParts(includes))).toBe(includes);
    }
  });

  it('leaves out empty pieces at the end of a part, and keeps those before', () => {
    expect(cellOf([['power', '200', '600', '230 V 16 A', '', '2.4']])).toBe('power:200:600:230 V 16 A::2.4');
    expect(cellOf([['waste', '130', '450', 'DN 40', '', '']])).toBe('waste:130:450:DN 40');
  });

  it('keeps a part that does not read, so that it can be mended', () => {
    expect(includesCell(includesParts('basket waste | 2 x Mixer'))).toBe(' x basket waste | 2 x Mixer');
    expect(cellOf(partsOf('waste:1 | :'))).toBe('waste:1 | ');
  });
});
