import { describe, expect, it } from 'vitest';
import { traceTool } from '../../../renderer/tools/traceTool.ts';
import { zoneTool } from '../../../renderer/tools/zoneTool.ts';
import { toolBoard } from './toolBoard.ts';

const straightRun = () => toolBoard().take(traceTool).pick(0, 0).pick(400, 0).confirm().pick(200, 100);

// 1 unit of the test board is 10 mm of room.
describe('marking bays and low sections', () => {
  it.each([
    ['bay', 'Bay', /bay starts/],
    ['low', 'Low section', /low section starts/],
  ] as const)(
    'marks a %s as an opening is marked: two picks, or one and a typed width',
    (kind, name, prompt) => {
      const board = straightRun()
        .take(zoneTool(kind))
        .expectPrompt(prompt)
        .pick(100, 5)
        .pick(160, -3)
        .expectTool('edit');
      expect(Object.values(board.document().zones)).toMatchObject([
        { kind, name, a: { x: 100, y: 0 }, b: { x: 160, y: 0 } },
      ]);
      board.expectSteps(2);
    },
  );
});
