import { describe, expect, it } from 'vitest';
import { displayWords } from '../../src/fitting/fitWords.ts';
import { type CurvedProblem, parseCurvedProblem } from '../oracles/curvedProblem.ts';
import { curvedRun } from '../oracles/curvedRun.ts';

const problemOf = (fields: Partial<CurvedProblem>): CurvedProblem => {
  const parsed = parseCurvedProblem({
    radiusMm: 4_000,
    sweepDeg: 60,
    front: 'outside',
    depthMm: 700,
    ends: ['meets', 'meets'],
    stock: [600, 900, 1_200].map((widthMm) => ({ id: `M${widthMm}`, widthMm, price: widthMm / 2 })),
    fillerMaxMm: 150,
    ...fields,
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  return parsed.problem;
};

/** A module's corners in its own plane, from circle geometry: its face on the line, its axis through the centre. */
const cornersOf = ({ front, radiusMm, depthMm }: CurvedProblem, widthMm: number) => {
  const half = widthMm / 2;
  // A chord's distance from the centre is R cos a with sin a = w / 2R; a tangent's is R.
  const face = front === 'outside' ? radiusMm * Math.cos(Math.asin(half / radiusMm)) : radiusMm;
  const back = front === 'outside' ? face - depthMm : face + depthMm;
  return { frontRad: Math.atan2(half, face), backRad: Math.atan2(half, back), half, face, back };
};

describe('a run that is one curve, as the oracle has it', () => {
  it('says how far its outermost modules stand off the lines across the counter at its ends', () => {
    // Drawn with the line across the counter as the x axis and the module turned by half of what it takes.
    for (const front of ['outside', 'inside'] as const) {
      const problem = problemOf({ front, stock: [{ id: 'M', widthMm: 1_200 }] });
      const fit = curvedRun(problem);
      const { frontRad, backRad, half, face, back } = cornersOf(problem, 1_200);
      const turn = Math.max(frontRad, backRad);
      const off = (out: number) => Math.abs(out * Math.sin(turn) - half * Math.cos(turn));
      for (const wedge of fit.endWedges) {
        expect(wedge.frontMm).toBeCloseTo(off(face), 2);
        expect(wedge.backMm).toBeCloseTo(off(back), 2);
        expect((wedge.angleDeg * Math.PI) / 180).toBeCloseTo(turn, 8);
      }
      expect(fit.endWedges.map(({ at }) => at)).toEqual(['start', 'end']);
    }
  });

  it('closes within the uncertainty of its front, and confirms only what holds over it', () => {
    // One tangent module of 1 200 at R 4 000 takes 2 atan(600 / 4 000) = 17.0615 degrees, 1 191.13 of arc.
    const angleDeg = 2 * Math.atan(0.15) * (180 / Math.PI);
    const arcDeg = (mm: number) => (mm / 4_000) * (180 / Math.PI);
    const leftOver = (mm: number, uncertaintyMm: number) =>
      curvedRun(
        problemOf({
          front: 'inside',
          stock: [{ id: 'M', widthMm: 1_200 }],
          sweepDeg: angleDeg + arcDeg(mm),
          uncertaintyMm,
        }),
      ).leftovers.map(({ verdict, arcMm, confirmed }) => [verdict, Math.round(arcMm), confirmed]);
    expect(leftOver(8, 10)).toEqual([
      ['closes', 4, false],
      ['closes', 4, false],
    ]);
    expect(leftOver(100, 10)).toEqual([['filler', 100, true]]);
    expect(leftOver(145, 10)).toEqual([['filler', 145, false]]);
    expect(leftOver(400, 10)).toEqual([['made-to-measure', 400, true]]);
  });

  it('explains itself in the operator’s unit', () => {
    const problem = problemOf({ sweepDeg: 45 });
    // A chord of 1 200 has its face at sqrt(4 000^2 - 600^2) = 3 954.744 and takes 2 atan(600 / 3 254.744); the wedge is
    // 8 000 sin(atan(600 / 3 254.744) - asin(600 / 4 000)), what is left 4 000 (45 degrees - 4 atan(600 / 3 254.744)).
    expect(curvedRun(problem).explanation).toBe(
      'An arc of 3 141.593 mm along the front takes 2 x 1 200; the wedge between them is made to measure, up to 253.808 mm wide; the top overhangs a front by up to 45.256 mm; 112.399 mm is a filler; 112.399 mm is a filler.',
    );
    expect(curvedRun(problem, displayWords('ft-in')).explanation).toContain(`An arc of 10'-3 11/16" along`);
  });
});
