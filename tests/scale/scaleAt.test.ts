import { describe, expect, it } from 'vitest';
import { isBadInput } from '../../src/scale/badInput.ts';
import { scaleAt } from '../../src/scale/scaleAt.ts';

describe('the scale at a place', () => {
  const sheet = { ratio: 100 };
  const views = [
    { bbox: [0, 0, 500, 500] as const, scale: { ratio: 100 } },
    { bbox: [600, 0, 900, 500] as const, scale: { ratio: 20 } },
    { bbox: [650, 50, 700, 100] as const, scale: { ratio: 5 } },
  ];

  it('is that of the view in which all points lie; where views overlap, of the last', () => {
    expect(
      scaleAt(
        [
          { x: 10, y: 10 },
          { x: 400, y: 400 },
        ],
        sheet,
        views,
      ),
    ).toEqual({ ratio: 100 });
    expect(scaleAt([{ x: 610, y: 10 }], sheet, views)).toEqual({ ratio: 20 });
    expect(scaleAt([{ x: 660, y: 60 }], sheet, views)).toEqual({ ratio: 5 });
  });

  it('is that of the sheet outside all views and where there are none', () => {
    expect(scaleAt([{ x: 550, y: 10 }], sheet, views)).toBe(sheet);
    expect(
      scaleAt(
        [
          { x: 10, y: 10 },
          { x: 610, y: 10 },
        ],
        sheet,
      ),
    ).toBe(sheet);
  });

  it('is refused across two views, naming the point', () => {
    const refused = scaleAt(
      [
        { x: 10, y: 10 },
        { x: 20, y: 10 },
        { x: 610, y: 10 },
      ],
      sheet,
      views,
    );
    expect(isBadInput(refused) && [refused.error.code, refused.error.path]).toEqual([
      'across-views',
      'points[2]',
    ]);
  });
});
