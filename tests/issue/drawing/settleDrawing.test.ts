import { describe, expect, it } from 'vitest';
import { ratioForHeight, settleDrawing } from '../../../src/issue/drawing/settleDrawing.ts';
import type { SettledDrawing } from '../../../src/issue/drawing/settledDrawing.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { demoFrontBar, drawScene, frontThrough, type Scene } from '../elevation/elevationScenes.ts';
import { randomScene } from '../elevation/randomScene.ts';

/** Pairs of texts whose boxes lie over one another by more than a hair. */
const overlaps = ({ texts, levels }: SettledDrawing): readonly string[] =>
  [texts, levels.texts].flatMap((group) =>
    group.flatMap((one, index) =>
      group.slice(0, index).flatMap((other) => {
        const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
        const up = Math.min(one.box.top, other.box.top) - Math.max(one.box.bottom, other.box.bottom);
        return across > 1e-6 && up > 1e-6 ? [`"${other.text}" and "${one.text}"`] : [];
      }),
    ),
  );

const crowded: Scene = {
  name: 'A long name '.repeat(9).trim(),
  frontLine: frontThrough([30_000, 0]),
  ends: ['wall', 'wall'],
  changes: { maxWidthMm: 900 },
  zones: Array.from({ length: 10 }, (_, index) => ({
    kind: 'blocked' as const,
    name: `Existing riser number ${index + 1}, boxed in by others`,
    straight: 0,
    fromMm: 2000 + index * 160,
    toMm: 2080 + index * 160,
  })),
};

describe('a drawing at a scale', () => {
  it('never sets one text over another, on random runs, from 1:10 to 1:400, in both units', {
    timeout: 300_000,
  }, () => {
    const count = campaignSize({ sample: 50, full: 1000 });
    const found: string[] = [];
    for (let seed = 1; seed <= count; seed += 1) {
      const { drawing } = drawScene(randomScene(seed), { unit: seed % 2 === 0 ? 'mm' : 'ft-in' });
      for (const ratio of [10, 20, 37, 80, 160, 400])
        found.push(
          ...overlaps(settleDrawing(drawing, ratio)).map((pair) => `seed ${seed} 1:${ratio}: ${pair}`),
        );
    }
    expect(found).toEqual([]);
  });

  it('never sets one text over another in a crowd of narrow zones with long names', () => {
    const { drawing } = drawScene(crowded);
    for (const ratio of [5, 20, 50, 100, 300]) expect(overlaps(settleDrawing(drawing, ratio))).toEqual([]);
  });

  it('finds overlaps where there are some', () => {
    const settled = settleDrawing(drawScene(demoFrontBar).drawing, 20);
    const [first] = settled.texts;
    expect(overlaps({ ...settled, texts: [...settled.texts, first!] })).not.toEqual([]);
  });

  it('reduces every length by the ratio: an 1800 module is 90 mm wide at 1:20', () => {
    const scene = drawScene(demoFrontBar);
    const index = scene.alternative!.pieces.findIndex(({ item }) => item === 'module-1800');
    const { box } = settleDrawing(scene.drawing, 20).parts.find(({ part }) => part === `piece:${index}`)!;
    expect(box.right - box.left).toBeCloseTo(90, 6);
  });

  it('writes every piece’s mark and width at 1:20', () => {
    const { drawing } = drawScene(demoFrontBar);
    const { texts } = settleDrawing(drawing, 20);
    for (const link of drawing.chains[0]!.links) {
      if (link.mark !== undefined) expect(texts.some(({ text }) => text === link.mark)).toBe(true);
      if (link.text !== '') expect(texts.some(({ text }) => text === link.text)).toBe(true);
    }
    for (const { text } of drawing.callouts)
      if (text) expect(texts.some((one) => one.text === text)).toBe(true);
  });

  it('fills a height with drawing and texts, and holds everything within its bounds', () => {
    for (const seed of [3, 7, 11]) {
      const { drawing } = drawScene(randomScene(seed));
      const settled = settleDrawing(drawing, ratioForHeight(drawing, 52));
      const { bounds } = settled;
      expect(bounds.top - bounds.bottom).toBeGreaterThan(49);
      expect(bounds.top - bounds.bottom).toBeLessThan(55);
      for (const { box, text } of settled.texts) {
        expect(box.left, text).toBeGreaterThanOrEqual(bounds.left);
        expect(box.right, text).toBeLessThanOrEqual(bounds.right);
        expect(box.top, text).toBeLessThanOrEqual(bounds.top);
        expect(box.bottom, text).toBeGreaterThanOrEqual(bounds.bottom - 1e-9);
      }
    }
  });

  it('refuses a scale that is none', () => {
    const { drawing } = drawScene(demoFrontBar);
    for (const ratio of [0, -20, Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => settleDrawing(drawing, ratio)).toThrow(RangeError);
  });
});
