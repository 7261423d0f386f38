import { describe, expect, it } from 'vitest';
import { createFrameLoop } from '../../../renderer/board/frameLoop.ts';

function drivenLoop() {
  const frames: (() => void)[] = [];
  const loop = createFrameLoop((callback) => frames.push(callback));
  const runFrame = (): number => {
    const due = frames.splice(0);
    for (const callback of due) callback();
    return due.length;
  };
  return { loop, runFrame };
}

describe('the frame loop', () => {
  it('draws each stale layer once a frame, in order, however often it was asked', () => {
    const { loop, runFrame } = drivenLoop();
    const drawn: string[] = [];
    const marks = loop.addLayer(10, () => drawn.push('marks'));
    const sheet = loop.addLayer(0, () => drawn.push('sheet'));
    marks.invalidate();
    sheet.invalidate();
    marks.invalidate();
    expect(runFrame()).toBe(1);
    expect(drawn).toEqual(['sheet', 'marks']);
  });

  it('rests while nothing changes', () => {
    const { loop, runFrame } = drivenLoop();
    loop.addLayer(0, () => undefined).invalidate();
    expect(runFrame()).toBe(1);
    expect(runFrame()).toBe(0);
  });

  it('draws a layer that became stale while being drawn in the next frame', () => {
    const { loop, runFrame } = drivenLoop();
    let count = 0;
    const layer = loop.addLayer(0, () => {
      count += 1;
      if (count === 1) layer.invalidate();
    });
    layer.invalidate();
    runFrame();
    expect(count).toBe(1);
    runFrame();
    expect(count).toBe(2);
  });

  it('forgets a removed layer', () => {
    const { loop, runFrame } = drivenLoop();
    let count = 0;
    const layer = loop.addLayer(0, () => {
      count += 1;
    });
    layer.invalidate();
    layer.remove();
    runFrame();
    expect(count).toBe(0);
  });
});
