import { describe, expect, it } from 'vitest';
import type { DisplayList } from '../../../renderer/board/displayList.ts';
import { hitTest } from '../../../renderer/board/hitTest.ts';
import { screenPoint } from '../../../renderer/board/screenPoint.ts';
import type { QuarterTurnDeg } from '../../../renderer/board/sheetFrame.ts';
import { toScreen, wholeSheet } from '../../../renderer/board/viewTransform.ts';
import { paperPoint } from '../../../src/geometry/point.ts';

const line = { tone: 'front', widthPx: 2 } as const;
const list: DisplayList = [
  {
    kind: 'polygon',
    id: 'module',
    points: [paperPoint(100, 100), paperPoint(300, 100), paperPoint(300, 200), paperPoint(100, 200)],
    holes: [[paperPoint(220, 120), paperPoint(280, 120), paperPoint(280, 180), paperPoint(220, 180)]],
    line,
  },
  {
    kind: 'polyline',
    id: 'front',
    points: [paperPoint(100, 100), paperPoint(300, 100), paperPoint(300, 400)],
    line,
  },
  { kind: 'label', id: 'number', at: paperPoint(150, 150), text: '12' },
  { kind: 'mark', id: 'snap', at: paperPoint(500, 500), strokes: [], line },
  {
    kind: 'polyline',
    id: 'ghost',
    points: [paperPoint(0, 0), paperPoint(900, 600)],
    line,
    isHittable: false,
  },
];

describe.each([0, 90, 180, 270] as const)(
  'hit testing on a page rotated by %i degrees',
  (rotationDeg: QuarterTurnDeg) => {
    const frame = { viewBox: [0, 0, 900, 600] as const, rotationDeg, userUnit: 1 };
    const view = wholeSheet(frame, { widthPx: 1440, heightPx: 900 });
    const near = (x: number, y: number, dx = 0, dy = 0) => {
      const at = toScreen(view, paperPoint(x, y));
      return hitTest(list, view, screenPoint(at.x + dx, at.y + dy));
    };

    it('finds the label above the area that it stands on', () => {
      expect(near(150, 150).map((hit) => hit.id)).toEqual(['number', 'module']);
    });

    it('finds the inside of an area but not its hole', () => {
      expect(near(190, 150)).toEqual([{ id: 'module', distancePx: 0 }]);
      expect(near(250, 150)).toEqual([]);
    });

    it('finds a line within reach and names the stretch and the point', () => {
      const [onStretch] = near(300, 300, 3, 3);
      expect(onStretch).toMatchObject({ id: 'front', stretchIndex: 1 });
      expect(onStretch?.distancePx).toBeCloseTo(3, 6);
      expect(near(300, 400, 2, 0)[0]).toMatchObject({ id: 'front', pointIndex: 2 });
      expect(near(300, 300, 20, 20)).toEqual([]);
    });

    it('finds a mark by its place and nothing that takes no hits', () => {
      expect(near(500, 500, 4, 0)).toEqual([{ id: 'snap', distancePx: 4, pointIndex: 0 }]);
      expect(near(750, 500)).toEqual([]);
    });
  },
);

describe('hit testing between neighbours', () => {
  const square = (id: string, left: number) =>
    ({
      kind: 'polygon',
      id,
      points: [
        paperPoint(left, 0),
        paperPoint(left + 50, 0),
        paperPoint(left + 50, 50),
        paperPoint(left, 50),
      ],
      line,
    }) as const;
  const frame = { viewBox: [0, 0, 900, 600] as const, rotationDeg: 0 as const, userUnit: 1 };
  const view = wholeSheet(frame, { widthPx: 948, heightPx: 648 });

  it('finds the area that the pointer is in, not the edge of the next', () => {
    const at = toScreen(view, paperPoint(46, 25));
    expect(hitTest([square('left', 0), square('right', 50)], view, at).map((hit) => hit.id)).toEqual([
      'left',
    ]);
  });

  it('finds an area thinner than a pixel', () => {
    const thin: DisplayList = [
      {
        ...square('thin', 100),
        points: [paperPoint(100, 0), paperPoint(100.1, 0), paperPoint(100.1, 50), paperPoint(100, 50)],
      },
    ];
    expect(hitTest(thin, view, toScreen(view, paperPoint(101, 25))).map((hit) => hit.id)).toEqual(['thin']);
  });
});
