import { describe, expect, it } from 'vitest';
import { datumOf, servicePoints } from '../../src/services/servicePoints.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { fitOf, runAt } from './fittedRun.ts';

const scale = { ratio: 50, relativeUncertainty: 0.002, userUnit: 1 };
/** A point of paper is 25.4/72 mm; at 1:50 that is 17.6388… mm in the room. */
const mmPerPoint = (25.4 / 72) * 50;

describe('where services come up', () => {
  it('measures the offset from the left end as a person sees it who stands at the back and looks at the front', () => {
    const random = seededRandom(20_260_312);
    for (let round = 0; round < 200; round += 1) {
      const angle = random.next() * 2 * Math.PI;
      const along = { x: Math.cos(angle), y: Math.sin(angle) };
      const backSide = random.pick(['left', 'right'] as const);
      const start = { x: random.next() * 500, y: random.next() * 500 };
      const run = runAt(
        [
          [start.x, start.y],
          [start.x + along.x * 300, start.y + along.y * 300],
        ],
        backSide,
      );
      const fromMm = random.integer(0, 2_000);
      const piece = { straight: 0, item: 'hand-basin-11l', fromMm, toMm: fromMm + 380 };
      const points = servicePoints(run, fitOf([piece]), demoRange, scale);
      const cold = points.find(({ kind }) => kind === 'cold-water')!;

      // Rebuilt on the paper without the code under test. PDF user space: y is up, a left turn of (x, y) is (-y, x).
      const sign = backSide === 'left' ? 1 : -1;
      const towardsBack = { x: -along.y * sign, y: along.x * sign };
      const facing = { x: -towardsBack.x, y: -towardsBack.y };
      const bartendersLeft = { x: -facing.y, y: facing.x };
      const leftEndMm =
        bartendersLeft.x * along.x + bartendersLeft.y * along.y > 0 ? piece.toMm : piece.fromMm;
      const expected = {
        x: start.x + (along.x * leftEndMm - bartendersLeft.x * 110 + towardsBack.x * 75) / mmPerPoint,
        y: start.y + (along.y * leftEndMm - bartendersLeft.y * 110 + towardsBack.y * 75) / mmPerPoint,
      };
      expect(Math.hypot(cold.atPaper.x - expected.x, cold.atPaper.y - expected.y) * mmPerPoint).toBeLessThan(
        0.01,
      );
      expect(cold.fromBackMm).toBe(700 - 75);
    }
  });

  it('sets out the basin of a bar whose back is above a front drawn left to right: cold 110 mm in from its right end', () => {
    // The bartender stands above, looks down the page and has the page’s right on the left.
    const run = runAt(
      [
        [0, 0],
        [300, 0],
      ],
      'left',
    );
    const piece = { straight: 0, item: 'hand-basin-11l', fromMm: 1_000, toMm: 1_380 };
    const points = servicePoints(run, fitOf([piece]), demoRange, scale);
    expect(points.map(({ kind, alongMm, heightMm }) => [kind, alongMm, heightMm])).toEqual([
      ['hot-water', 1_110, 550],
      ['waste', 1_190, 450],
      ['cold-water', 1_270, 550],
    ]);
    expect(datumOf(run, 0)).toContain('bartender’s right');
  });

  it('states the drawing’s uncertainty of the distance, growing with it', () => {
    const run = runAt(
      [
        [0, 0],
        [300, 0],
      ],
      'right',
    );
    const at = (fromMm: number) =>
      servicePoints(
        run,
        fitOf([{ straight: 0, item: 'ice-well-600', fromMm, toMm: fromMm + 560 }]),
        demoRange,
        scale,
      )[0]!.plusMinusMm;
    // JCGM 100:2008, 5.1.2: (0.1 % x 4 280 mm) and two picks of 0.1 pt at 17.64 mm a point, in squares, times two.
    const byHand = 2 * Math.sqrt((0.001 * 4_280) ** 2 + 2 * (0.1 * mmPerPoint) ** 2);
    expect(at(4_000)).toBeCloseTo(byHand, 6);
    expect(at(500)).toBeLessThan(at(4_000));
  });
});
