import { describe, expect, it } from 'vitest';
import {
  boxAround,
  boxAroundBoth,
  boxBetween,
  boxCentre,
  boxHeight,
  boxWidth,
  doBoxesTouch,
  grownBox,
  isInBox,
} from '../../src/geometry/box.ts';

const at = (x: number, y: number) => ({ x, y });

describe('a box', () => {
  const box = { minX: -1, minY: 5, maxX: 2, maxY: 7 };

  it('encloses its points and grows by a margin', () => {
    expect(boxAround([at(2, 5), at(-1, 7), at(0, 6)])).toEqual(box);
    expect(boxBetween(at(2, 5), at(-1, 7))).toEqual(box);
    expect(isInBox(at(3, 6), box)).toBe(false);
    expect(isInBox(at(3, 6), grownBox(box, 1))).toBe(true);
    expect(boxAroundBoth(box, boxBetween(at(4, 0), at(5, 1)))).toEqual({
      minX: -1,
      minY: 0,
      maxX: 5,
      maxY: 7,
    });
    expect([boxWidth(box), boxHeight(box), boxCentre(box)]).toEqual([3, 2, at(0.5, 6)]);
  });

  it('touches another that shares its edge', () => {
    expect(doBoxesTouch(box, { minX: 2, minY: 0, maxX: 4, maxY: 5 })).toBe(true);
    expect(doBoxesTouch(box, { minX: 2.1, minY: 0, maxX: 4, maxY: 5 })).toBe(false);
  });

  it('does not exist around no point, or one that is not a number', () => {
    expect(boxAround([])).toBeUndefined();
    expect(boxAround([at(Number.NaN, 0)])).toBeUndefined();
  });
});
