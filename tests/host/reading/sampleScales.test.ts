import { describe, expect, it } from 'vitest';
import { createPlanReader } from '../../../src/host/reading/createPlanReader.ts';
import { readAnswerSchema } from '../../../src/scale/readContract.ts';
import { hasSamplePlans, samplePlan } from './samplePlans.ts';

const read = async (name: string, page = 1) =>
  readAnswerSchema.parse((await createPlanReader().readPage(samplePlan(name), page, {})).answer);

// True scales as measured by hand from drawn lines against dimension text (the sample plans' own README).
describe.skipIf(!hasSamplePlans)('sample plans', () => {
  it.each([
    ['autocad-a1-cm.pdf', 50, 'cm'],
    ['archicad-a4.pdf', 79.9, 'mm'],
    ['feet-letter.pdf', 81.89, 'in'],
  ])('%s proves its scale from its dimensions alone', async (name, ratio, unit) => {
    const { scale } = await read(name);
    const dimensions = scale.evidence.find(({ kind }) => kind === 'dimensions');
    expect(Math.abs(dimensions!.ratio / ratio - 1)).toBeLessThan(0.002);
    expect(dimensions!.unit).toBe(unit);
    expect(scale.status).toBe('agreed');
    expect(Math.abs(scale.ratio! / ratio - 1)).toBeLessThan(0.002);
  });

  it('takes a figure that stands beside its gap, too narrow for it, for no contradiction', async () => {
    // Five figures "150" over walls of 150 mm stand beside their ticks on this sheet; none of them is altered.
    const { scale, dimensions } = await read('archicad-a4.pdf');
    expect(dimensions?.disagreeing).toEqual([]);
    expect(scale.evidence[0]).toMatchObject({ kind: 'dimensions', supporting: 37, of: 37 });
  });

  it.each([1, 2, 3])(
    'page %i of the counters agrees by its note and its embedded measure, having no dimensions',
    async (page) => {
      const { scale } = await read('counter-run-a2-cm.pdf', page);
      expect(scale).toMatchObject({ status: 'agreed' });
      expect(Math.abs(scale.ratio! / 20 - 1)).toBeLessThan(0.002);
      expect(scale.evidence.map(({ kind }) => kind)).toEqual(['measure-dictionary', 'note']);
    },
  );

  it.each(['outlines-a1-rot270.pdf', 'raster-a0-cm.pdf', 'solvespace-strokes.pdf'])(
    '%s says that nothing proves a scale',
    async (name) => {
      const { scale, isPicture } = await read(name);
      expect(scale).toMatchObject({ status: 'none', ratio: null });
      expect(isPicture ?? false).toBe(name.startsWith('raster'));
    },
  );
});
