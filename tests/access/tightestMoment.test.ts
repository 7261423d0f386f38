import { describe, expect, it } from 'vitest';
import { checkWayIn } from '../../src/access/checkWayIn.ts';
import type { MomentView } from '../../src/access/momentOutline.ts';
import type { AccessPiece, Obstacle } from '../../src/access/wayInSchema.ts';
import type { Point } from '../../src/geometry/point.ts';
import { isInPolygon, polygonArea } from '../../src/geometry/polygon.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { randomObstacle, randomPiece } from './randomWayIn.ts';

const viewsOf = (obstacle: Obstacle, piece: AccessPiece): readonly MomentView[] =>
  checkWayIn({ obstacles: [obstacle], pieces: [piece] }, { drawings: true }).pieces[0]!.obstacles[0]!.moment!
    .views;

/** Points along the edges of an outline, every few millimetres, drawn in by a hair towards its middle. */
const edgePoints = (outline: readonly Point[], hairMm: number): readonly Point[] => {
  const middle = {
    x: outline.reduce((sum, point) => sum + point.x, 0) / outline.length,
    y: outline.reduce((sum, point) => sum + point.y, 0) / outline.length,
  };
  return outline.flatMap((start, index) => {
    const end = outline[(index + 1) % outline.length]!;
    const count = Math.max(1, Math.ceil(Math.hypot(end.x - start.x, end.y - start.y) / 10));
    return Array.from({ length: count }, (_, step) => {
      const x = start.x + ((end.x - start.x) * step) / count;
      const y = start.y + ((end.y - start.y) * step) / count;
      const away = Math.hypot(x - middle.x, y - middle.y);
      return { x: x - ((x - middle.x) / away) * hairMm, y: y - ((y - middle.y) / away) * hairMm };
    });
  });
};

const staysClear = (view: MomentView): boolean =>
  edgePoints(view.piece, 0.05).every((point) => isInPolygon(point, view.clear));

const upright: AccessPiece = {
  id: 'm',
  lengthMm: 2100,
  widthMm: 600,
  heightMm: 900,
  massKg: 20,
  keepUpright: true,
};

describe('the drawing of the tightest moment', () => {
  it('shows the piece inside the clear outline wherever the piece passes', () => {
    const random = seededRandom(8_081);
    const count = campaignSize({ sample: 300, full: 5000 });
    const failures: string[] = [];
    let passing = 0;
    for (let index = 0; index < count; index += 1) {
      const obstacle = randomObstacle(random);
      const piece: AccessPiece = { ...randomPiece(random), massKg: 1, mayPitchInTurns: false };
      const cell = checkWayIn({ obstacles: [obstacle], pieces: [piece] }, { drawings: true }).pieces[0]!
        .obstacles[0]!;
      if (!cell.passes) continue;
      passing += 1;
      if (!cell.moment!.views.every(staysClear)) {
        failures.push(`case ${index}: ${JSON.stringify(obstacle)} ${JSON.stringify(piece)} ${cell.manner}`);
      }
    }
    expect(failures).toEqual([]);
    expect(passing).toBeGreaterThan(count / 3);
  }, 600_000);

  it('shows the piece cutting the corner of a turn that stops it', () => {
    const turn: Obstacle = { kind: 'turn', fromMm: 1200, toMm: 1200, heightMm: 2400 };
    expect(viewsOf(turn, upright).every(staysClear)).toBe(true);
    expect(viewsOf(turn, { ...upright, lengthMm: 2400 }).every(staysClear)).toBe(false);
  });

  it('touches the inner corner with a piece that only just gets round', () => {
    const turn: Obstacle = { kind: 'turn', fromMm: 1200, toMm: 1200, heightMm: 2400 };
    const [view] = viewsOf(turn, { ...upright, lengthMm: 2 * Math.SQRT2 * 1200 - 1200 });
    const [, , third, fourth] = view!.piece;
    // The inner side runs through the inner corner at (1200, 1200).
    const area = polygonArea([third!, fourth!, { x: 1200, y: 1200 }]);
    expect(area / Math.hypot(third!.x - fourth!.x, third!.y - fourth!.y)).toBeLessThan(1e-3);
  });

  it('keeps the size of the piece', () => {
    const side: Obstacle = {
      kind: 'side-doorway',
      passageMm: 1200,
      widthMm: 900,
      heightMm: 2000,
      wallMm: 150,
    };
    expect(polygonArea(viewsOf(side, upright)[0]!.piece)).toBeCloseTo(2100 * 600, 3);
  });

  it('shows a lift car in plan and in elevation', () => {
    const lift: Obstacle = {
      kind: 'lift',
      doorWidthMm: 900,
      doorHeightMm: 2100,
      carWidthMm: 1600,
      carDepthMm: 1400,
      carHeightMm: 2200,
      ratedKg: 1000,
    };
    const views = viewsOf(lift, { id: 'r', lengthMm: 2900, widthMm: 40, heightMm: 40, massKg: 4 });
    expect(views.map((view) => view.view)).toEqual(['plan', 'elevation']);
  });
});
