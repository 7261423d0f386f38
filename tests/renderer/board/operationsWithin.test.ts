import { describe, expect, it } from 'vitest';
import { operationsWithin, type RecordedBoxes } from '../../../renderer/board/operationsWithin.ts';

const sheet = { pxPerPoint: 1, left: 0, top: 0, width: 1000, height: 500 };

function recorded(boxes: readonly (readonly [number, number, number, number] | null)[]): RecordedBoxes {
  const side = (at: number) => (index: number) => boxes[index]?.[at] ?? 0;
  return {
    isEmpty: (index) => boxes[index] === null,
    minX: side(0),
    minY: side(1),
    maxX: side(2),
    maxY: side(3),
  };
}

describe('the operations within an area', () => {
  it('keeps those that touch it and leaves out those elsewhere or that draw nothing', () => {
    const boxes = recorded([[0, 0, 0.1, 0.1], [0.4, 0.4, 0.6, 0.6], null, [0, 0, 1, 1], [0.9, 0, 1, 0.2]]);
    // The middle tenth of the sheet at eight times the recorded size.
    const keeps = operationsWithin(
      boxes,
      { pxPerPoint: 8, left: 3600, top: 1800, width: 800, height: 400 },
      sheet,
    )!;
    expect([0, 1, 2, 3, 4].map(keeps)).toEqual([false, true, false, true, false]);
  });

  it('keeps what lies within a recording step of the edge', () => {
    const boxes = recorded([[0.4 - 1 / 512, 0.4, 0.4 - 1 / 512, 0.6]]);
    const keeps = operationsWithin(
      boxes,
      { pxPerPoint: 1, left: 400, top: 200, width: 100, height: 100 },
      sheet,
    )!;
    expect(keeps(0)).toBe(true);
  });

  it('asks nothing where nearly the whole sheet is drawn or nothing was recorded', () => {
    expect(operationsWithin(recorded([]), { ...sheet, width: 990 }, sheet)).toBeNull();
    expect(
      operationsWithin(null, { pxPerPoint: 8, left: 0, top: 0, width: 10, height: 10 }, sheet),
    ).toBeNull();
  });
});
