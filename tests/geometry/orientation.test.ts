import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxAround, boxBetween, doBoxesTouch, grownBox, isInBox } from '../../src/geometry/box.ts';
import { orientation } from '../../src/geometry/orientation.ts';
import { rectangleBeside } from '../../src/geometry/segmentRectangle.ts';
import { signedTurnRad } from '../../src/geometry/turn.ts';
import { leftOf, turnedBy } from '../../src/geometry/vector.ts';
import { campaignSize } from '../campaign/campaignSize.ts';

const at = (x: number, y: number) => ({ x, y });

/** The exact sign with whole numbers of 2^-40: an independent computation that never rounds. */
function exactSide(a: readonly bigint[], b: readonly bigint[], c: readonly bigint[]): number {
  const value = (b[0]! - a[0]!) * (c[1]! - a[1]!) - (b[1]! - a[1]!) * (c[0]! - a[0]!);
  return value > 0n ? 1 : value < 0n ? -1 : 0;
}

describe('the side of a line', () => {
  it('is left for a point anticlockwise of it, y up', () => {
    expect(orientation(at(0, 0), at(1, 0), at(0, 1))).toBe(1);
    expect(orientation(at(0, 0), at(1, 0), at(0, -1))).toBe(-1);
    expect(orientation(at(0, 0), at(1, 0), at(7, 0))).toBe(0);
  });

  it('is right even where floats round wrongly: it agrees with whole-number arithmetic', () => {
    const unit = 2 ** -40;
    const near = fc.integer({ min: 0, max: 64 });
    fc.assert(
      fc.property(near, near, near, near, (dx, dy, ex, ey) => {
        const one = 2n ** 39n;
        const a = [one + BigInt(dx), one + BigInt(dy)];
        const b = [one * 24n, one * 24n];
        const c = [one * 48n + BigInt(ex), one * 48n + BigInt(ey)];
        const asPoint = ([x, y]: readonly bigint[]) => at(Number(x) * unit, Number(y) * unit);
        expect(orientation(asPoint(a), asPoint(b), asPoint(c))).toBe(exactSide(a, b, c));
      }),
      { seed: 10, numRuns: campaignSize({ sample: 300, full: 50_000 }) },
    );
  });
});

describe('a turn', () => {
  it('is positive to the left, negative to the right, and pi for a reversal', () => {
    expect(signedTurnRad(at(1, 0), at(0, 5))).toBeCloseTo(Math.PI / 2, 15);
    expect(signedTurnRad(at(1, 0), at(0, -5))).toBeCloseTo(-Math.PI / 2, 15);
    expect(signedTurnRad(at(1, 0), at(-1, 0))).toBe(Math.PI);
    expect(signedTurnRad(at(1, 0), at(-1, -0))).toBe(Math.PI);
    expect(signedTurnRad(at(1, 0), at(0, 0))).toBe(0);
  });

  it('is the angle by which the direction was turned', () => {
    for (const angle of [-3, -1.2, -0.001, 0.4, 2.9]) {
      expect(signedTurnRad(at(3, -2), turnedBy(at(3, -2), angle))).toBeCloseTo(angle, 12);
    }
    expect(leftOf(at(1, 0))).toEqual(at(0, 1));
  });
});

describe('a rectangle beside a segment', () => {
  it('has the segment as its front and lies on the left, or on the right for a negative depth', () => {
    const front = { start: at(0, 0), end: at(3, 0) };
    expect(rectangleBeside(front, 2)).toEqual([at(0, 0), at(3, 0), at(3, 2), at(0, 2)]);
    expect(rectangleBeside(front, -2)).toEqual([at(0, 0), at(3, 0), at(3, -2), at(0, -2)]);
    expect(rectangleBeside({ start: at(1, 1), end: at(1, 1) }, 2)).toBeUndefined();
  });
});

describe('a box', () => {
  it('encloses its points and grows by a margin', () => {
    const box = boxAround([at(2, 5), at(-1, 7), at(0, 6)])!;
    expect(box).toEqual({ minX: -1, minY: 5, maxX: 2, maxY: 7 });
    expect(boxBetween(at(2, 5), at(-1, 7))).toEqual(box);
    expect(isInBox(at(3, 6), box)).toBe(false);
    expect(isInBox(at(3, 6), grownBox(box, 1))).toBe(true);
    expect(doBoxesTouch(box, { minX: 2, minY: 0, maxX: 4, maxY: 5 })).toBe(true);
    expect(doBoxesTouch(box, { minX: 2.1, minY: 0, maxX: 4, maxY: 5 })).toBe(false);
    expect(boxAround([])).toBeUndefined();
    expect(boxAround([at(Number.NaN, 0)])).toBeUndefined();
  });
});
