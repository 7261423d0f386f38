import { beforeAll, describe, expect, it } from 'vitest';
import { liftPresets } from '../../src/access/liftPresets.ts';
import { travellingItem, travellingMadeToMeasure } from '../../src/access/travellingPiece.ts';
import { wayInOfProject } from '../../src/access/wayInOfProject.ts';
import type { Obstacle } from '../../src/access/wayInSchema.ts';
import { widestModule } from '../../src/access/widestModule.ts';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { Command } from '../../src/document/command.ts';
import type { RunId, WayInId } from '../../src/document/ids.ts';
import type { ProjectDocument } from '../../src/document/projectDocument.ts';
import type { DrawnObstacle } from '../../src/document/wayInRecords.ts';
import { poseProblem } from '../../src/fitting/poseProblem.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { stockItemSchema } from '../../src/stock/stockSchema.ts';
import { demoProject } from './demoProject.ts';

let demo: ProjectDocument;
let backBar: RunId;
let yard: WayInId;

beforeAll(async () => {
  demo = await demoProject();
  backBar = demo.runIds[1]!;
  yard = demo.chosenWayInId!;
});

const done = (document: ProjectDocument, command: Command): ProjectDocument => {
  const applied = applyCommand(document, command);
  if (!applied.ok) throw new Error(applied.refusal.message);
  return applied.document;
};

const turnOf = (document: ProjectDocument): DrawnObstacle => {
  const found = document.waysIn[yard]?.obstacles.find(({ kind }) => kind === 'turn');
  if (!found) throw new Error('the demo has a turn');
  return found;
};

const withTurn = (document: ProjectDocument, toMm: number, typedPlusMinusMm = 0): ProjectDocument => {
  const turn = turnOf(document);
  return done(document, {
    type: 'change-obstacle',
    wayInId: yard,
    obstacle: {
      ...turn,
      typedPlusMinusMm,
      sizes: {
        ...turn.sizes,
        toMm: { from: 'typed', lengthMm: toMm },
        // Too low to go on end.
        heightMm: { from: 'typed', lengthMm: 1_000 },
      },
    },
  });
};

const limitIn = (document: ProjectDocument): number | undefined | string => {
  const posed = poseProblem(document, backBar, demoRange);
  return posed.ok ? posed.problem.maxWidthMm : posed.code;
};

const evenTurn = (mm: number): readonly Obstacle[] => [
  { kind: 'turn', fromMm: mm, toMm: mm, heightMm: 1_000 },
];

describe('a way in of a project', () => {
  it('measures what was picked at the scale of its sheet, as the drawing dimensions it', () => {
    const wayIn = wayInOfProject(demo, yard);
    const sizes = wayIn?.measured.map((one) => one.sizes);
    // The demo plan letters these doors and faces so, in mm.
    expect(sizes?.[0]?.widthMm?.lengthMm).toBeCloseTo(1_200, 6);
    expect(sizes?.[1]?.fromMm?.lengthMm).toBeCloseTo(1_420, 6);
    expect(sizes?.[2]?.widthMm?.lengthMm).toBeCloseTo(900, 6);
    // JCGM 100:2008 5.1.2 eq. (10): two picks of 0.05 pt at 1:50 alone give 2 sqrt(2) 0.05 (25.4/72) 50 = 2.494 mm;
    // the scale's share can only add to it.
    const picksMm = 2 * Math.SQRT2 * 0.05 * (25.4 / 72) * 50;
    const { plusMinusMm = 0 } = sizes?.[0]?.widthMm ?? {};
    expect(plusMinusMm).toBeGreaterThan(picksMm);
    expect(plusMinusMm).toBeLessThan(picksMm + 0.1);
    expect(wayIn?.obstacles.map(({ uncertaintyMm }) => uncertaintyMm)).toEqual([5, 5, 5, 5]);
  });

  it('follows the scale: the same picks are half as wide where the known dimensions are', () => {
    const halved = Object.values(demo.references).reduce(
      (document, { id, lengthMm }) =>
        done(document, { type: 'change-reference', referenceId: id, changes: { lengthMm: lengthMm / 2 } }),
      demo,
    );
    const width = wayInOfProject(halved, yard)?.measured[0]?.sizes.widthMm?.lengthMm;
    expect(width).toBeCloseTo(600, 6);
  });

  it('says why an obstacle cannot be judged, and leaves it out', () => {
    const unscaled = Object.values(demo.references).reduce(
      (document, { id }) => done(document, { type: 'remove-reference', referenceId: id }),
      demo,
    );
    const wayIn = wayInOfProject(unscaled, yard);
    expect(wayIn?.obstacles).toEqual([]);
    expect(wayIn?.measured[0]?.fault).toMatch(/Yard door D08 is picked on a sheet that has no scale/);
    const [door] = demo.waysIn[yard]!.obstacles;
    const narrowed = done(demo, {
      type: 'change-obstacle',
      wayInId: yard,
      obstacle: { ...door!, sizes: { ...door!.sizes, leafMm: { from: 'typed', lengthMm: 1_300 } } },
    });
    expect(wayInOfProject(narrowed, yard)?.measured[0]?.fault).toMatch(/Yard door D08: leafMm.*leaves/);
  });
});

describe('the widest module that passes', () => {
  it('is the one that the closed form for equal passages gives, 2 sqrt(2) a - 2 w', () => {
    // Textbook ladder with a width: at 45 degrees, where a = b, L = 2 sqrt(2) a - 2 w. Modules of the demo range travel
    // 760 wide and 60 longer than they are; in 1 000 mm of height none over 900 goes on end, and on edge they are 980 wide.
    for (let mm = 980; mm <= 1_500; mm += 10) {
      const longest = Math.max(2 * Math.SQRT2 * mm - 2 * 760, mm);
      const widths = [600, 900, 1200, 1500, 1800, 2100, 2400].filter((width) => width + 60 <= longest);
      expect(widestModule(evenTurn(mm), demoRange, 700)?.widthMm, `${mm} mm`).toBe(widths.at(-1) ?? null);
    }
  });

  it('counts only what passes for sure, and says how far more might', () => {
    // 2 sqrt(2) x 1 310 - 1 520 = 2 185 lets 2 160 by but not 2 460; 10 mm less gives 2 157.
    const [turn] = evenTurn(1_310);
    expect(widestModule([turn!], demoRange, 700)).toEqual({ widthMm: 2100, widestMm: 2400, asDrawnMm: null });
    expect(widestModule([{ ...turn!, uncertaintyMm: 10 }], demoRange, 700)).toEqual({
      widthMm: 1800,
      widestMm: 2400,
      asDrawnMm: 2100,
    });
  });

  it('never falls when the turn gets wider', () => {
    let before = 0;
    for (let mm = 700; mm <= 1_700; mm += 7) {
      const widthMm = widestModule(evenTurn(mm), demoRange, 700)?.widthMm ?? 0;
      expect(widthMm).toBeGreaterThanOrEqual(before);
      before = widthMm;
    }
    expect(before).toBe(2_400);
  });
});

describe('a run tied to the way in', () => {
  it('takes nothing wider than what passes, follows the turn, and is free again when let go', () => {
    const tied = done(demo, { type: 'limit-runs', runIds: [backBar], isLimited: true });
    expect(limitIn(demo)).toBeUndefined();
    expect(limitIn(tied)).toBe(2_100);
    // DESIGN section 5, l <= min over t of (a sin t + b cos t - w) / (sin t cos t), by a plain scan of t.
    const longest = Math.min(
      ...Array.from({ length: 8_999 }, (_, step) => {
        const t = ((step + 1) / 9_000) * (Math.PI / 2);
        return (1_420 * Math.sin(t) + 1_000 * Math.cos(t) - 760) / (Math.sin(t) * Math.cos(t));
      }),
    );
    expect(longest).toBeLessThan(2_160);
    const widest = [600, 900, 1200, 1500, 1800].filter((width) => width + 60 <= longest).at(-1);
    expect(limitIn(withTurn(tied, 1_000))).toBe(widest);
    expect(limitIn(withTurn(tied, 1_700))).toBeUndefined();
    const other = tied.wayInIds.find((id) => id !== yard)!;
    expect(limitIn(done(tied, { type: 'choose-way-in', wayInId: other }))).toBeUndefined();
    expect(limitIn(done(tied, { type: 'limit-runs', runIds: [backBar], isLimited: false }))).toBeUndefined();
  });

  it('keeps the narrower of its own limit and that of the way in', () => {
    const tied = done(demo, { type: 'limit-runs', runIds: [backBar], isLimited: true });
    const own = (maxWidthMm: number) =>
      limitIn(done(tied, { type: 'change-run', runId: backBar, changes: { maxWidthMm } }));
    expect(own(1_200)).toBe(1_200);
    expect(own(3_000)).toBe(2_100);
  });

  it('is not fitted at all where no module passes', () => {
    const tied = done(demo, { type: 'limit-runs', runIds: [backBar], isLimited: true });
    expect(limitIn(withTurn(tied, 300))).toBe('nothing-passes-way-in');
  });
});

describe('a piece as it travels', () => {
  const bare = stockItemSchema.parse({
    id: 'bare-1200',
    name: 'Bare 1200',
    kind: 'module',
    widthMm: 1_200,
    support: 'standing',
  });

  it('takes size and mass from the range, and says where they are worked out instead', () => {
    const given = travellingItem(demoRange, demoRange.items.find(({ id }) => id === 'module-2400')!, {
      depthMm: 700,
    });
    expect(given).toMatchObject({
      sizeFrom: 'range',
      massFrom: 'range',
      piece: { lengthMm: 2_460, widthMm: 760 },
    });
    const worked = travellingItem(demoRange, bare, { depthMm: 700 });
    expect(worked).toMatchObject({ sizeFrom: 'geometry', massFrom: 'geometry', piece: { lengthMm: 1_260 } });
    // EN 10088-1: 7 900 kg/m3 for 1.4301; steel 7 850. Top 1.2 mm with 240 mm of upstand and edge, 3 mm core, 0.9 mm
    // shelf; two frames of 30 x 30 x 1.5 tube at 1.305 kg/m (EN 10219 corners), 2 x 740 + 2 x 700 mm each, two rails.
    const byHand =
      7_900 * 0.0012 * 1.2 * (0.7 + 0.24) +
      7_850 * 0.003 * 1.2 * 0.7 +
      7_900 * 0.0009 * 1.2 * 0.7 +
      1.305 * (2 * (2 * 0.74 + 2 * 0.7) + 2 * 1.2);
    expect(worked.piece.massKg).toBeCloseTo(byHand, 0);
  });

  it('is lower and lighter by its frames with them off, and a carried station has none', () => {
    const worked = travellingItem(demoRange, bare, { depthMm: 700 });
    const framesKg = 1.305 * 2 * (2 * 0.74 + 2 * 0.7);
    expect(worked.framesOff?.massKg).toBeCloseTo(worked.piece.massKg - framesKg, 0);
    expect(worked.framesOff?.heightMm).toBeLessThan(worked.piece.heightMm);
    const beer = demoRange.items.find(({ id }) => id === 'beer-station-600')!;
    expect(travellingItem(demoRange, beer, { depthMm: 700 }).framesOff).toBeNull();
    expect(travellingMadeToMeasure(demoRange, 2_350, { depthMm: 700 }, '1.L1').framesOff).not.toBeNull();
  });
});

describe('lifts to start from', () => {
  it('have the car sizes of EN 81-70 types 1 to 5 (read in a maker’s summary that cites it)', () => {
    expect(liftPresets.map(({ carWidthMm, carDepthMm }) => [carWidthMm, carDepthMm])).toEqual([
      [1000, 1300],
      [1100, 1400],
      [1100, 2100],
      [1600, 1400],
      [2000, 1400],
    ]);
  });
});
