import { describe, expect, it } from 'vitest';
import { paperPoint } from '../../src/geometry/point.ts';
import { findBrokenChains } from '../../src/scale/dimensionChains.ts';
import { readVerdict } from '../../src/scale/readVerdict.ts';
import type { Supporter } from '../../src/scale/voter.ts';
import { drawRandomPlan } from '../fixtures/drawPlan/drawRandomPlan.ts';
import { readFirstPage } from '../sheet/readPdfContent.ts';

/** A dimension along x at 1 mm a unit, or along the diagonal, from and to as given. */
const dimension = (
  value: number,
  from: number,
  to: number,
  offset: number,
  angle = 0,
  step = 1,
): Supporter => {
  const at = (along: number) =>
    paperPoint(
      along * Math.cos(angle) - offset * Math.sin(angle),
      along * Math.sin(angle) + offset * Math.cos(angle),
    );
  const text = { text: String(value), origin: at(from), angleRad: angle, size: 5, width: 10, layer: 0 };
  const span = { a: at(from), b: at(to), length: to - from, weight: 1 };
  const voter = {
    text,
    dimension: { kind: 'dimension' as const, value, step, unitFrom: 'none' as const },
    value,
    step,
    endUncertainty: 0.05,
    spans: [span],
  };
  return { voter, span };
};

describe('dimension chains', () => {
  const parts = [dimension(150, 0, 150, 10), dimension(3300, 150, 3450, 10), dimension(550, 3450, 4000, 10)];

  it('lets a chain pass that adds up to its total, at any angle', () => {
    expect(findBrokenChains([...parts, dimension(4000, 0, 4000, 30)])).toEqual([]);
    const turned = [
      dimension(100, 0, 100, 10, 0.6),
      dimension(200, 100, 300, 10, 0.6),
      dimension(300, 0, 300, 30, 0.6),
    ];
    expect(findBrokenChains(turned)).toEqual([]);
  });

  it('names the total whose parts add up to something else, with both figures', () => {
    const [broken, ...others] = findBrokenChains([...parts, dimension(4100, 0, 4000, 30)]);
    expect(others).toEqual([]);
    expect(broken).toMatchObject({ totalMm: 4100, sumMm: 4000 });
    expect(broken!.parts.map(({ text }) => text)).toEqual(['150', '3300', '550']);
  });

  it('forgives the rounding of parts and total', () => {
    const rounded = [
      dimension(330, 0, 333, 10, 0, 10),
      dimension(330, 333, 666, 10, 0, 10),
      dimension(330, 666, 999, 10, 0, 10),
    ];
    expect(findBrokenChains([...rounded, dimension(1000, 0, 999, 30, 0, 10)])).toEqual([]);
    expect(findBrokenChains([...rounded, dimension(1020, 0, 999, 30, 0, 10)])).toHaveLength(1);
  });

  it('needs parts without a gap', () => {
    expect(findBrokenChains([parts[0]!, parts[2]!, dimension(4100, 0, 4000, 30)])).toEqual([]);
  });

  it('finds the altered figure of a drawn plan among its disagreeing dimensions', async () => {
    let named = 0;
    for (const seed of [701, 702, 703, 704, 705, 706]) {
      const { bytes, truth } = await drawRandomPlan(seed, {
        altered: true,
        dimensions: true,
        raster: false,
        stretchX: 1,
        detailView: false,
        note: 'absent',
        measure: 'none',
        planAngleDeg: 0,
        form: 'mm',
        ends: 'oblique',
        extensionLines: true,
      });
      const { reading, linework } = await readFirstPage(bytes);
      const { dimensions } = readVerdict(reading, linework);
      const altered = truth.dimensions.find((item) => item.altered)!;
      const found = dimensions?.disagreeing.find(({ text }) => text === altered.text);
      if (found && Math.abs(found.drawnMm / altered.lengthMm - 1) < 0.002) named++;
    }
    expect(named).toBeGreaterThanOrEqual(5);
  });
});
