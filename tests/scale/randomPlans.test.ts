import { describe, expect, it } from 'vitest';
import { readVerdict } from '../../src/scale/readVerdict.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { drawRandomPlan } from '../fixtures/drawPlan/drawRandomPlan.ts';
import { readFirstPage } from '../sheet/readPdfContent.ts';
import { judgeReading, type Outcome, WITHIN } from './judgeReading.ts';

describe('the scale of random plans', () => {
  // The oracle is the generator: it draws each plan at a ratio of its own choosing and writes that down.
  it('is found within 0.1 % or honestly not at all', { timeout: 600_000 }, async () => {
    const count = campaignSize({ sample: 60, full: 1000 });
    const outcomes: Record<Outcome, number[]> = {
      right: [],
      missed: [],
      wrong: [],
      'other-status': [],
      'other-axes': [],
    };
    let altered = 0;
    let alteredFound = 0;
    for (let seed = 1; seed <= count; seed++) {
      const { bytes, truth } = await drawRandomPlan(seed);
      const { reading, linework } = await readFirstPage(bytes);
      const answer = readVerdict(reading, linework);
      outcomes[judgeReading(answer, truth)].push(seed);
      const false1 = truth.views
        .flatMap(({ dimensions }) => dimensions)
        .filter((dimension) => dimension.altered);
      altered += false1.length;
      alteredFound += false1.filter(({ text }) =>
        answer.dimensions?.disagreeing.some((found) => found.text === text),
      ).length;
    }
    const rate = ((100 * outcomes.right.length) / count).toFixed(1);
    process.stdout.write(
      `random plans: ${rate} % of ${count} right; ${JSON.stringify({ ...outcomes, right: outcomes.right.length })}\n`,
    );
    process.stdout.write(`altered dimensions named: ${alteredFound} of ${altered}\n`);
    expect(outcomes.wrong, 'seeds whose scale is not so').toEqual([]);
    expect(outcomes.right.length / count).toBeGreaterThan(0.98);
  });

  it.each([
    ['a turned page', { rotate: 270 as const, planAngleDeg: 0 }],
    ['user units of 10 and an offset MediaBox', { userUnit: 10 as const, mediaOffset: [-300, 450] as const }],
    ['an angle', { planAngleDeg: 33 }],
    ['nested forms', { nestedForms: true }],
    ['clutter', { clutterSegments: 4000 }],
    ['a hidden layer with false figures', { hiddenLayer: true }],
  ])('is found on %s in every dimension style', { timeout: 120_000 }, async (_, fixed) => {
    const styles = (
      ['oblique', 'perpendicular', 'filled-arrow', 'open-arrow', 'dot', 'none'] as const
    ).flatMap((ends) => (['unbroken', 'broken'] as const).map((line) => ({ ends, line })));
    for (const [i, style] of styles.entries()) {
      const { bytes, truth } = await drawRandomPlan(9000 + i, {
        ...style,
        extensionLines: true,
        dimensions: true,
        raster: false,
        stretchX: 1,
        detailView: false,
        note: 'absent',
        measure: 'none',
        altered: false,
        ...fixed,
      });
      const { reading, linework } = await readFirstPage(bytes);
      const { scale } = readVerdict(reading, linework);
      expect(scale.ratio, JSON.stringify({ ...style, form: truth.options.form })).not.toBeNull();
      expect(Math.abs(scale.ratio! / truth.ratio! - 1), JSON.stringify(style)).toBeLessThan(WITHIN);
    }
  });

  it('gives a plan and its detail each their own view', async () => {
    for (const seed of [9101, 9102, 9103]) {
      const { bytes, truth } = await drawRandomPlan(seed, {
        detailView: true,
        dimensions: true,
        raster: false,
        stretchX: 1,
        note: 'absent',
        measure: 'none',
        ends: 'oblique',
        extensionLines: true,
        altered: false,
      });
      const { reading, linework } = await readFirstPage(bytes);
      const views = readVerdict(reading, linework).scale.views ?? [];
      expect(views.map((view) => Math.round(view.scale.ratio! * 100) / 100)).toEqual(
        truth.views.map(({ ratio }) => ratio),
      );
    }
  });
});
