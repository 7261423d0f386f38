import { describe, expect, it } from 'vitest';
import { circlePath, pointsOfPath, roundedPath } from '../../../src/issue/drawing/drawnPath.ts';

describe('curves of a drawing', () => {
  it('keep a circle round to 0.028 % of its radius', () => {
    // The greatest error of a quarter circle as one cubic with control length 4/3 tan(22.5 degrees) is 2.73e-4 of the
    // radius (Goldapp, "Approximation of circular arcs by cubic polynomials", 1991; figure from memory).
    const { start, steps } = circlePath([3, 4], 10);
    let from = start;
    let worst = 0;
    for (const step of steps) {
      if (step.kind !== 'curve') throw new Error('A circle is all curves.');
      for (let t = 0; t <= 1; t += 0.01) {
        const u = 1 - t;
        const on = (axis: 'x' | 'y') =>
          u ** 3 * from[axis] +
          3 * u * u * t * step.c1[axis] +
          3 * u * t * t * step.c2[axis] +
          t ** 3 * step.to[axis];
        worst = Math.max(worst, Math.abs(Math.hypot(on('x') - 3, on('y') - 4) / 10 - 1));
      }
      from = step.to;
    }
    expect(worst).toBeGreaterThan(1e-5);
    expect(worst).toBeLessThan(2.8e-4);
    expect(Math.hypot(from.x - start.x, from.y - start.y)).toBeLessThan(1e-12);
  });

  it('round a rectangle’s corners without leaving it', () => {
    for (const { x, y } of pointsOfPath(roundedPath([0, 0, 40, 20], { bottomRadius: 90, topRadius: 4 }))) {
      expect(x).toBeGreaterThanOrEqual(-1e-9);
      expect(x).toBeLessThanOrEqual(40 + 1e-9);
      expect(y).toBeGreaterThanOrEqual(-1e-9);
      expect(y).toBeLessThanOrEqual(20 + 1e-9);
    }
  });
});
