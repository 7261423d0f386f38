import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitCircle } from '../../src/geometry/fitCircle.ts';

describe('fitting a circle to points', () => {
  it('finds the circle of the worked example of Gander, Golub and Strebel', () => {
    // "Least-squares fitting of circles and ellipses", BIT 34 (1994): six points, geometric fit with centre
    // (4.7398, 2.9835) and radius 4.7142; from memory, to the four digits printed there.
    const points = [
      { x: 1, y: 7 },
      { x: 2, y: 6 },
      { x: 5, y: 8 },
      { x: 7, y: 7 },
      { x: 9, y: 5 },
      { x: 3, y: 7 },
    ];
    const circle = fitCircle(points)!;
    expect(circle.centre.x).toBeCloseTo(4.7398, 4);
    expect(circle.centre.y).toBeCloseTo(2.9835, 4);
    expect(circle.radius).toBeCloseTo(4.7142, 4);
  });

  it('finds any circle again from points on a part of it, far from the origin too', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: 0.5, max: 6, noNaN: true }),
        (x, y, radius, from, sweep) => {
          const points = Array.from({ length: 7 }, (_, place) => ({
            x: x + radius * Math.cos(from + (sweep * place) / 6),
            y: y + radius * Math.sin(from + (sweep * place) / 6),
          }));
          const circle = fitCircle(points)!;
          expect(Math.abs(circle.radius - radius)).toBeLessThan(1e-6 * radius + 1e-6);
          expect(Math.hypot(circle.centre.x - x, circle.centre.y - y)).toBeLessThan(1e-6 * radius + 1e-6);
        },
      ),
      { seed: 4, numRuns: 300 },
    );
  });

  it('finds none through points on a line, nor through two', () => {
    expect(fitCircle([0, 1, 2, 5].map((at) => ({ x: 100 + at * 3, y: 7 - at })))).toBeUndefined();
    expect(
      fitCircle([
        { x: 0, y: 0 },
        { x: 1, y: 1 },
      ]),
    ).toBeUndefined();
  });
});
