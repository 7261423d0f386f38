import { describe, expect, it } from 'vitest';
import { stationTool } from '../../../renderer/tools/stationTool.ts';
import { traceTool } from '../../../renderer/tools/traceTool.ts';
import { zoneTool } from '../../../renderer/tools/zoneTool.ts';
import { toolBoard } from './toolBoard.ts';

const basin = { id: 'hand-basin-11l', name: 'hand basin' };

/** An L: 4000 to the right, then 2700 up; its back on the left. */
const tracedL = () =>
  toolBoard().take(traceTool).pick(0, 0).pick(400, 0).pick(400, 270).confirm().pick(200, 100);

/** The L with an opening of 800 from 1000 on its first straight, and a wanted station at 3000. */
const fittedL = () =>
  tracedL()
    .take(zoneTool('opening'))
    .pick(100, 5)
    .point(150, 5)
    .type('800')
    .take(stationTool(basin))
    .pick(300, 10);

const zoneOf = (board: ReturnType<typeof toolBoard>) => Object.values(board.document().zones)[0]!;
const stationOf = (board: ReturnType<typeof toolBoard>) => Object.values(board.document().stations)[0]!;

describe('moving points', () => {
  it('moves a point by dragging it, as one step', () => {
    tracedL().drag([400, 270], [402, 309]).expectPoints([0, 0], [400, 0], [400, 309]).expectSteps(2);
  });

  it('chooses a point by a click that does not move it', () => {
    const board = tracedL().pick(401, 1).expectState('idle').expectSteps(1);
    expect(board.state()).toMatchObject({ part: { kind: 'point' } });
  });

  it('leaves everything as it was when a drag is given up', () => {
    const board = tracedL();
    const before = board.document();
    board.press(400, 270).point(420, 300).expectState('dragging');
    expect(board.view().preview).toMatchObject({ type: 'move-vertex', to: { x: 420, y: 300 } });
    board.escape().expectState('idle').release().expectSteps(1);
    expect(board.document()).toBe(before);
    board.press(400, 270).point(420, 300).cancel().expectState('idle').expectSteps(1);
  });

  it('holds a dragged point straight on from its neighbour in 15 degree steps', () => {
    tracedL().drag([400, 270], [406, 310], { shift: true }).expectPoints([0, 0], [400, 0], [400, 310]);
  });

  it('refuses to drop a point on its neighbour, and says so', () => {
    tracedL()
      .drag([400, 270], [400, 0.4])
      .expectSaid(/lie on one another/)
      .expectState('idle')
      .expectSteps(1);
  });

  it('moves the chosen point by arrow keys; holding a key is one step', () => {
    tracedL()
      .pick(400, 270)
      .hold(1, 0, 25)
      .expectState('nudging')
      .letGo()
      .expectSteps(2)
      .hold(0, 10, 3)
      .letGo()
      .expectSteps(3)
      // 25 x 1 mm and 3 x 10 mm are 2.5 and 3 points at 10 mm a point.
      .expectPoints([0, 0], [400, 0], [402.5, 273])
      .undo()
      .undo()
      .expectPoints([0, 0], [400, 0], [400, 270]);
  });

  it('gives up a move by keys on Escape', () => {
    tracedL().pick(400, 270).hold(1, 0, 9).escape().letGo().expectSteps(1).expectState('idle');
  });

  it('makes a run less sure by a less sure pick, never surer', () => {
    const board = tracedL();
    const before = board.run().pickUncertaintyPt;
    board.drag([400, 270], [403, 309], { alt: true });
    expect(board.run().pickUncertaintyPt).toBe(before);
  });
});

describe('inserting and removing points', () => {
  it('puts a point into a straight where it is picked with Shift', () => {
    tracedL()
      .pick(150, 1, { shift: true })
      .expectPoints([0, 0], [150, 0], [400, 0], [400, 270])
      .expectSteps(2);
  });

  it('puts a point into the middle of the chosen straight by its act', () => {
    tracedL().pick(150, 1).act('i').expectPoints([0, 0], [200, 0], [400, 0], [400, 270]);
  });

  it('removes the chosen point by Delete', () => {
    tracedL().pick(400, 0).delete().expectPoints([0, 0], [400, 270]).expectSteps(2);
  });

  it('offers no removal where only two points are left, and refuses it', () => {
    const board = tracedL().pick(400, 0).delete().pick(400, 270);
    expect(board.view().acts.map(({ name }) => name)).not.toContain('remove');
    board
      .delete()
      .expectSaid(/two points/)
      .expectSteps(2);
  });

  it('says that a straight goes with its points', () => {
    tracedL()
      .pick(150, 1)
      .delete()
      .expectSaid(/one of its points/)
      .expectSteps(1);
  });
});

describe('straights', () => {
  it('takes a new length for the chosen straight; the rest of the run goes along', () => {
    const board = fittedL().pick(200, 1).type('4500').expectStraights(4500, 2700);
    board.expectPoints([0, 0], [450, 0], [450, 270]);
    expect(zoneOf(board)).toMatchObject({ a: { x: 100 }, b: { x: 180 } });
  });

  it.each([
    ['3 m', 3000],
    [`9' 10"`, 2997.2],
  ])('takes %s as a length', (text, lengthMm) => {
    tracedL().pick(200, 1).type(text).expectStraights(lengthMm, 2700);
  });

  it('moves sideways when dragged, and its neighbour gets longer', () => {
    tracedL()
      .drag([200, 0], [210, -30])
      .expectPoints([0, -30], [400, -30], [400, 270])
      .expectStraights(4000, 3000)
      .expectSteps(2);
  });

  it('brings the whole run along with Ctrl, with all that stands on it', () => {
    const board = fittedL().drag([200, 0], [210, -30], { ctrl: true });
    board.expectPoints([10, -30], [410, -30], [410, 240]).expectSteps(4);
    expect(zoneOf(board)).toMatchObject({ a: { x: 110, y: -30 }, b: { x: 190, y: -30 } });
    expect(stationOf(board).at).toEqual({ x: 310, y: -30 });
  });

  it('carries the run by two picks where nothing can be dragged', () => {
    tracedL()
      .act('m')
      .expectState('carrying')
      .pick(0, 0)
      .escape()
      .expectState('carrying')
      .pick(0, 0)
      .pick(7, 9)
      .expectState('idle')
      .expectPoints([7, 9], [407, 9], [407, 279])
      .expectSteps(2);
  });
});

describe('openings, blocked zones and stations', () => {
  it('drags an opening along its straight, as wide as it was, to the end and no farther', () => {
    const board = fittedL().drag([140, 30], [160, 33]).expectSteps(4);
    expect(zoneOf(board)).toMatchObject({ a: { x: 120, y: 0 }, b: { x: 200, y: 0 } });
    board.drag([150, 30], [900, 30]);
    expect(zoneOf(board)).toMatchObject({ a: { x: 320, y: 0 }, b: { x: 400, y: 0 } });
  });

  it('drags one side of the chosen opening', () => {
    const board = fittedL().pick(140, 30).drag([180, 0], [200, 8]);
    expect(zoneOf(board)).toMatchObject({ a: { x: 100, y: 0 }, b: { x: 200, y: 0 } });
  });

  it('shows handles for the chosen opening only', () => {
    const board = fittedL();
    const before = board.view().handles.length;
    board.pick(140, 30);
    // Its middle, which is what is chosen, and its two sides.
    expect(board.view().handles.map(({ isChosen }) => isChosen)).toEqual([true, false, false, false]);
    board.escape();
    expect(board.view().handles.length).toBe(before);
  });

  it('takes a typed width, and refuses one beyond the straight', () => {
    const board = fittedL().pick(140, 30).type('900');
    expect(zoneOf(board)).toMatchObject({ a: { x: 100 }, b: { x: 190 } });
    board.type('4 m').expectSaid(/not that long/);
  });

  it('moves a station along the front line and round the corner', () => {
    const board = fittedL().drag([300, 0], [350, 20]);
    expect(stationOf(board)).toMatchObject({ at: { x: 350, y: 0 } });
    board.drag([350, 0], [398, 150]);
    expect(stationOf(board)).toMatchObject({ at: { x: 400, y: 150 } });
    expect(stationOf(board).vertexId).toBe(board.run().frontLine[1]?.id);
  });

  it('takes a typed place for a station, from the start of its straight', () => {
    const board = fittedL().pick(300, 0).type('1.25 m');
    expect(stationOf(board).at).toEqual({ x: 125, y: 0 });
  });

  it('nudges an opening along its straight only', () => {
    const board = fittedL().pick(140, 30).hold(10, 10, 5).letGo();
    expect(zoneOf(board)).toMatchObject({ a: { x: 105, y: 0 }, b: { x: 185, y: 0 } });
  });

  it('removes what is chosen', () => {
    const board = fittedL().pick(140, 30).delete().pick(300, 0).delete();
    expect(Object.keys(board.document().zones)).toEqual([]);
    expect(Object.keys(board.document().stations)).toEqual([]);
    board.expectPoints([0, 0], [400, 0], [400, 270]);
  });

  it('turns an end from a wall end into an exposed one and back', () => {
    const board = tracedL().pick(400, 270).act('e');
    expect(board.run().ends.map(({ kind }) => kind)).toEqual(['wall', 'exposed']);
    board.act('e').expectSteps(3);
    expect(board.run().ends.map(({ kind }) => kind)).toEqual(['wall', 'wall']);
  });
});

describe('choosing by keys', () => {
  it('steps through every part of a run and comes round', () => {
    const board = fittedL();
    const kinds: string[] = [];
    for (let step = 0; step < 9; step += 1) {
      board.step();
      kinds.push((board.state() as { part: { kind: string } }).part.kind);
    }
    expect(kinds).toEqual([
      'point',
      'straight',
      'point',
      'straight',
      'point',
      'zone',
      'zone-side',
      'zone-side',
      'station',
    ]);
    board.step().step(-1);
    expect(board.state()).toMatchObject({ part: { kind: 'station' } });
  });

  it('chooses a run where none is', () => {
    const board = tracedL().select(null).step();
    expect(board.selected()).toBe(board.run().id);
  });

  it('lets go of the part, then of the run, by Escape', () => {
    const board = tracedL().pick(400, 270).escape();
    expect(board.selected()).not.toBeNull();
    board.escape();
    expect(board.selected()).toBeNull();
  });

  it('forgets a part that an undo took away', () => {
    const board = tracedL().pick(150, 1, { shift: true }).undo();
    expect(board.view().takesNudges).toBe(false);
    board.delete().expectSteps(1);
  });
});

describe('undoing and redoing edits', () => {
  it('comes back to the first document, and to the last one again', () => {
    const board = fittedL()
      .drag([400, 270], [403, 309])
      .pick(150, 1, { shift: true })
      .pick(140, 30)
      .hold(1, 0, 4)
      .letGo()
      .drag([300, 0], [350, 20])
      .drag([60, 0], [60, 9], { ctrl: true });
    const last = board.document();
    for (let step = 0; step < 8; step += 1) board.undo();
    expect(board.document().runIds).toEqual([]);
    for (let step = 0; step < 8; step += 1) board.redo();
    expect(board.document()).toEqual(last);
  });
});
