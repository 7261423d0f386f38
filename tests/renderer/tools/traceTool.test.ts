import { describe, expect, it } from 'vitest';
import { dimensionTool } from '../../../renderer/tools/dimensionTool.ts';
import { traceTool } from '../../../renderer/tools/traceTool.ts';
import { drawn } from '../../sheet/drawnLines.ts';
import { toolBoard } from './toolBoard.ts';

/** A straight counter, 3600 long and 700 deep, drawn as two lines. */
const counter = drawn([
  {
    points: [
      [100, 100],
      [460, 100],
    ],
  },
  {
    points: [
      [100, 170],
      [460, 170],
    ],
  },
]);

describe('tracing a run', () => {
  it('takes the front line point by point, then the side and the usual depth', () => {
    const board = toolBoard()
      .take(traceTool)
      .expectState('idle')
      .pick(100, 100)
      .expectState('front')
      .pick(400, 103.1)
      .pick(400, 403)
      .confirm()
      .expectState('back')
      .pick(300, 300)
      .expectTool('edit')
      .expectSteps(1);
    expect(board.run()).toMatchObject({ name: 'Run 1', backSide: 'left', depthMm: 700 });
    expect(board.selected()).toBe(board.run().id);
  });

  it('names each run by the next number that is free', () => {
    const board = toolBoard();
    for (const y of [0, 200])
      board
        .take(traceTool)
        .pick(0, y)
        .pick(90, y)
        .confirm()
        .pick(40, y + 60);
    expect(Object.values(board.document().runs).map(({ name }) => name)).toEqual(['Run 1', 'Run 2']);
  });

  it('backs out one step at a time by Escape', () => {
    toolBoard()
      .take(traceTool)
      .pick(0, 0)
      .pick(100, 50)
      .pick(200, 20)
      .confirm()
      .expectState('back')
      .escape()
      .expectState('front')
      .escape()
      .escape()
      .expectState('front')
      .escape()
      .expectState('idle')
      .escape()
      .expectTool('edit')
      .expectSteps(0);
  });

  it('lets go of a hold before it takes back a point', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(100, 50).act('h').escape();
    expect(board.state()).toMatchObject({ at: 'front', hold: null, points: [{}, {}] });
  });

  it('takes back the last point by Delete', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(100, 50).delete();
    expect(board.state()).toMatchObject({ at: 'front', points: [{}] });
  });

  it('asks for a second point before the front line can be whole', () => {
    toolBoard()
      .take(traceTool)
      .pick(0, 0)
      .confirm()
      .expectState('front')
      .expectSaid(/second point/);
  });

  it('does not take the same place twice', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(0, 0);
    expect(board.state()).toMatchObject({ points: [{}] });
  });

  it('undoes and redoes a run as one step', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(90, 0).confirm().pick(40, 60);
    const traced = board.document();
    board.undo();
    expect(board.document().runIds).toEqual([]);
    board.redo();
    expect(board.document()).toEqual(traced);
  });
});

describe('typing while tracing', () => {
  // 3600.45 mm is 11'-9 3/4" exactly: 141.75 in x 25.4 mm (international inch of 1959).
  it.each([
    ['3600', 3600],
    ['3600 mm', 3600],
    ['360 cm', 3600],
    ['3.6 m', 3600],
    ['3,60 m', 3600],
    [`11'-9 3/4"`, 3600.45],
    ['11 ft 9 3/4 in', 3600.45],
    ['141.75"', 3600.45],
  ])('takes %s the way of the pointer', (text, lengthMm) => {
    toolBoard()
      .take(traceTool)
      .pick(0, 0)
      .point(40, 3)
      .type(text)
      .confirm()
      .pick(100, 80)
      .expectStraights(lengthMm);
  });

  it('takes a bare number as inches where lengths are shown in feet and inches', () => {
    toolBoard({ unit: 'ft-in' })
      .take(traceTool)
      .pick(0, 0)
      .point(40, 3)
      .type('120')
      .confirm()
      .pick(50, 60)
      .expectStraights(3048);
  });

  it('takes an angle from the right of the sheet, anticlockwise', () => {
    // A 3-4-5 triangle (Euclid I.47): atan(3/4) is 36.8699 degrees.
    toolBoard()
      .take(traceTool)
      .pick(0, 0)
      .type('5000 at 36.8698976458')
      .confirm()
      .pick(100, 300)
      .expectPoints([0, 0], [400, 300]);
  });

  it('counts the angle from the right of a turned sheet as shown', () => {
    // /Rotate 90 (ISO 32000-1 table 30): the paper's +y then points right.
    toolBoard({ sheetRightRad: Math.PI / 2 })
      .take(traceTool)
      .pick(0, 0)
      .type('1000 at 0')
      .confirm()
      .pick(-50, 50)
      .expectPoints([0, 0], [0, 100]);
  });

  it('turns left, right, straight on and by an angle from the last straight', () => {
    toolBoard()
      .take(traceTool)
      .pick(0, 0)
      .type('1000 at 0')
      .type('500 left')
      .type('200 on')
      .type('300 right')
      .type('1000 right 90')
      .confirm()
      .pick(20, 20)
      .expectPoints([0, 0], [100, 0], [100, 50], [100, 70], [130, 70], [130, -30]);
  });

  it('holds a direction that is typed without a length, until the next point', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).type('at 30').point(80, 70);
    expect(board.state()).toMatchObject({ hold: { kind: 'direction' } });
    board.type('1000').confirm().pick(20, 60);
    board.expectPoints([0, 0], [50 * Math.sqrt(3), 50]);
  });

  it.each([
    ['3600 mn', /not a length unit/],
    ['0', /more than nothing/],
    ['-5', /negative/],
    ['3600 at', /angle behind/],
    ['3600 at noon', /not an angle/],
    ['3600 left', /no straight yet/],
    ['3600 on 5', /takes no angle/],
    ['', /Type a length|length/],
  ])('says why %s is not taken, and stays where it is', (text, words) => {
    const board = toolBoard().take(traceTool).pick(0, 0).point(40, 3).type(text).expectSaid(words);
    expect(board.state()).toMatchObject({ at: 'front', points: [{}] });
  });

  it('says that a length needs a scale, and a way to go', () => {
    toolBoard({ scale: 'none' }).take(traceTool).pick(0, 0).point(9, 9).type('3600').expectSaid(/scale/);
    toolBoard()
      .take(traceTool)
      .pick(0, 0)
      .type('3600')
      .expectSaid(/Point the way/);
  });
});

describe('holding the direction', () => {
  it('keeps straights level or upright on the sheet', () => {
    toolBoard()
      .take(traceTool)
      .pick(0, 0)
      .act('h')
      .pick(100, 30)
      .pick(120, 90)
      .confirm()
      .pick(50, 80)
      .expectPoints([0, 0], [100, 0], [100, 90]);
  });

  it('keeps them square to the last straight, or straight on, on a turned building too', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(80, 60, { alt: true }).act('h').point(150, 100);
    // Straight on from a direction of 3-4-5: (150, 100) falls on it at 180 of its length.
    board.expectWord('straight on');
    board
      .pick(150, 100)
      .act('h')
      .expectPrompt(/next corner/);
    // Along (0.8, 0.6) the hand lies 180 from the start: the straight is 80 long. Square to it, from (144, 108), a hand
    // at (96, 172) is 80 away: 48-64-80 is a 3-4-5 triangle as well.
    board.pick(96, 172).confirm().pick(60, 100);
    board.expectPoints([0, 0], [80, 60], [144, 108], [96, 172]);
  });

  it('steps by 15 degrees while Shift is held', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(100, 24, { shift: true });
    const { points } = board.state() as { points: { at: { x: number; y: number } }[] };
    const { x, y } = points[1]!.at;
    expect((Math.atan2(y, x) * 180) / Math.PI).toBeCloseTo(15, 9);
  });

  it('keeps a straight parallel to a line that was pointed at', () => {
    const slanted = drawn([
      {
        points: [
          [0, 200],
          [400, 500],
        ],
      },
    ]);
    toolBoard({ index: slanted })
      .take(traceTool)
      .pick(0, 0)
      .point(40, 230)
      .expectWord('on a line')
      .act('l')
      .pick(90, 50)
      .confirm()
      .pick(50, 100)
      .expectPoints([0, 0], [81.6, 61.2]);
  });

  it('says that a line must be pointed at before anything can be parallel to it', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).point(30, 5);
    expect(board.view().acts.map(({ name }) => name)).not.toContain('like-line');
  });
});

describe('the back line', () => {
  it('gives the depth where it is a line of the drawing', () => {
    const board = toolBoard({ index: counter })
      .take(traceTool)
      .pick(101, 101)
      .pick(459, 99)
      .confirm()
      .point(300, 171)
      .expectWord('on a line')
      .pick(300, 171)
      .expectStraights(3600);
    expect(board.run()).toMatchObject({ depthMm: 700, backSide: 'left' });
  });

  it('gives only the side where nothing is drawn', () => {
    const board = toolBoard({ index: counter }).take(traceTool).pick(101, 101).pick(459, 99).confirm();
    board.pick(300, 40);
    expect(board.run()).toMatchObject({ depthMm: 700, backSide: 'right' });
  });

  it('takes a typed depth, and refuses one that no counter has', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(90, 0).confirm().point(40, -20);
    board
      .type('20')
      .expectSaid(/between 50 mm and 5 m/)
      .expectState('back');
    board.type('2 ft').expectTool('edit');
    expect(board.run()).toMatchObject({ depthMm: 609.6, backSide: 'right' });
  });

  it('takes the side by its act, where nothing can be pointed at', () => {
    const board = toolBoard().take(traceTool).pick(0, 0).pick(90, 0).confirm().act('right');
    expect(board.run().backSide).toBe('right');
  });
});

describe('how sure a trace is', () => {
  it('is as sure as its least sure pick', () => {
    const sure = toolBoard({ index: counter }).take(traceTool).pick(101, 101).pick(459, 99).confirm();
    sure.pick(300, 130);
    const unsure = toolBoard({ index: counter }).take(traceTool).pick(101, 101).pick(459, 90, { alt: true });
    unsure.confirm().pick(300, 130);
    // 0.09 mm over the square root of 3 (JCGM 100:2008, 4.3.7), in points; the hand adds a pixel, here a quarter point.
    expect(sure.run().pickUncertaintyPt).toBeCloseTo(0.1473, 4);
    expect(unsure.run().pickUncertaintyPt).toBeCloseTo(Math.hypot(0.1473, 0.25 / Math.sqrt(3)), 4);
  });
});

describe('following a line', () => {
  /** A counter with a gap for a flap and a column in its back. */
  const bar = drawn([
    {
      points: [
        [100, 100],
        [300, 100],
        [300, 170],
        [100, 170],
        [100, 100],
      ],
    },
    {
      points: [
        [380, 100],
        [500, 100],
        [500, 170],
        [380, 170],
        [380, 100],
      ],
    },
    {
      points: [
        [200, 140],
        [240, 140],
        [240, 190],
        [200, 190],
        [200, 140],
      ],
      fill: 0x303030,
      width: 1.4,
    },
  ]);
  const offered = () => toolBoard({ index: bar }).take(traceTool).point(230, 101).act('f');

  it('offers the run with its depth, opening and blocked zone, and takes nothing by itself', () => {
    const board = offered().expectState('offer').expectSteps(0);
    board.expectPrompt(
      /1 straight; 700\smm deep; 4\s000\smm long; ends: exposed, exposed; 1 opening; 1 blocked zone/,
    );
    expect(board.view().preview).toMatchObject({ type: 'together' });
  });

  it('is taken whole, as one step', () => {
    const board = offered().confirm().expectTool('edit').expectSteps(1).expectStraights(4000);
    expect(board.run()).toMatchObject({ backSide: 'left', depthMm: 700 });
    expect(Object.values(board.document().zones)).toMatchObject([
      { kind: 'opening', a: { x: 300 }, b: { x: 380 } },
      { kind: 'blocked', name: 'Column', a: { x: 200 }, b: { x: 240 } },
    ]);
    expect(board.undo().document().runIds).toEqual([]);
  });

  it('is refused without a trace', () => {
    offered().escape().expectState('idle').expectSteps(0);
    offered().act('leave').expectState('idle').expectSteps(0);
  });

  it('may have its back on the other side', () => {
    expect(offered().act('o').act('take').run().backSide).toBe('right');
  });

  it('asks for the back line where it finds none', () => {
    const lone = drawn([
      {
        points: [
          [100, 100],
          [460, 100],
        ],
      },
    ]);
    toolBoard({ index: lone })
      .take(traceTool)
      .point(230, 101)
      .act('f')
      .expectPrompt(/pick its back line/)
      .confirm()
      .expectState('back')
      .pick(200, 150)
      .expectStraights(3600);
  });

  it('offers a rounded corner as an arc that the run keeps', () => {
    const corner = Array.from({ length: 13 }, (_, place): readonly [number, number] => {
      const angle = Math.PI + (place / 12) * (Math.PI / 2);
      return [160 + 60 * Math.cos(angle), 160 + 60 * Math.sin(angle)];
    });
    const rounded = drawn([{ points: [[100, 400], ...corner, [460, 100]] }]);
    const board = toolBoard({ index: rounded })
      .take(traceTool)
      .point(300, 101)
      .act('f')
      .expectPrompt(/2 straights; 1 arc/)
      .confirm()
      .expectState('back')
      .pick(300, 170);
    const { frontLine } = board.run();
    expect(frontLine.map(({ through }) => through !== undefined)).toEqual([false, true, false, false]);
    const through = frontLine[1]!.through!;
    expect(Math.hypot(through.x - 160, through.y - 160)).toBeCloseTo(60, 2);
  });

  it('needs a line under the hand and a scale', () => {
    expect(toolBoard({ index: bar }).take(traceTool).point(230, 300).view().acts).toEqual([]);
    toolBoard({ index: bar, scale: 'none' })
      .take(traceTool)
      .point(230, 101)
      .act('f')
      .expectSaid(/Set the scale/);
  });
});

describe('the first step before tracing', () => {
  it('keeps a known dimension as one step', () => {
    const board = toolBoard()
      .take(dimensionTool)
      .pick(0, 0)
      .expectState('second')
      .pick(0, 0)
      .expectSaid(/same point/)
      .pick(100, 0)
      .expectState('length')
      .confirm()
      .expectSaid(/Type the length/)
      .type('abc')
      .expectState('length')
      .type('1 m')
      .expectTool('edit')
      .expectSteps(1);
    expect(Object.values(board.document().references)[0]).toMatchObject({ lengthMm: 1000, typed: '1 m' });
  });

  it('backs out of a known dimension one step at a time', () => {
    toolBoard()
      .take(dimensionTool)
      .pick(0, 0)
      .pick(100, 0)
      .escape()
      .expectState('second')
      .escape()
      .expectState('idle')
      .escape()
      .expectTool('edit')
      .expectSteps(0);
  });
});
