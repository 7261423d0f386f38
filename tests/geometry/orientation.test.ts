import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { orientation } from '../../src/geometry/orientation.ts';
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
