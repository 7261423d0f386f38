import { describe, expect, it } from 'vitest';
import { createWheelReader, type WheelInput } from '../../../renderer/board/wheelIntent.ts';

const still: WheelInput = {
  deltaX: 0,
  deltaY: 0,
  deltaMode: 0,
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  timeStamp: 0,
};

describe('reading the wheel', () => {
  it('zooms in by a notch of a mouse wheel away from the hand and out again by one towards it', () => {
    const read = createWheelReader();
    const closer = read({ ...still, deltaY: -100 }, 'auto');
    const further = read({ ...still, deltaY: 100, timeStamp: 1000 }, 'auto');
    expect(closer).toEqual({ kind: 'zoom', factor: expect.closeTo(1.197, 2) });
    expect(closer.kind === 'zoom' && further.kind === 'zoom' && closer.factor * further.factor).toBeCloseTo(
      1,
      9,
    );
  });

  it('knows a notch on a screen scaled to 150 per cent', () => {
    const intent = createWheelReader()({ ...still, deltaY: -66.67, wheelDeltaY: 120 }, 'auto');
    expect(intent.kind).toBe('zoom');
  });

  it('pans by two fingers on a trackpad', () => {
    const read = createWheelReader();
    expect(read({ ...still, deltaX: 3, deltaY: -7.5 }, 'auto')).toEqual({ kind: 'pan', dxPx: -3, dyPx: 7.5 });
  });

  it('reads a movement that began as a pan to its end as a pan, however fast it gets', () => {
    const read = createWheelReader();
    read({ ...still, deltaY: 4, timeStamp: 0 }, 'auto');
    expect(read({ ...still, deltaY: 90, timeStamp: 16 }, 'auto').kind).toBe('pan');
    expect(read({ ...still, deltaY: 100, timeStamp: 900 }, 'auto').kind).toBe('zoom');
  });

  it('zooms by a pinch, which browsers report as a wheel with ctrl held', () => {
    const intent = createWheelReader()({ ...still, deltaY: -10, ctrlKey: true }, 'pan');
    expect(intent).toEqual({ kind: 'zoom', factor: expect.closeTo(Math.exp(0.1), 9) });
  });

  it('pans sideways by a mouse wheel with shift held', () => {
    const intent = createWheelReader()({ ...still, deltaY: 100, shiftKey: true }, 'auto');
    expect(intent.kind).toBe('pan');
    expect(intent).toMatchObject({ dxPx: -100 });
  });

  it('counts lines and pages in pixels and holds a fling to four times', () => {
    const read = createWheelReader();
    expect(read({ ...still, deltaY: 3, deltaMode: 1 }, 'pan')).toMatchObject({ dyPx: -48 });
    expect(read({ ...still, deltaY: -99_999, timeStamp: 999 }, 'zoom')).toEqual({ kind: 'zoom', factor: 4 });
  });

  it('does as told where the mode is set', () => {
    expect(createWheelReader()({ ...still, deltaY: 100 }, 'pan').kind).toBe('pan');
    expect(createWheelReader()({ ...still, deltaY: 2.5, deltaX: 1 }, 'zoom').kind).toBe('zoom');
  });
});
