import { describe, expect, it } from 'vitest';
import { paperPoint } from '../../src/geometry/point.ts';
import { chanceOfAgreement } from '../../src/scale/chanceOfAgreement.ts';
import { readDimensionText } from '../../src/scale/dimensionText.ts';
import { readVerdict } from '../../src/scale/readVerdict.ts';
import { joinText } from '../../src/sheet/joinText.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { drawRandomPlan } from '../fixtures/drawPlan/drawRandomPlan.ts';
import { randomFrom } from '../sheet/randomLinework.ts';
import { readFirstPage } from '../sheet/readPdfContent.ts';

describe('figures that have nothing to do with the lines', () => {
  // Every dimension figure of a drawn plan is replaced by a random one: an honest reader says "none".
  it('prove no scale, but for a few that agree by chance', { timeout: 300_000 }, async () => {
    const count = campaignSize({ sample: 40, full: 600 });
    const claimed: number[] = [];
    for (let seed = 1; seed <= count; seed++) {
      const { bytes } = await drawRandomPlan(seed, {
        dimensions: true,
        note: 'absent',
        measure: 'none',
        raster: false,
      });
      const { reading, linework } = await readFirstPage(bytes);
      const random = randomFrom(seed * 7 + 1);
      const text = joinText(reading.text).map((run) =>
        readDimensionText(run.text).kind === 'dimension'
          ? { ...run, text: String(Math.round(100 + random() * 9000)) }
          : run,
      );
      if (readVerdict({ ...reading, text }, linework).scale.ratio !== null) claimed.push(seed);
    }
    process.stdout.write(
      `false figures: ${claimed.length} of ${count} sheets still claim a scale ${JSON.stringify(claimed)}\n`,
    );
    expect(claimed.length / count).toBeLessThan(0.05);
  });
});

describe('the chance of an agreement', () => {
  const point = paperPoint(0, 0);
  const spans = (count: number) =>
    Array.from({ length: count }, () => ({ a: point, b: point, length: 1, weight: 1 }));
  const voters = (count: number, spanCount: number) =>
    Array.from({ length: count }, (_, i) => ({ value: 100 + i, spans: spans(spanCount) }));
  const chance = (agreeing: number, of: number, spanCount = 1, tolerance = 0.003): number => {
    const all = voters(of, spanCount);
    return chanceOfAgreement(
      all.slice(0, agreeing).map((voter) => ({ voter, span: voter.spans[0]!, tolerance })),
      all,
    );
  };

  it('is high for two of thirteen and nil for eleven of thirteen', () => {
    expect(chance(2, 13)).toBeGreaterThan(0.2);
    expect(chance(11, 13)).toBeLessThan(1e-20);
  });

  it('grows with every length that a figure may stand for, and with the window', () => {
    expect(chance(3, 5, 4)).toBeGreaterThan(chance(3, 5, 1));
    expect(chance(3, 5, 1, 0.01)).toBeGreaterThan(chance(3, 5, 1, 0.003));
  });

  it('counts equal figures once', () => {
    const twin = { value: 150, spans: spans(1) };
    const supporters = [twin, twin, twin].map((voter) => ({
      voter,
      span: voter.spans[0]!,
      tolerance: 0.003,
    }));
    expect(chanceOfAgreement(supporters, [twin, twin, twin])).toBe(Infinity);
  });
});
