import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeLabel } from '../../../renderer/board/placeLabel.ts';
import type { QuarterTurnDeg } from '../../../renderer/board/sheetFrame.ts';
import { toScreen, wholeSheet } from '../../../renderer/board/viewTransform.ts';
import { paperPoint } from '../../../src/geometry/point.ts';

const viewAt = (rotationDeg: QuarterTurnDeg) =>
  wholeSheet({ viewBox: [0, 0, 900, 600], rotationDeg, userUnit: 1 }, { widthPx: 1440, heightPx: 900 });
const label = { kind: 'label', id: 'a', at: paperPoint(400, 300), text: '1200' } as const;

describe('placing a label', () => {
  it('keeps text along a line and upright at every page rotation', () => {
    fc.assert(
      fc.property(
        fc.constantFrom<QuarterTurnDeg>(0, 90, 180, 270),
        fc.double({ min: -7, max: 7, noNaN: true }),
        (rotationDeg, alongRad) => {
          const view = viewAt(rotationDeg);
          const place = placeLabel(view, { ...label, alongRad });
          expect(Math.abs(place.angleRad)).toBeLessThanOrEqual(Math.PI / 2 + 1e-6);
          const from = toScreen(view, label.at);
          const to = toScreen(view, paperPoint(400 + Math.cos(alongRad), 300 + Math.sin(alongRad)));
          // Parallel to the line as it lies on the screen: the sine of the angle between them is 0.
          const line = Math.atan2(to.y - from.y, to.x - from.x);
          expect(Math.abs(Math.sin(line - place.angleRad))).toBeLessThan(1e-6);
        },
      ),
      { seed: 11, numRuns: 300 },
    );
  });

  it('reads a line that stands upright on the screen from the right', () => {
    expect(placeLabel(viewAt(0), { ...label, alongRad: Math.PI / 2 }).angleRad).toBeCloseTo(-Math.PI / 2, 9);
    expect(placeLabel(viewAt(0), { ...label, alongRad: -Math.PI / 2 }).angleRad).toBeCloseTo(-Math.PI / 2, 9);
  });

  it('swaps start and end when it turns the text round', () => {
    expect(placeLabel(viewAt(180), { ...label, alongRad: 0, align: 'start' }).align).toBe('end');
    expect(placeLabel(viewAt(0), { ...label, alongRad: 0, align: 'start' }).align).toBe('start');
  });

  it('shifts by pixels in a direction on the paper', () => {
    for (const rotationDeg of [0, 90, 180, 270] as const) {
      const view = viewAt(rotationDeg);
      const place = placeLabel(view, { ...label, shift: { directionRad: Math.PI / 2, px: 14 } });
      const from = toScreen(view, label.at);
      const up = toScreen(view, paperPoint(400, 301));
      const unitPx = Math.hypot(up.x - from.x, up.y - from.y);
      expect(place.x).toBeCloseTo(from.x + ((up.x - from.x) / unitPx) * 14, 6);
      expect(place.y).toBeCloseTo(from.y + ((up.y - from.y) / unitPx) * 14, 6);
    }
  });
});
