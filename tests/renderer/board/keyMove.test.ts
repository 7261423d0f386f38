import { describe, expect, it } from 'vitest';
import { viewAfterKey } from '../../../renderer/board/keyMove.ts';
import { screenPoint } from '../../../renderer/board/screenPoint.ts';
import {
  isWholeSheet,
  toPaper,
  toScreen,
  wholeSheet,
  zoomAbout,
} from '../../../renderer/board/viewTransform.ts';

const frame = { viewBox: [0, 0, 2384, 1684] as const, rotationDeg: 0 as const, userUnit: 1 };
const whole = wholeSheet(frame, { widthPx: 1000, heightPx: 700 });
const close = zoomAbout(whole, screenPoint(500, 350), 8);
const noKeys = { shiftKey: false, ctrlKey: false, metaKey: false, altKey: false };
const press = (key: string, more: Partial<typeof noKeys> = {}) =>
  viewAfterKey(close, { ...noKeys, ...more, key });

describe('keys that move the view', () => {
  it('zoom about the middle by + and back by -', () => {
    const middle = toPaper(close, screenPoint(500, 350));
    const closer = press('+')!;
    expect(closer.pxPerPoint).toBeGreaterThan(close.pxPerPoint);
    expect(toScreen(closer, middle)).toEqual({ x: expect.closeTo(500, 6), y: expect.closeTo(350, 6) });
    expect(viewAfterKey(closer, { ...noKeys, key: '-' })!.pxPerPoint).toBeCloseTo(close.pxPerPoint, 9);
  });

  it('show print size by 0: 96 pixels to the inch of 72 points', () => {
    expect(press('0')!.pxPerPoint).toBeCloseTo(96 / 72, 12);
  });

  it('show the whole sheet by Home', () => {
    expect(isWholeSheet(press('Home')!)).toBe(true);
  });

  it('look to the right by the right arrow: the sheet moves to the left, with shift most of a box', () => {
    expect(press('ArrowRight')!.originX).toBeLessThan(close.originX);
    expect(press('ArrowRight', { shiftKey: true })!.originX).toBeCloseTo(close.originX - 800, 6);
    expect(press('ArrowUp')!.originY).toBeGreaterThan(close.originY);
  });

  it('leave other keys, and other uses of these keys, alone', () => {
    expect(press('a')).toBeNull();
    expect(press('ArrowLeft', { altKey: true })).toBeNull();
    expect(press('Home', { ctrlKey: true })).toBeNull();
  });
});
