import { describe, expect, it } from 'vitest';
import { editTool } from '../../../renderer/tools/editTool.ts';
import { traceTool } from '../../../renderer/tools/traceTool.ts';
import { zoneTool } from '../../../renderer/tools/zoneTool.ts';
import { cornersOf } from '../../../src/measure/corners.ts';
import { runAsTraced } from '../../../src/measure/runAsTraced.ts';
import { straightsOf } from '../../../src/measure/straights.ts';
import { tenMmPerPoint, toolBoard } from './toolBoard.ts';

type Board = ReturnType<typeof toolBoard>;

const measured = (board: Board) => straightsOf(runAsTraced(board.run()), tenMmPerPoint);
const corners = (board: Board) => cornersOf(runAsTraced(board.run()));

/** A straight of 4000, a quarter circle of radius 2000 to the left, a straight of 3000; the back on the left. */
const hockeyStick = (): Board =>
  toolBoard()
    .take(traceTool)
    .pick(0, 0)
    .pick(400, 0)
    .act('a')
    .pick(600, 200)
    .pick(600, 500)
    .confirm()
    .pick(500, 480);

describe('tracing an arc', () => {
  it('goes on from the last straight to the end that is picked, without a turn', () => {
    const board = hockeyStick();
    const [first, arc, last] = measured(board);
    expect(first!.lengthMm).toBeCloseTo(4000, 6);
    // A quarter of the circumference: pi / 2 x radius.
    expect(arc!.lengthMm).toBeCloseTo((Math.PI / 2) * 2000, 6);
    expect(arc!.bend!.radiusMm).toBeCloseTo(2000, 6);
    expect(last!.lengthMm).toBeCloseTo(3000, 6);
    expect(corners(board).every(({ isTangent }) => isTangent)).toBe(true);
    expect(board.run().backSide).toBe('left');
  });

  it('goes through a point that is picked first', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).act('a').pick(200, 200).pick(400, 0).confirm();
    board.pick(200, 100);
    const [arc] = measured(board);
    // A half circle of radius 2000.
    expect(arc!.lengthMm).toBeCloseTo(Math.PI * 2000, 6);
    expect(arc!.bend!.sweepDeg).toBeCloseTo(180, 9);
  });

  it('shows its length and radius while it follows the hand', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(400, 0).act('a').point(600, 200);
    const line = board.view().lines.at(-1)!;
    expect(line.lengthMm).toBeCloseTo((Math.PI / 2) * 2000, 6);
    expect(line.radiusMm).toBeCloseTo(2000, 6);
    expect(line.plusMinusMm).toBeGreaterThan(0);
  });

  it.each([
    ['r 1200 sweep 90 left', 1200, 90, 520, 120],
    ['r 1.2 m long 1884.9556 right', 1200, 90, 520, -120],
    ['r 1200 sweep 90', 1200, 90, 520, -120],
  ])('takes %s', (text, radiusMm, sweepDeg, x, y) => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(400, 0).act('a').point(500, -30).type(text);
    board.confirm().pick(100, -50);
    const [, arc] = measured(board);
    expect(arc!.bend!.radiusMm).toBeCloseTo(radiusMm, 4);
    expect(arc!.bend!.sweepDeg).toBeCloseTo(sweepDeg, 4);
    expect(board.run().frontLine.at(-1)!.at.x).toBeCloseTo(x, 4);
    expect(board.run().frontLine.at(-1)!.at.y).toBeCloseTo(y, 4);
  });

  it('holds a radius that is typed alone, and ends where the hand points', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(400, 0).type('r 1000').pick(650, 100);
    board.confirm().pick(100, 50);
    expect(measured(board)[1]!.bend!.radiusMm).toBeCloseTo(1000, 6);
    expect(board.run().frontLine.at(-1)!.at.x).toBeCloseTo(500, 6);
    expect(board.run().frontLine.at(-1)!.at.y).toBeCloseTo(100, 6);
  });

  it('says why a typed arc is none', () => {
    const board = toolBoard()
      .take(traceTool)
      .pick(0, 0)
      .type('r 1200 sweep 90')
      .expectSaid(/straight/);
    board
      .pick(400, 0)
      .type('r 1200 sweep 360')
      .expectSaid(/full circle/);
    board.type('r 1200 left').expectSaid(/how far/);
    board.type('r many sweep 90').expectSaid(/./);
  });

  it('backs out one step at a time', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(400, 0).act('a').act('a').pick(500, 50);
    board
      .expectPrompt(/Pick where the arc ends/)
      .escape()
      .expectPrompt(/goes through/);
    board
      .escape()
      .expectPrompt(/next corner/)
      .act('a')
      .pick(600, 200)
      .escape();
    board
      .expectPrompt(/point the way|next corner/)
      .confirm()
      .pick(100, 100)
      .expectStraights(4000);
  });

  it('lets the next straight be held straight on from its end', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(400, 0).act('a').pick(600, 200);
    board.type('1500 on').confirm().pick(500, 300);
    expect(board.run().frontLine.at(-1)!.at.x).toBeCloseTo(600, 6);
    expect(board.run().frontLine.at(-1)!.at.y).toBeCloseTo(350, 6);
  });
});

describe('editing arcs', () => {
  const lShape = (): Board =>
    toolBoard().take(traceTool).pick(0, 0).pick(400, 0).pick(400, 500).confirm().pick(350, 300);

  it('rounds a corner with a typed radius, in one step', () => {
    const board = lShape().take(editTool).pick(400, 0).type('800').expectSteps(2);
    const [first, arc, last] = measured(board);
    // The tangent of a right angle is as long as the radius.
    expect(first!.lengthMm).toBeCloseTo(3200, 6);
    expect(arc!.lengthMm).toBeCloseTo((Math.PI / 2) * 800, 6);
    expect(last!.lengthMm).toBeCloseTo(4200, 6);
    expect(corners(board).every(({ isTangent }) => isTangent)).toBe(true);
    board.undo().expectStraights(4000, 5000);
  });

  it('refuses a radius for which the straights are too short, with the most that there is', () => {
    lShape()
      .take(editTool)
      .pick(400, 0)
      .type('4100')
      .expectSaid(/less than 4000 mm/)
      .expectSteps(1);
  });

  it('rounds a corner by a key, and changes its radius so that both ends stay tangents', () => {
    const board = lShape().take(editTool).pick(400, 0).act('r').type('1000');
    const [first, arc, last] = measured(board);
    expect(first!.lengthMm).toBeCloseTo(3000, 6);
    expect(arc!.bend!.radiusMm).toBeCloseTo(1000, 6);
    expect(last!.lengthMm).toBeCloseTo(4000, 6);
    expect(corners(board).every(({ isTangent }) => isTangent)).toBe(true);
  });

  it('bends a straight, drags the arc out in one step, and makes it straight again', () => {
    const board = lShape().take(editTool).pick(200, 0).act('b').expectSteps(2);
    expect(measured(board)[0]!.bend).toBeDefined();
    // Bent towards the customer: the back is on the left, so the arc lies below.
    board.drag([200, -40], [200, -100], { alt: true }).expectSteps(3);
    expect(measured(board)[0]!.bend!.sagittaMm).toBeCloseTo(1000, 6);
    // s = r - sqrt(r^2 - c^2 / 4) turned round: r = c^2 / 8s + s / 2.
    expect(measured(board)[0]!.bend!.radiusMm).toBeCloseTo(4000 ** 2 / 8000 + 500, 6);
    board.act('s').expectStraights(4000, 5000);
  });

  it('lets a dragged arc become a tangent of its neighbour', () => {
    const board = hockeyStick().take(editTool);
    const middle = [400 + 200 * Math.SQRT1_2, 200 - 200 * Math.SQRT1_2] as const;
    board.drag(middle, [middle[0] - 20, middle[1] + 20], { alt: true });
    expect(corners(board)[0]!.isTangent).toBe(false);
    board.drag([middle[0] - 20, middle[1] + 20], [middle[0] + 0.9, middle[1] + 0.4], { alt: true });
    expect(corners(board)[0]!.turnDeg).toBeCloseTo(0, 6);
  });

  it('cuts an arc in two on the same circle', () => {
    const board = hockeyStick().take(editTool);
    const at = [400 + 200 * Math.sin(0.4), 200 - 200 * Math.cos(0.4)] as const;
    board.pick(...at, { shift: true });
    const [, first, second] = measured(board);
    expect(first!.bend!.radiusMm).toBeCloseTo(2000, 3);
    expect(second!.bend!.radiusMm).toBeCloseTo(2000, 3);
    expect(first!.bend!.sweepDeg).toBeCloseTo((0.4 * 180) / Math.PI, 3);
  });

  it('takes a typed length of an arc by its size, its sweep kept', () => {
    const board = hockeyStick().take(editTool).step().step().step().step().type('4000');
    const [, arc] = measured(board);
    expect(arc!.lengthMm).toBeCloseTo(4000, 6);
    expect(arc!.bend!.sweepDeg).toBeCloseTo(90, 6);
    expect(measured(board)[2]!.lengthMm).toBeCloseTo(3000, 6);
  });

  it('marks a zone along an arc and shows its length along it', () => {
    const board = hockeyStick().take(zoneTool('opening'));
    const on = (angle: number) => [400 + 200 * Math.sin(angle), 200 - 200 * Math.cos(angle)] as const;
    board.pick(...on(0.3), { alt: true }).point(...on(0.8), { alt: true });
    expect(board.view().lines[0]!.lengthMm).toBeCloseTo(0.5 * 2000, 3);
    board.type('600');
    const [zone] = Object.values(board.document().zones);
    const angle = Math.atan2(zone!.b.x - 400, 200 - zone!.b.y);
    expect((angle - 0.3) * 2000).toBeCloseTo(600, 3);
  });
});
