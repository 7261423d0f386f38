import { beforeAll, describe, expect, it } from 'vitest';
import type { Pick } from '../../../renderer/tools/pick.ts';
import type { ToolContext, ToolStep } from '../../../renderer/tools/tool.ts';
import { type WidthState, widthTool } from '../../../renderer/tools/widthTool.ts';
import { wayInOfProject } from '../../../src/access/wayInOfProject.ts';
import { demoPaperPoint } from '../../../src/app/demo/demoPlanTruth.ts';
import { applyCommand } from '../../../src/document/applyCommand.ts';
import type { ProjectDocument } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { scaleAtPlaces, scaleOfSheet } from '../../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { demoProject } from '../../access/demoProject.ts';

let demo: ProjectDocument;
beforeAll(async () => {
  demo = await demoProject();
});

const at = (x: number, y: number): Pick => {
  const place = paperPoint(x, y);
  return { at: place, hand: place, uncertaintyPt: 0.05, relation: null, line: null };
};
const down = (pick: Pick) => ({ type: 'pointer-down', pick, shift: false, ctrl: false }) as const;

const session = (hasScale = true) => {
  const sheetId = demo.sheetIds[0]!;
  const context: ToolContext = {
    document: demo,
    sheetId,
    scale: hasScale ? scaleOfSheet(demo, sheetId) : null,
    scaleAt: (places) => (hasScale ? scaleAtPlaces(demo, sheetId, places) : null),
    userUnit: 1,
    unit: 'mm',
    selectedRunId: null,
    freshId: () => 'x',
    runDefaults: runDefaultsOf(demoRange),
    touchPt: 3,
    linework: null,
    sheetRightRad: 0,
  };
  const wayInId = demo.chosenWayInId!;
  const turn = demo.waysIn[wayInId]!.obstacles[1]!;
  const tool = widthTool({
    wayInId,
    obstacleId: turn.id,
    sizeName: 'toMm',
    words: 'the width after the turn',
  });
  let step: ToolStep<WidthState> = { state: tool.start(context) };
  const board = {
    pick: (pick: Pick) => {
      step = tool.next(step.state, down(pick), context);
      return board;
    },
    point: (pick: Pick) => {
      step = tool.next(step.state, { type: 'pointer-move', pick }, context);
      return board;
    },
    escape: () => {
      step = tool.next(step.state, { type: 'escape' }, context);
      return board;
    },
    view: () => tool.view(step.state, context),
    step: () => step,
  };
  return { board, wayInId };
};

describe('picking a width of the way in', () => {
  it('gives the obstacle its size with the second pick, at the scale of the sheet, and is done', () => {
    const { board, wayInId } = session();
    // The cold room's two walls stand 1 420 mm apart on the demo plan.
    board.pick({ ...at(0, 0), at: demoPaperPoint([5_920, 13_000]) });
    const other = { ...at(0, 0), at: demoPaperPoint([7_340, 13_000]) };
    board.point(other);
    expect(board.view().lines[0]?.lengthMm).toBeCloseTo(1_420, 6);
    const { command, done } = board.pick(other).step();
    expect(done).toBe(true);
    const applied = applyCommand(demo, command!);
    if (!applied.ok) throw new Error(applied.refusal.message);
    const turn = wayInOfProject(applied.document, wayInId)?.measured[1];
    expect(turn?.sizes.toMm?.lengthMm).toBeCloseTo(1_420, 6);
    expect(turn?.drawn.sizes.toMm?.from).toBe('sheet');
    // What was there before stays.
    expect(turn?.sizes.heightMm?.lengthMm).toBe(2_050);
  });

  it('takes no width of nothing, and backs out one step at a time', () => {
    const { board } = session();
    board.pick(at(10, 10)).pick(at(10, 10));
    expect(board.step().say).toMatch(/same point/);
    expect(board.escape().step().state.at).toBe('idle');
    expect(board.escape().step().done).toBe(true);
  });

  it('says what to pick, and that a sheet without a scale gives no width', () => {
    expect(session().board.view().prompt).toMatch(/one side of the width after the turn/);
    expect(session(false).board.view().prompt).toMatch(/no scale/);
  });
});
