import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  coarseArea,
  covers,
  detailArea,
  isSharp,
  placement,
  visiblePart,
} from '../../../renderer/board/detailArea.ts';
import { screenPoint } from '../../../renderer/board/screenPoint.ts';
import type { QuarterTurnDeg } from '../../../renderer/board/sheetFrame.ts';
import { panBy, type ViewTransform, wholeSheet, zoomAbout } from '../../../renderer/board/viewTransform.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';

const runs = { seed: 7, numRuns: campaignSize({ sample: 200, full: 20_000 }) };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
const anyView: fc.Arbitrary<ViewTransform> = fc
  .record({
    width: number(20, 48_189),
    height: number(20, 48_189),
    rotationDeg: fc.constantFrom<QuarterTurnDeg>(0, 90, 180, 270),
    factor: number(0.6, 60),
    dx: number(-900, 900),
    dy: number(-900, 900),
  })
  .map(({ width, height, rotationDeg, factor, dx, dy }) => {
    const frame = { viewBox: [0, 0, width, height] as const, rotationDeg, userUnit: 1 };
    const whole = wholeSheet(frame, { widthPx: 1440, heightPx: 900 });
    return panBy(zoomAbout(whole, screenPoint(500, 400), factor), dx, dy);
  });
const anyRatio = fc.constantFrom(1, 1.25, 1.5, 2, 3);

describe('the detail area', () => {
  it('covers what is visible, on the pixel grid, within the cap', () => {
    fc.assert(
      fc.property(anyView, anyRatio, (view, ratio) => {
        const area = detailArea(view, ratio);
        if (area === null) return;
        expect(covers(area, view)).toBe(true);
        expect(isSharp(area, view, ratio)).toBe(true);
        expect(area.width * area.height).toBeLessThanOrEqual(4096 * 4096 * 1.01);
        const at = placement(area, view);
        for (const position of [at.x * ratio, at.y * ratio]) {
          expect(Math.abs(position - Math.round(position))).toBeLessThan(1e-5);
        }
        expect(at.scale * ratio).toBeCloseTo(1, 9);
      }),
      runs,
    );
  });

  it('stays sharp for a short pan by whole device pixels and not for half a pixel', () => {
    const frame = { viewBox: [0, 0, 3370, 2384] as const, rotationDeg: 0 as const, userUnit: 1 };
    const view = zoomAbout(wholeSheet(frame, { widthPx: 1440, heightPx: 900 }), screenPoint(700, 400), 8);
    const area = detailArea(view, 2)!;
    expect(isSharp(area, panBy(view, 20.5, -11), 2)).toBe(true);
    expect(isSharp(area, panBy(view, 20.25, 0), 2)).toBe(false);
    expect(isSharp(area, panBy(view, 600, 0), 2)).toBe(false);
    expect(isSharp(area, zoomAbout(view, screenPoint(0, 0), 1.01), 2)).toBe(false);
  });

  it('draws coarser rather than beyond the cap on a very large screen', () => {
    const frame = { viewBox: [0, 0, 3370, 2384] as const, rotationDeg: 0 as const, userUnit: 1 };
    const view = zoomAbout(wholeSheet(frame, { widthPx: 7680, heightPx: 4320 }), screenPoint(700, 400), 8);
    const area = detailArea(view, 2)!;
    expect(area.width * area.height).toBeLessThanOrEqual(4096 * 4096 * 1.01);
    expect(covers(area, view)).toBe(true);
  });

  it('is none while the sheet is out of sight', () => {
    const frame = { viewBox: [0, 0, 100, 100] as const, rotationDeg: 0 as const, userUnit: 1 };
    const view = panBy(wholeSheet(frame, { widthPx: 400, heightPx: 400 }), 5000, 0);
    expect(detailArea(view, 1)).toBeNull();
  });

  it('knows which part of what is visible a canvas holds', () => {
    const frame = { viewBox: [0, 0, 1000, 1000] as const, rotationDeg: 0 as const, userUnit: 1 };
    const view: ViewTransform = {
      frame,
      widthPx: 100,
      heightPx: 100,
      pxPerPoint: 1,
      originX: -200,
      originY: -200,
    };
    expect(visiblePart({ pxPerPoint: 1, left: 200, top: 200, width: 50, height: 100 }, view)).toBeCloseTo(
      0.5,
      12,
    );
    expect(visiblePart({ pxPerPoint: 2, left: 400, top: 400, width: 200, height: 200 }, view)).toBeCloseTo(
      1,
      12,
    );
    expect(visiblePart({ pxPerPoint: 1, left: 500, top: 200, width: 50, height: 100 }, view)).toBe(0);
  });

  it('keeps the coarse picture within its longest side, whatever the shape of the page', () => {
    fc.assert(
      fc.property(anyView, (view) => {
        const area = coarseArea(view, 2880);
        expect(Math.max(area.width, area.height)).toBeLessThanOrEqual(2881);
        expect(Math.min(area.width, area.height)).toBeGreaterThanOrEqual(1);
      }),
      runs,
    );
  });
});
