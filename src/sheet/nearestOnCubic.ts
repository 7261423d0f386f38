import { type Cubic, cubicAt } from './cubic.ts';

const SAMPLES = 12;

/**
 * The point of a curve nearest to (x, y): the nearest of a few samples, refined by ternary search between its
 * neighbours. Not guaranteed on a curve that doubles back within a twelfth of its parameter.
 */
export const nearestOnCubic = (curve: Cubic, x: number, y: number): readonly [number, number] => {
  const distance2 = (t: number): number => {
    const [px, py] = cubicAt(curve, t);
    return (px - x) ** 2 + (py - y) ** 2;
  };
  let best = 0;
  let bestDistance2 = Infinity;
  for (let i = 0; i <= SAMPLES; i++) {
    const d = distance2(i / SAMPLES);
    if (d < bestDistance2) {
      bestDistance2 = d;
      best = i / SAMPLES;
    }
  }
  let low = Math.max(0, best - 1 / SAMPLES);
  let high = Math.min(1, best + 1 / SAMPLES);
  for (let step = 0; step < 30; step++) {
    const a = low + (high - low) / 3;
    const b = high - (high - low) / 3;
    if (distance2(a) < distance2(b)) high = b;
    else low = a;
  }
  return cubicAt(curve, (low + high) / 2);
};
