import { describe, expect, it } from 'vitest';
import { candidatesAt, type PickSetting, pickAt } from '../../../renderer/snapping/pickAt.ts';
import { type Guides, noGuides } from '../../../renderer/tools/pick.ts';
import { paperPoint } from '../../../src/geometry/point.ts';
import { drawn } from '../../sheet/drawnLines.ts';

/** A level line from 0 to 100 and an upright one that crosses it at 50. */
const cross = drawn([
  {
    points: [
      [0, 0],
      [100, 0],
    ],
  },
  {
    points: [
      [50, -40],
      [50, 60],
    ],
  },
]);
/** A line at 3 up for 4 along, far from the cross. */
const slanted = drawn([
  {
    points: [
      [0, 200],
      [400, 500],
    ],
  },
]);

const setting: PickSetting = {
  index: cross,
  pxPerUnit: 2,
  userUnit: 1,
  guides: noGuides,
  isSuspended: false,
  isStepped: false,
  candidate: 0,
  sheetRightRad: 0,
};
const guides = (more: Partial<Guides>): Guides => ({ ...noGuides, ...more });
const at = (x: number, y: number, more: Partial<PickSetting> = {}) => {
  const pick = pickAt(paperPoint(x, y), { ...setting, ...more });
  const place = (value: number) => Number(value.toFixed(6)) + 0;
  return `${pick.relation?.word ?? 'free'} ${place(pick.at.x)} ${place(pick.at.y)}`;
};

describe('what catches a pick', () => {
  it('is an end, a crossing, a middle, a line, in this order where several are near', () => {
    expect(at(1, 2)).toBe('end 0 0');
    expect(at(48, 2)).toBe('crossing 50 0');
    expect(at(51, 11)).toBe('middle 50 10');
    expect(at(20, 3)).toBe('on a line 20 0');
    expect(at(20, 30)).toBe('free 20 30');
  });

  it('is nothing while catching is suspended', () => {
    expect(at(1, 2, { isSuspended: true })).toBe('free 1 2');
  });

  it('is the foot of the perpendicular from the last pick, on a line', () => {
    // From (0, 450) the foot on the line 3x - 4y + 800 = 0 is where 4x + 3y = 1350: (120, 290).
    const anchor = paperPoint(0, 450);
    expect(at(121, 291.5, { index: slanted, guides: guides({ anchor }) })).toBe('square to 120 290');
  });

  it('is a place on a line that is in line with the last pick', () => {
    expect(at(51, 31, { guides: guides({ anchor: paperPoint(-90, 30) }) })).toBe('square to 50 30');
    expect(at(41, 228, { index: slanted, guides: guides({ anchor: paperPoint(40, -20) }) })).toBe(
      'on a line, in line 40 230',
    );
  });

  it('is in line with an earlier point, and with two of them where both say where', () => {
    const anchor = paperPoint(200, 300);
    const points = [{ at: paperPoint(700, 40), uncertaintyPt: 0.2 }];
    expect(at(203, 200, { index: null, guides: guides({ anchor }) })).toBe('in line 200 200');
    expect(at(202, 42, { index: null, guides: guides({ anchor, points }) })).toBe('in line, in line 200 40');
  });

  it('is straight on from, or square to, the last straight, however the building lies on the sheet', () => {
    const turned = guides({ anchor: paperPoint(80, 60), before: paperPoint(0, 0) });
    expect(at(161, 119, { index: null, guides: turned })).toBe('straight on 160.16 120.12');
    // (161, 119) is 200.2 along (0.8, 0.6); (33, 124) is 79.4 along (-0.6, 0.8) from the anchor.
    expect(at(33, 124, { index: null, guides: turned })).toBe('square to the last 32.36 123.52');
  });

  it('is parallel to a line at hand', () => {
    // The line 8 beside the anchor's own direction: (40, 30) lies on the parallel through the origin.
    const beside = drawn([
      {
        points: [
          [-3, 4],
          [77, 64],
        ],
      },
    ]);
    const over = { index: beside, guides: guides({ anchor: paperPoint(0, 0) }) };
    const words = candidatesAt(paperPoint(40, 30), { ...setting, ...over }).map(
      ({ relation }) => relation.word,
    );
    expect(words).toContain('parallel to');
  });

  it('is an earlier point, as sure as it was', () => {
    const points = [{ at: paperPoint(300, 300), uncertaintyPt: 0.7 }];
    const pick = pickAt(paperPoint(302, 299), { ...setting, guides: guides({ points }) });
    expect(pick).toMatchObject({ at: { x: 300, y: 300 }, uncertaintyPt: 0.7 });
  });

  it('steps through the candidates and comes round', () => {
    const offered = candidatesAt(paperPoint(48, 2), setting);
    expect(offered.map(({ relation }) => relation.word)).toEqual(['crossing', 'on a line']);
    expect(at(48, 2, { candidate: 1 })).toBe('on a line 48 0');
    expect(at(48, 2, { candidate: 2 })).toBe('crossing 50 0');
  });
});

describe('a pick that is held in a direction', () => {
  const anchor = paperPoint(0, 20);

  it('stays on it, wherever the hand goes', () => {
    const held = guides({ anchor, hold: { kind: 'sheet' } });
    expect(at(300, 33, { guides: held, index: null })).toBe('in line 300 20');
    expect(at(300, 33, { guides: held, index: null, isSuspended: true })).toBe('in line 300 20');
  });

  it('stops where a drawn line meets it, and level with a drawn point', () => {
    const held = guides({ anchor, hold: { kind: 'sheet' } });
    // The hand at the upright line, away from the held direction: where the line meets it is meant.
    expect(at(51, 45, { guides: held })).toBe('in line, on a line 50 20');
    expect(at(101, 2, { guides: held })).toBe('in line, level with end 100 20');
  });

  it('goes in 15 degree steps while the key is down', () => {
    const pick = pickAt(paperPoint(100, 20 + 60), {
      ...setting,
      index: null,
      isStepped: true,
      guides: guides({ anchor }),
    });
    // 60 up for 100 along is 30.96 degrees; the hand's foot on 30 degrees.
    expect((Math.atan2(pick.at.y - 20, pick.at.x) * 180) / Math.PI).toBeCloseTo(30, 9);
  });

  it('is not held where there is no last straight to go by', () => {
    expect(at(300, 33, { index: null, guides: guides({ anchor, hold: { kind: 'square' } }) })).toBe(
      'free 300 33',
    );
  });
});

describe('how sure a pick is', () => {
  it('is as sure as a drawn line where one says where it is, at any zoom', () => {
    // 0.09 mm over the square root of 3 (JCGM 100:2008, 4.3.7); 72/25.4 points to the mm.
    const expected = (0.09 / Math.sqrt(3)) * (72 / 25.4);
    for (const pxPerUnit of [0.5, 2, 40])
      expect(pickAt(paperPoint(1, 0.1), { ...setting, pxPerUnit }).uncertaintyPt).toBeCloseTo(expected, 12);
  });

  it('adds a pixel of the hand to a free one, so that a closer look makes it surer', () => {
    const free = (pxPerUnit: number) => pickAt(paperPoint(20, 300), { ...setting, pxPerUnit }).uncertaintyPt;
    expect(free(1)).toBeCloseTo(Math.hypot(0.1473, 1 / Math.sqrt(3)), 3);
    expect(free(10)).toBeLessThan(free(1) / 3);
  });

  it('counts the hand in points of paper on a page with a UserUnit', () => {
    // One user-space unit is 10 points there (ISO 32000-1 14.11.2), so that 2 px a unit are 0.2 px a point.
    const pick = pickAt(paperPoint(20, 300), { ...setting, userUnit: 10 });
    expect(pick.uncertaintyPt).toBeCloseTo(Math.hypot(0.1473, 5 / Math.sqrt(3)), 3);
  });
});
