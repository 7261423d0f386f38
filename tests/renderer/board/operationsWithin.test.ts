import { OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { describe, expect, it } from 'vitest';
import type { DrawnArea } from '../../../renderer/board/detailArea.ts';
import { operationsWithin, type RecordedBoxes } from '../../../renderer/board/operationsWithin.ts';

const sheet = { pxPerPoint: 1, left: 0, top: 0, width: 1000, height: 500 };
/** The middle tenth of the sheet at eight times the recorded size. */
const middle = { pxPerPoint: 8, left: 3600, top: 1800, width: 800, height: 400 };
const elsewhere = [0, 0, 0.1, 0.1] as const;
const withinMiddle = [0.48, 0.48, 0.52, 0.52] as const;

type Box = readonly [number, number, number, number] | null;

function kept(
  boxes: readonly Box[],
  area: DrawnArea = middle,
  fnArray = boxes.map(() => OPS.fill),
  argsArray: readonly unknown[] = boxes.map(() => null),
) {
  const side = (at: number) => (index: number) => boxes[index]?.[at] ?? 0;
  const recorded: RecordedBoxes = {
    isEmpty: (index) => boxes[index] === null,
    minX: side(0),
    minY: side(1),
    maxX: side(2),
    maxY: side(3),
  };
  const keeps = operationsWithin(recorded, area, sheet, OPS);
  return keeps === null ? null : boxes.map((_, index) => keeps(index, { fnArray, argsArray }));
}

describe('the operations within an area', () => {
  it('keeps those that touch it and leaves out those elsewhere or that draw nothing', () => {
    const boxes: Box[] = [elsewhere, [0.4, 0.4, 0.6, 0.6], null, [0, 0, 1, 1], [0.9, 0, 1, 0.2]];
    expect(kept(boxes)).toEqual([false, true, false, true, false]);
  });

  it('keeps what lies within a recording step of the edge', () => {
    const area = { pxPerPoint: 1, left: 400, top: 200, width: 100, height: 100 };
    expect(kept([[0.4 - 1 / 512, 0.4, 0.4 - 1 / 512, 0.6]], area)).toEqual([true]);
    expect(kept([[0.3, 0.4, 0.4 - 1 / 128, 0.6]], area)).toEqual([false]);
  });

  it('asks nothing where nearly the whole sheet is drawn or nothing was recorded', () => {
    expect(kept([elsewhere], { ...sheet, width: 990 })).toBeNull();
    expect(operationsWithin(null, middle, sheet, OPS)).toBeNull();
  });

  it('keeps all that draws an annotation, whatever was recorded of it', () => {
    const fnArray = [OPS.fill, OPS.beginAnnotation, OPS.setFont, OPS.showText, OPS.endAnnotation, OPS.fill];
    const boxes: Box[] = [elsewhere, null, null, withinMiddle, null, elsewhere];
    expect(kept(boxes, middle, fnArray)).toEqual([false, true, true, true, true, false]);
  });

  it('keeps everything on a page with a soft mask', () => {
    const boxes: Box[] = [null, elsewhere];
    const fnArray = [OPS.setGState, OPS.fill];
    expect(kept(boxes, middle, fnArray, [[[['SMask', true]]], null])).toEqual([true, true]);
    expect(kept(boxes, middle, fnArray, [[[['SMask', false]]], null])).toEqual([false, false]);
  });
});
