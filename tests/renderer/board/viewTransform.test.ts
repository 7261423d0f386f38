import fc from 'fast-check';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { beforeAll, describe, expect, it } from 'vitest';
import { screenPoint } from '../../../renderer/board/screenPoint.ts';
import { type QuarterTurnDeg, type SheetFrame, sheetFrameOf } from '../../../renderer/board/sheetFrame.ts';
import {
  centredOn,
  isSameView,
  isWholeSheet,
  keptInSight,
  panBy,
  paperToScreenMatrix,
  showing,
  toPaper,
  toScreen,
  type ViewTransform,
  wholeSheet,
  withSize,
  zoomAbout,
  zoomRange,
} from '../../../renderer/board/viewTransform.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';

const runs = { seed: 20_260_101, numRuns: campaignSize({ sample: 200, full: 20_000 }) };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true });

/** Boxes up to 17 m a side (48 189 pt), offset, rotated, with units from a tenth of a point to ten points. */
const anyFrame: fc.Arbitrary<SheetFrame> = fc
  .record({
    x: number(-5000, 5000),
    y: number(-5000, 5000),
    width: number(20, 48_189),
    height: number(20, 48_189),
    rotationDeg: fc.constantFrom<QuarterTurnDeg>(0, 90, 180, 270),
    userUnit: fc.oneof(fc.constant(1), number(0.1, 10)),
  })
  .map(({ x, y, width, height, rotationDeg, userUnit }) => ({
    viewBox: [x, y, x + width, y + height] as const,
    rotationDeg,
    userUnit,
  }));

const anyView: fc.Arbitrary<ViewTransform> = fc
  .record({
    frame: anyFrame,
    widthPx: number(200, 4000),
    heightPx: number(200, 3000),
    factor: number(0.6, 60),
    anchorX: number(0, 1),
    anchorY: number(0, 1),
    dx: number(-3000, 3000),
    dy: number(-3000, 3000),
  })
  .map(({ frame, widthPx, heightPx, factor, anchorX, anchorY, dx, dy }) => {
    const whole = wholeSheet(frame, { widthPx, heightPx });
    return panBy(zoomAbout(whole, screenPoint(widthPx * anchorX, heightPx * anchorY), factor), dx, dy);
  });

const anyScreenPoint = fc
  .record({ x: number(-500, 4500), y: number(-500, 3500) })
  .map((at) => screenPoint(at.x, at.y));

describe('the view transform', () => {
  it('gives back the paper point that it showed', () => {
    fc.assert(
      fc.property(anyView, number(0, 1), number(0, 1), (view, across, up) => {
        const [xMin, yMin, xMax, yMax] = view.frame.viewBox;
        const point = paperPoint(xMin + across * (xMax - xMin), yMin + up * (yMax - yMin));
        const back = toPaper(view, toScreen(view, point));
        const toleranceUnits = 1e-9 * Math.max(1, ...view.frame.viewBox.map(Math.abs));
        expect(Math.abs(back.x - point.x)).toBeLessThan(toleranceUnits);
        expect(Math.abs(back.y - point.y)).toBeLessThan(toleranceUnits);
      }),
      runs,
    );
  });

  it('says by its matrix what it says point by point', () => {
    fc.assert(
      fc.property(anyView, anyScreenPoint, (view, at) => {
        const { x, y } = toPaper(view, at);
        const [a, b, c, d, e, f] = paperToScreenMatrix(view);
        expect(Math.hypot(a * x + c * y + e - at.x, b * x + d * y + f - at.y)).toBeLessThan(1e-3);
      }),
      runs,
    );
  });

  it('keeps the paper under the pointer while zooming', () => {
    fc.assert(
      fc.property(anyView, anyScreenPoint, number(0.2, 5), (view, anchor, factor) => {
        const before = toPaper(view, anchor);
        const zoomed = zoomAbout(view, anchor, factor);
        const after = toScreen(zoomed, before);
        expect(Math.hypot(after.x - anchor.x, after.y - anchor.y)).toBeLessThan(1e-3);
        const { min, max } = zoomRange(view.frame, view);
        expect(zoomed.pxPerPoint).toBeGreaterThanOrEqual(min);
        expect(zoomed.pxPerPoint).toBeLessThanOrEqual(max);
      }),
      runs,
    );
  });

  it('moves the sheet with the hand and back', () => {
    fc.assert(
      fc.property(anyView, number(-900, 900), number(-900, 900), (view, dx, dy) => {
        const corner = paperPoint(view.frame.viewBox[0], view.frame.viewBox[1]);
        const before = toScreen(view, corner);
        const after = toScreen(panBy(view, dx, dy), corner);
        expect(after.x - before.x).toBeCloseTo(dx, 5);
        expect(after.y - before.y).toBeCloseTo(dy, 5);
      }),
      runs,
    );
  });

  it('shows the whole sheet inside the box and never mirrored', () => {
    fc.assert(
      fc.property(anyFrame, number(200, 3000), number(200, 3000), (frame, widthPx, heightPx) => {
        const view = wholeSheet(frame, { widthPx, heightPx }, 24);
        const [xMin, yMin, xMax, yMax] = frame.viewBox;
        for (const corner of [paperPoint(xMin, yMin), paperPoint(xMax, yMax), paperPoint(xMin, yMax)]) {
          const at = toScreen(view, corner);
          expect(at.x).toBeGreaterThan(23.99);
          expect(at.x).toBeLessThan(widthPx - 23.99);
          expect(at.y).toBeGreaterThan(23.99);
          expect(at.y).toBeLessThan(heightPx - 23.99);
        }
        const [a, b, c, d] = paperToScreenMatrix(view);
        // Paper has y up and the screen y down: exactly one flip, so the determinant is negative at every rotation.
        expect(a * d - b * c).toBeLessThan(0);
        expect(isWholeSheet(view)).toBe(true);
      }),
      runs,
    );
  });

  it('keeps the whole sheet whole and any other view centred when the box changes its size', () => {
    fc.assert(
      fc.property(anyView, number(200, 3000), number(200, 3000), (view, widthPx, heightPx) => {
        expect(isWholeSheet(withSize(wholeSheet(view.frame, view), { widthPx, heightPx }))).toBe(true);
        const middle = toPaper(view, screenPoint(view.widthPx / 2, view.heightPx / 2));
        const at = toScreen(withSize(view, { widthPx, heightPx }), middle);
        expect(Math.hypot(at.x - widthPx / 2, at.y - heightPx / 2)).toBeLessThan(1e-3);
      }),
      runs,
    );
  });

  it('shows all points asked for, in the middle', () => {
    fc.assert(
      fc.property(
        anyView,
        fc.array(fc.tuple(number(0, 1), number(0, 1)), { minLength: 1, maxLength: 6 }),
        (view, at) => {
          const [xMin, yMin, xMax, yMax] = view.frame.viewBox;
          const points = at.map(([u, v]) => paperPoint(xMin + u * (xMax - xMin), yMin + v * (yMax - yMin)));
          const shown = showing(view, points, 20);
          for (const point of points) {
            const { x, y } = toScreen(shown, point);
            expect(x).toBeGreaterThan(20 - 0.01);
            expect(x).toBeLessThan(view.widthPx - 20 + 0.01);
            expect(y).toBeGreaterThan(20 - 0.01);
            expect(y).toBeLessThan(view.heightPx - 20 + 0.01);
          }
        },
      ),
      runs,
    );
  });

  it('never loses the sheet out of sight', () => {
    fc.assert(
      fc.property(anyView, number(-1e6, 1e6), number(-1e6, 1e6), (view, dx, dy) => {
        const kept = keptInSight(panBy(view, dx, dy), 64);
        const [xMin, yMin, xMax, yMax] = view.frame.viewBox;
        const a = toScreen(kept, paperPoint(xMin, yMin));
        const b = toScreen(kept, paperPoint(xMax, yMax));
        const sheetX = Math.abs(a.x - b.x);
        const sheetY = Math.abs(a.y - b.y);
        const visibleX = Math.min(kept.widthPx, Math.max(a.x, b.x)) - Math.max(0, Math.min(a.x, b.x));
        const visibleY = Math.min(kept.heightPx, Math.max(a.y, b.y)) - Math.max(0, Math.min(a.y, b.y));
        expect(visibleX).toBeGreaterThan(Math.min(64, sheetX, kept.widthPx) - 0.01);
        expect(visibleY).toBeGreaterThan(Math.min(64, sheetY, kept.heightPx) - 0.01);
        expect(isSameView(keptInSight(kept, 64), kept)).toBe(true);
      }),
      runs,
    );
  });

  it('brings a paper point into the middle', () => {
    const view = wholeSheet(
      { viewBox: [0, 0, 3370, 2384], rotationDeg: 90, userUnit: 1 },
      { widthPx: 1440, heightPx: 900 },
    );
    const at = toScreen(centredOn(view, paperPoint(300, 2000)), paperPoint(300, 2000));
    expect(at).toEqual({ x: expect.closeTo(720, 9), y: expect.closeTo(450, 9) });
  });
});

/** pdf.js's own viewport class, which its build does not export by name; a viewport's constructor is that class. */
interface PdfjsViewport {
  readonly convertToPdfPoint: (x: number, y: number) => [number, number];
  readonly convertToViewportPoint: (x: number, y: number) => [number, number];
}
type PdfjsViewportClass = new (parameters: {
  viewBox: number[];
  userUnit: number;
  scale: number;
  rotation: number;
  offsetX: number;
  offsetY: number;
}) => PdfjsViewport;

const ONE_PAGE = `%PDF-1.7
1 0 obj<</Type/Catalog/Pages 2 0 R>>endobj
2 0 obj<</Type/Pages/Kids[3 0 R]/Count 1>>endobj
3 0 obj<</Type/Page/Parent 2 0 R/MediaBox[-30 15 120 80]/CropBox[-25 20 100 70]/Rotate 450/UserUnit 2.5>>endobj
trailer<</Root 1 0 R>>`;

describe("the view transform against pdf.js's PageViewport", () => {
  let Viewport: PdfjsViewportClass;
  let frame: SheetFrame;

  beforeAll(async () => {
    const task = getDocument({ data: new TextEncoder().encode(ONE_PAGE), verbosity: 0 });
    const page = await (await task.promise).getPage(1);
    Viewport = page.getViewport({ scale: 1 }).constructor as unknown as PdfjsViewportClass;
    frame = sheetFrameOf(page);
    await task.destroy();
  });

  it('reads box, rotation and unit of a page as pdf.js does', () => {
    expect(frame).toEqual({ viewBox: [-25, 20, 100, 70], rotationDeg: 90, userUnit: 2.5 });
  });

  it('agrees with convertToPdfPoint and convertToViewportPoint', () => {
    fc.assert(
      fc.property(anyView, anyScreenPoint, (view, at) => {
        const viewport = new Viewport({
          viewBox: [...view.frame.viewBox],
          userUnit: view.frame.userUnit,
          scale: view.pxPerPoint,
          rotation: view.frame.rotationDeg,
          offsetX: view.originX,
          offsetY: view.originY,
        });
        const paper = toPaper(view, at);
        const [x, y] = viewport.convertToPdfPoint(at.x, at.y);
        const pxPerUnit = view.pxPerPoint * view.frame.userUnit;
        const differencePx = Math.hypot(paper.x - x, paper.y - y) * pxPerUnit;
        expect(differencePx).toBeLessThan(1e-3);
        const [screenX, screenY] = viewport.convertToViewportPoint(paper.x, paper.y);
        expect(Math.hypot(screenX - at.x, screenY - at.y)).toBeLessThan(1e-3);
      }),
      runs,
    );
  });
});
