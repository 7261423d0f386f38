import { describe, expect, it } from 'vitest';
import { aisleTool } from '../../../renderer/tools/aisleTool.ts';
import { dimensionTool } from '../../../renderer/tools/dimensionTool.ts';
import { measureTool } from '../../../renderer/tools/measureTool.ts';
import { stationTool } from '../../../renderer/tools/stationTool.ts';
import { traceTool } from '../../../renderer/tools/traceTool.ts';
import { zoneTool } from '../../../renderer/tools/zoneTool.ts';
import { migrateDocument } from '../../../src/document/migrateDocument.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { drawn } from '../../sheet/drawnLines.ts';
import { randomFrom } from '../../sheet/randomLinework.ts';
import { toolBoard } from './toolBoard.ts';

const index = drawn([
  {
    points: [
      [0, 0],
      [400, 0],
      [400, 270],
      [330, 270],
      [330, 70],
      [0, 70],
      [0, 0],
    ],
  },
  {
    points: [
      [60, 208],
      [260, 208],
      [260, 268],
      [60, 268],
      [60, 208],
    ],
  },
]);
const typed = ['3600', '2.5 m', 'at 30', '900 left', '700 on', 'nonsense', '4\' 6"', '0'];

/** A hand that does anything at all, as random as the seed has it. */
const fiddle = (seed: number) => {
  const random = randomFrom(seed);
  for (let warm = 0; warm < 8; warm += 1) random();
  const whole = (below: number) => Math.floor(random() * below);
  const board = toolBoard({ index });
  /** Near the drawing as a rule, so that things are caught, hit and refused. */
  const place = (): readonly [number, number] => {
    const corners = [
      [0, 0],
      [400, 0],
      [400, 270],
      [200, 0],
      [60, 208],
      [260, 208],
      [150, 70],
    ] as const;
    const [x, y] = corners[whole(corners.length)]!;
    return random() < 0.7 ? [x + random() * 4 - 2, y + random() * 4 - 2] : [random() * 500, random() * 300];
  };
  const keys = () => ({ shift: random() < 0.15, ctrl: random() < 0.15, alt: random() < 0.1 });
  let steps = 0;
  const countSteps = () => {
    while (true) {
      try {
        board.undo();
        steps += 1;
      } catch {
        return;
      }
    }
  };
  const start = board.document();
  // Two runs to begin with, so that there is something to edit.
  board.take(traceTool).pick(0, 0).pick(400, 0).pick(400, 270).confirm().pick(200, 70);
  board.take(traceTool).pick(60, 208).pick(260, 208).confirm().pick(150, 268);
  for (let event = 0; event < 200; event += 1) {
    const { acts } = board.view();
    // Mostly picks, so that what was begun is finished more often than not.
    switch (whole(30)) {
      case 0:
      case 1:
        board.take(traceTool);
        break;
      case 2:
        board.take(zoneTool(random() < 0.5 ? 'opening' : 'blocked'));
        break;
      case 3:
        board.take(
          [stationTool({ id: 'hand-basin-11l', name: 'hand basin' }), dimensionTool, measureTool, aisleTool][
            whole(4)
          ] as typeof measureTool,
        );
        break;
      case 4:
        board.type(typed[whole(typed.length)]!);
        break;
      case 5:
        board.confirm();
        break;
      case 6:
        if (random() < 0.4) board.escape();
        else board.step(random() < 0.5 ? 1 : -1);
        break;
      case 7:
        if (random() < 0.3) board.delete();
        else board.next();
        break;
      case 8:
        board.hold(whole(3) - 1, whole(3) - 1, 1 + whole(4)).letGo();
        break;
      case 9:
        board.drag(place(), place(), keys());
        break;
      case 10:
        board.press(...place(), keys()).cancel();
        break;
      case 11:
      case 12: {
        const act = acts[whole(Math.max(1, acts.length))];
        if (act) board.act(act.name);
        break;
      }
      default:
        board.pick(...place(), keys());
    }
    board.view();
  }
  const end = board.document();
  countSteps();
  return { start, end, board, steps };
};

describe('a hand that does anything at all', () => {
  it('never breaks a tool, and every step of it can be undone and redone', () => {
    let undone = 0;
    const hands = campaignSize({ sample: 40, full: 200 });
    for (let seed = 1; seed <= hands; seed += 1) {
      const { start, end, board, steps } = fiddle(seed * 104_729);
      expect(migrateDocument(JSON.parse(JSON.stringify(end)))).toEqual({ ok: true, document: end });
      expect(board.document(), `seed ${seed * 104_729}`).toEqual(start);
      for (let step = 0; step < steps; step += 1) board.redo();
      expect(board.document(), `seed ${seed * 104_729}`).toEqual(end);
      undone += steps;
    }
    // The hand must have done something for this to say anything.
    expect(undone).toBeGreaterThan(4 * hands);
  });
});
