import { describe, expect, it } from 'vitest';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { parseProblem } from '../../src/fitting/problemSchema.ts';
import { fitLines } from '../../src/quote/fitLines.ts';
import { scheduleOfRun } from '../../src/quote/schedule.ts';
import { siteMeasureList } from '../../src/quote/siteMeasure.ts';
import { topJoints } from '../../src/quote/topJoints.ts';
import { arcWedgePrice } from '../../src/quote/wedgePrice.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { fittingStock } from '../../src/stock/fittingStock.ts';

const radiusMm = 3200;
const lengthMm = Math.round((Math.PI / 2) * radiusMm * 1000) / 1000;
const parsed = parseProblem({
  depthMm: 620,
  straights: [
    { lengthMm: 4500, uncertaintyMm: 10 },
    { lengthMm, uncertaintyMm: 12, arc: { radiusMm, front: 'outside' } },
  ],
  corners: [{ turnDeg: 0 }],
  ends: [{ kind: 'wall' }, { kind: 'wall' }],
  stock: fittingStock(demoRange, { depthMm: 620 }).stock.filter(({ id }) => id.startsWith('module-')),
  fillerMaxMm: 150,
  overhangMaxMm: 60,
});
if (!parsed.ok) throw new Error(parsed.error.message);
const { problem } = parsed;
const [alternative] = fitRun(problem, { alternatives: 1 }).alternatives;
const wedges = alternative!.wedges!;

describe('the wedges of an arc', () => {
  it('are rows of the schedule, each with its mark, where it lies and what it costs', () => {
    const rows = scheduleOfRun({ name: 'Run 1', number: 1, problem }, alternative!, demoRange);
    const own = rows.filter(({ name }) => name.startsWith('Wedge on the arc'));
    expect(own.map(({ mark }) => mark)).toEqual(wedges.map((_, index) => `1.V${index + 1}`));
    for (const { price, fromMm, toMm } of own) {
      expect(price).toBeGreaterThan(0);
      expect(toMm! - fromMm!).toBeGreaterThan(0);
    }
    // Modules keep the width they are ordered by.
    const widths = rows
      .filter(({ straight, kind }) => straight === 2 && kind === 'module')
      .map(({ widthMm }) => widthMm);
    for (const widthMm of widths) expect(widthMm! % 300).toBe(0);
  });

  it('cost as a filler up to the widest filler, above it by the made-to-measure rule', () => {
    const { fillers, madeToMeasure } = demoRange;
    const wedge = { straight: 0, fromMm: 0, toMm: 0, backMm: 0, angleDeg: 10 };
    const narrow = arcWedgePrice(demoRange, { ...wedge, frontMm: fillers.maxMm }).price!;
    expect(narrow.base + narrow.ratePerMm * narrow.lengthMm).toBeCloseTo(
      (fillers.price ?? 0) + (fillers.pricePerMm ?? 0) * fillers.maxMm,
      6,
    );
    const wide = arcWedgePrice(demoRange, { ...wedge, frontMm: madeToMeasure.minMm + 50 }).price!;
    expect(wide.base).toBe(madeToMeasure.price);
    expect(arcWedgePrice(demoRange, { ...wedge, frontMm: madeToMeasure.maxMm + 500 }).price).toBeNull();
  });

  it('stand in the quote, and make the joints of the top', () => {
    const run = { name: 'Run 1', number: 1, problem, alternative: alternative!, zones: [] };
    const lines = fitLines(run as unknown as Parameters<typeof fitLines>[0], demoRange).filter(({ name }) =>
      name.startsWith('Wedge on the arc'),
    );
    expect(lines.reduce((sum, { quantity }) => sum + quantity, 0)).toBe(wedges.length);
    const without = topJoints(problem, { ...alternative!, wedges: [] });
    expect(topJoints(problem, alternative!)).toBeGreaterThan(without);
  });

  it('ask for chord and rise to be taken on site, from which the radius follows', () => {
    const rows = siteMeasureList([
      {
        name: 'Run 1',
        number: 1,
        problem,
        alternative: alternative!,
        corners: [{ innerAngleDeg: 180, plusMinusDeg: 1 }],
        questions: [],
      },
    ]);
    const chord = rows.find(({ what }) => what.startsWith('Chord'))!.drawn;
    const rise = rows.find(({ what }) => what.startsWith('Rise'))!.drawn;
    // r = c^2 / 8s + s / 2: the sagitta formula of handbooks turned round.
    expect(chord ** 2 / (8 * rise) + rise / 2).toBeCloseTo(radiusMm, 3);
    expect(chord).toBeCloseTo(radiusMm * Math.SQRT2, 2);
    expect(rows.some(({ kind }) => kind === 'corner-angle')).toBe(false);
  });
});
