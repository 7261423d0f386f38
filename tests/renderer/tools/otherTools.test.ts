import { describe, expect, it } from 'vitest';
import { aisleTool } from '../../../renderer/tools/aisleTool.ts';
import { measureTool } from '../../../renderer/tools/measureTool.ts';
import { stationTool } from '../../../renderer/tools/stationTool.ts';
import { traceTool } from '../../../renderer/tools/traceTool.ts';
import { zoneTool } from '../../../renderer/tools/zoneTool.ts';
import { toolBoard } from './toolBoard.ts';

const straightRun = () => toolBoard().take(traceTool).pick(0, 0).pick(400, 0).confirm().pick(200, 100);

describe('measuring', () => {
  it('shows the length between two picks, and keeps nothing', () => {
    // 300 and 400 points are 3 and 4 m; the way between them is 5 m (Euclid I.47).
    const board = toolBoard().take(measureTool).pick(0, 0).pick(300, 400).expectState('shown');
    expect(board.view().lines[0]?.lengthMm).toBeCloseTo(5000, 9);
    board.expectSteps(0).pick(9, 9).expectState('second');
  });

  it('backs out one step at a time', () => {
    toolBoard()
      .take(measureTool)
      .pick(0, 0)
      .pick(0, 0)
      .expectSaid(/same point/)
      .pick(30, 40)
      .escape()
      .expectState('second')
      .escape()
      .expectState('idle')
      .escape()
      .expectTool('edit');
  });

  it('shows no length on a sheet without a scale, and says why', () => {
    const board = toolBoard({ scale: 'none' })
      .take(measureTool)
      .expectPrompt(/no scale/);
    expect(board.pick(0, 0).pick(30, 40).view().lines[0]?.lengthMm).toBeUndefined();
  });
});

describe('marking openings and blocked zones', () => {
  it('lies on the straight between two picks beside it', () => {
    const board = straightRun().take(zoneTool('blocked')).pick(100, 6).pick(140, -4).expectTool('edit');
    expect(Object.values(board.document().zones)).toMatchObject([
      { kind: 'blocked', a: { x: 100, y: 0 }, b: { x: 140, y: 0 } },
    ]);
    board.expectSteps(2);
  });

  it('stops at the ends of the straight', () => {
    const board = straightRun().take(zoneTool('opening')).pick(380, 6).pick(900, 30);
    expect(Object.values(board.document().zones)[0]).toMatchObject({ b: { x: 400, y: 0 } });
  });

  it.each([
    ['800', 80],
    ['0.8 m', 80],
    [`2' 7 1/2"`, 80.01],
  ])('takes a width of %s', (text, width) => {
    const board = straightRun().take(zoneTool('opening')).pick(100, 0).point(130, 4).type(text);
    expect(Object.values(board.document().zones)[0]?.b.x).toBeCloseTo(100 + width, 9);
  });

  it('refuses no width, and backs out one step at a time', () => {
    straightRun()
      .take(zoneTool('opening'))
      .pick(100, 0)
      .type('800')
      .expectSaid(/Point the way/)
      .pick(100, 0)
      .expectSaid(/no width/)
      .escape()
      .expectState('idle')
      .escape()
      .expectTool('edit')
      .expectSteps(1);
  });

  it('needs a run', () => {
    toolBoard()
      .take(zoneTool('opening'))
      .pick(0, 0)
      .expectSaid(/Trace a run first/)
      .expectTool('edit');
  });
});

describe('wanting a station', () => {
  it('stands on the straight nearest to the pick', () => {
    const board = straightRun().take(stationTool({ id: 'hand-basin-11l', name: 'hand basin' }));
    board.point(120, 9).expectWord('hand basin').pick(120, 9).expectSteps(2);
    expect(Object.values(board.document().stations)).toMatchObject([
      { item: 'hand-basin-11l', at: { x: 120, y: 0 } },
    ]);
  });

  it('gives way by Escape', () => {
    straightRun()
      .take(stationTool({ id: 'hand-basin-11l', name: 'hand basin' }))
      .escape()
      .expectTool('edit')
      .expectSteps(1);
  });
});

describe('checking an aisle', () => {
  /** A front bar 700 deep whose back looks up, and a back bar 1380 behind that, nearer at its one end. */
  const twoBars = (backBarAt: readonly [number, number] = [208, 208]) =>
    straightRun()
      .take(traceTool)
      .pick(50, backBarAt[0])
      .pick(350, backBarAt[1], { alt: true })
      .confirm()
      .act('left');

  it('shows the narrowest place between the back of the one and the front of the other', () => {
    const board = twoBars().take(aisleTool).pick(200, 0).expectState('second').pick(200, 208);
    board.expectState('shown').expectSteps(2);
    // 208 points less a depth of 70 are 138: 1380 mm at 10 mm a point.
    expect(board.view().lines[0]?.lengthMm).toBeCloseTo(1380, 9);
    board.expectPrompt(/At least the 36"/);
  });

  it('finds the narrow end of an aisle that is not parallel, whichever run is picked first', () => {
    const board = twoBars([208, 168]).take(aisleTool).pick(350, 168).pick(200, 0);
    const [line] = board.view().lines;
    expect(line?.lengthMm).toBeCloseTo(980, 9);
    expect(line?.from).toMatchObject({ x: 350, y: 70 });
  });

  it('does not call an aisle wide enough that may be narrower than 36 in', () => {
    // 36 in are 914.4 mm (international inch of 1959); 161.8 points less 70 are 918 mm, give or take six.
    twoBars([161.8, 161.8])
      .take(aisleTool)
      .pick(200, 0)
      .pick(200, 161.8)
      .expectPrompt(/Not surely the 36"/);
  });

  it('wants two runs, and backs out one step at a time', () => {
    twoBars()
      .take(aisleTool)
      .pick(300, 120)
      .expectSaid(/front line of a run/)
      .pick(200, 0)
      .pick(100, 0)
      .expectSaid(/same run/)
      .pick(200, 208)
      .escape()
      .expectState('second')
      .escape()
      .expectState('idle')
      .escape()
      .expectTool('edit');
  });
});
