import { describe, expect, it } from 'vitest';
import { signedTurnRad } from '../../src/geometry/turn.ts';
import { leftOf, turnedBy } from '../../src/geometry/vector.ts';

const along = (x: number, y: number) => ({ x, y });

describe('a turn', () => {
  it('is positive to the left, negative to the right, and pi for a reversal', () => {
    expect(signedTurnRad(along(1, 0), along(0, 5))).toBeCloseTo(Math.PI / 2, 15);
    expect(signedTurnRad(along(1, 0), along(0, -5))).toBeCloseTo(-Math.PI / 2, 15);
    expect(signedTurnRad(along(1, 0), along(-1, 0))).toBe(Math.PI);
    expect(signedTurnRad(along(1, 0), along(-1, -0))).toBe(Math.PI);
    expect(signedTurnRad(along(1, 0), along(0, 0))).toBe(0);
  });

  it('is the angle by which the direction was turned', () => {
    for (const angle of [-3, -1.2, -0.001, 0.4, 2.9]) {
      expect(signedTurnRad(along(3, -2), turnedBy(along(3, -2), angle))).toBeCloseTo(angle, 12);
    }
    expect(leftOf(along(1, 0))).toEqual(along(0, 1));
  });
});
