import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Label, spreadLabels } from '../../../src/issue/drawing/spreadLabels.ts';

const label = fc.record({
  centre: fc.integer({ min: 0, max: 200 }),
  width: fc.integer({ min: 1, max: 20 }),
  rank: fc.integer({ min: 0, max: 3 }),
});
const gap = 1;

const cost = (labels: readonly Label[], centres: readonly number[]): number =>
  labels.reduce((sum, { centre }, index) => sum + (centres[index]! - centre) ** 2, 0);

/** Least squares in the given order by cyclic projection (Dykstra's algorithm, 1983): slow, and nothing like pooling. */
const byProjection = (labels: readonly Label[], order: readonly number[]): readonly number[] => {
  const centres = labels.map(({ centre }) => centre);
  const corrections = order.map(() => [0, 0] as [number, number]);
  for (let round = 0; round < 4000; round += 1)
    for (let index = 1; index < order.length; index += 1) {
      const left = order[index - 1]!;
      const right = order[index]!;
      const [ownLeft, ownRight] = corrections[index]!;
      const a = centres[left]! + ownLeft;
      const b = centres[right]! + ownRight;
      const short = Math.max(0, (labels[left]!.width + labels[right]!.width) / 2 + gap - (b - a));
      centres[left] = a - short / 2;
      centres[right] = b + short / 2;
      corrections[index] = [short / 2, -short / 2];
    }
  return centres;
};

describe('labels spread along a line', () => {
  it('never overlap, keep their order and stay within their reach', () => {
    fc.assert(
      fc.property(fc.array(label, { maxLength: 30 }), (labels) => {
        const centres = spreadLabels(labels, { gap, mostShift: 12 });
        const shown = labels
          .map((one, index) => ({ ...one, at: centres[index] }))
          .filter((one): one is typeof one & { at: number } => one.at !== undefined)
          .sort((one, other) => one.at - other.at);
        for (const [index, one] of shown.entries()) {
          expect(Math.abs(one.at - one.centre)).toBeLessThanOrEqual(12 + 1e-6);
          const before = shown[index - 1];
          if (!before) continue;
          expect(one.centre).toBeGreaterThanOrEqual(before.centre);
          expect(one.at - before.at).toBeGreaterThanOrEqual((one.width + before.width) / 2 + gap - 1e-6);
        }
      }),
      { seed: 20271 },
    );
  });

  it('move as little as least squares allows', () => {
    fc.assert(
      fc.property(fc.array(label, { minLength: 2, maxLength: 6 }), (labels) => {
        const centres = spreadLabels(labels, { gap, mostShift: Number.POSITIVE_INFINITY }) as number[];
        const order = labels
          .map((_, index) => index)
          .sort((one, other) => labels[one]!.centre - labels[other]!.centre || one - other);
        expect(cost(labels, centres)).toBeLessThanOrEqual(cost(labels, byProjection(labels, order)) + 1e-3);
      }),
      { seed: 20272, numRuns: 40 },
    );
  });

  it('leave out the least of a crowd', () => {
    const crowd = [5, 5, 1, 5].map((rank) => ({ centre: 50, width: 10, rank }));
    expect(spreadLabels(crowd, { gap, mostShift: 12 }).map((at) => at !== undefined)).toEqual([
      true,
      true,
      false,
      true,
    ]);
  });
});
