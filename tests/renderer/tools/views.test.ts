import { describe, expect, it } from 'vitest';
import { aisleTool } from '../../../renderer/tools/aisleTool.ts';
import { measureTool } from '../../../renderer/tools/measureTool.ts';
import { traceTool } from '../../../renderer/tools/traceTool.ts';
import type { AcceptedScale } from '../../../src/document/projectDocument.ts';
import { toolBoard } from './toolBoard.ts';

/** A plan at 1:100 with a detail at 1:20 on its right. One point of paper is 25.4/72 mm (ISO 32000-1, 8.3.2.3). */
const accepted: AcceptedScale = {
  ratio: 100,
  relativeUncertainty: 0.002,
  because: 'agreed',
  views: [{ name: 'Detail of the bar', bbox: [500, 0, 1000, 500], ratio: 20, relativeUncertainty: 0.001 }],
};
const withViews = () => toolBoard({ scale: 'picked', accepted });
const roomMm = (points: number, ratio: number) => ((points * 25.4) / 72) * ratio;

describe('a sheet with views of different scale', () => {
  it('is measured at the scale of the view that holds both picks', () => {
    const board = withViews().take(measureTool);
    expect(board.pick(10, 10).pick(110, 10).view().lines[0]?.lengthMm).toBeCloseTo(roomMm(100, 100), 6);
    expect(board.pick(600, 10).pick(700, 10).view().lines[0]?.lengthMm).toBeCloseTo(roomMm(100, 20), 6);
  });

  it('gives no length from one view to another, and says why', () => {
    const board = withViews().take(measureTool).pick(10, 10).pick(700, 10);
    expect(board.view().lines[0]?.lengthMm).toBeUndefined();
    board.expectPrompt(/two views of different scale/);
  });

  it('shows lengths while tracing, and takes typed ones, at the scale of the view', () => {
    const board = withViews().take(traceTool).pick(600, 100).point(700, 100);
    expect(board.view().lines[0]?.lengthMm).toBeCloseTo(roomMm(100, 20), 6);
    board.type('1200').confirm().type('650');
    const [run] = Object.values(board.document().runs);
    const [from, to] = run?.frontLine ?? [];
    expect(roomMm((to?.at.x ?? 0) - (from?.at.x ?? 0), 20)).toBeCloseTo(1200, 6);
  });

  it('takes no typed length that leads out of the view', () => {
    withViews()
      .take(traceTool)
      .pick(600, 100)
      .point(700, 100)
      .type('9000')
      .expectSaid(/two views of different scale/);
  });

  it('has no aisle between runs of two views', () => {
    const board = withViews();
    for (const x of [10, 600])
      board
        .take(traceTool)
        .pick(x, 100)
        .pick(x + 300, 100)
        .confirm()
        .pick(x + 100, 140);
    board
      .take(aisleTool)
      .pick(100, 100)
      .pick(700, 100)
      .expectPrompt(/two views of different scale/);
  });
});
