import { describe, expect, it } from 'vitest';
import { lineGroupShare, lineWeightMm, type Shape } from '../../../src/issue/drawing/drawing.ts';
import { pointsOfPath } from '../../../src/issue/drawing/drawnPath.ts';
import { ratioForHeight, settleDrawing } from '../../../src/issue/drawing/settleDrawing.ts';
import { drawElevation } from '../../../src/issue/elevation/drawElevation.ts';
import { elevationOfRun } from '../../../src/issue/elevation/elevationOfRun.ts';
import type { PartName } from '../../../src/issue/fitOnPlan.ts';
import { fitOnPlan } from '../../../src/issue/fitOnPlan.ts';
import { scaleOfSheet } from '../../../src/measure/scaleOfSheet.ts';
import { pieceMarks } from '../../../src/quote/pieceMarks.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { campaignSize } from '../../campaign/campaignSize.ts';
import { type DrawnScene, demoBackBar, demoFrontBar, drawScene, frontThrough } from './elevationScenes.ts';
import { randomScene } from './randomScene.ts';

const boxOf = (shapes: readonly Shape[]) => {
  const points = shapes.flatMap(({ path }) => pointsOfPath(path));
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  return { left: Math.min(...xs), right: Math.max(...xs), bottom: Math.min(...ys), top: Math.max(...ys) };
};
const tagged = ({ drawing }: DrawnScene, tag: string, part?: PartName) =>
  drawing.shapes.filter((shape) => shape.tag === tag && (part === undefined || shape.part === part));
const itemOf = ({ alternative }: DrawnScene, index: number) =>
  demoRange.items.find(({ id }) => id === alternative?.pieces[index]?.item)!;
const toleranceMm = 1e-6;
/** The fit counts in whole micrometres, the tracing does not: where they meet, up to one may lie between. */
const fitStepMm = 0.001;

/** What must hold of the elevation of any fitted run. */
const check = (scene: DrawnScene): void => {
  const { drawing, alternative, document, runId } = scene;
  const run = document.runs[runId]!;
  const pieces = alternative?.pieces ?? [];

  // Every standing piece's top is drawn as wide as the stock range says that it is.
  for (const [index, piece] of pieces.entries()) {
    const item = itemOf(scene, index);
    const drawnPart = drawing.parts.find(({ part }) => part === `piece:${index}`);
    expect(drawnPart!.box.right - drawnPart!.box.left).toBeCloseTo(item.widthMm, 6);
    if (item.support !== 'standing') continue;
    const slab = boxOf(tagged(scene, 'top', `piece:${index}`));
    expect(Math.abs(slab.right - slab.left - item.widthMm)).toBeLessThan(toleranceMm);
    expect(piece.toMm - piece.fromMm).toBeCloseTo(item.widthMm, 6);
  }

  // The chains: without gap or overlap, each as long as the developed run; the totals are the traced lengths.
  const developedMm = drawing.chains[0]!.links.at(-1)!.toMm - drawing.chains[0]!.links[0]!.fromMm;
  for (const { links } of drawing.chains) {
    for (const [index, link] of links.slice(1).entries())
      expect(Math.abs(link.fromMm - links[index]!.toMm)).toBeLessThan(fitStepMm);
    const sumMm = links.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0);
    expect(Math.abs(sumMm - developedMm)).toBeLessThan(fitStepMm * links.length);
  }
  const tracedMm = scene.problem.straights.reduce((sum, { lengthMm }) => sum + lengthMm, 0);
  const totals = drawing.chains.at(-1)!.links.filter(({ quietText }) => quietText !== undefined);
  expect(totals).toHaveLength(scene.problem.straights.length);
  const totalMm = totals.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0);
  // The problem holds whole micrometres.
  expect(Math.abs(totalMm - tracedMm)).toBeLessThan(0.001 * totals.length);

  // No piece, leftover or zone lies over another, but for what a host carries.
  const hosted = new Set(pieces.flatMap(({ host }, index) => (host === undefined ? [] : [`piece:${index}`])));
  const own = drawing.parts.filter(({ part }) => !hosted.has(part) && !part.startsWith('corner'));
  for (const [index, { box }] of own.slice(1).entries())
    expect(box.left - own[index]!.box.right).toBeGreaterThan(-toleranceMm);
  for (const [index, { host }] of pieces.entries()) {
    if (host === undefined) continue;
    const inner = drawing.parts.find(({ part }) => part === `piece:${index}`)!.box;
    const outer = drawing.parts.find(({ part }) => part === `piece:${host}`)!.box;
    expect(inner.left).toBeGreaterThan(outer.left);
    expect(inner.right).toBeLessThan(outer.right);
  }

  // Feet stand on the floor, and nothing of the counter but a fold reaches below it.
  for (const foot of new Set(tagged(scene, 'foot').map(({ part }) => part)))
    expect(boxOf(tagged(scene, 'foot', foot)).bottom).toBe(0);
  expect(boxOf(drawing.shapes.filter(({ tag }) => tag !== 'fold')).bottom).toBe(0);

  // What lights up on the plan lights up here, under the same name.
  if (alternative) {
    const marks = pieceMarks(1, alternative);
    const onPlan = fitOnPlan(run, alternative, marks, scaleOfSheet(document, run.sheetId)!, demoRange);
    const here = new Set(drawing.parts.map(({ part }) => part));
    const missing = onPlan.map(({ part }) => part).filter((part) => !here.has(part));
    // A wedge in an inside corner has no width on the front: it is told above its fold instead.
    const told = new Set(drawing.callouts.map(({ part }) => part));
    expect(missing.filter((part) => !told.has(part))).toEqual([]);
  }
};

describe('the developed elevation of a fitted run', () => {
  it('keeps its measure on the demo’s front bar and back bar', () => {
    check(drawScene(demoFrontBar));
    check(drawScene(demoBackBar));
  });

  it('keeps its measure on random runs', { timeout: 300_000 }, () => {
    const count = campaignSize({ sample: 50, full: 1000 });
    for (let seed = 1; seed <= count; seed += 1) {
      try {
        check(drawScene(randomScene(seed)));
      } catch (error) {
        throw new Error(`seed ${seed}: ${error instanceof Error ? error.message : error}`, { cause: error });
      }
    }
  });

  it('stands a 2100 module on three frames', () => {
    // Common practice, no source: 2100 on three frames, six legs, of which the near three show.
    const scene = drawScene({
      name: 'One',
      frontLine: frontThrough([2100, 0]),
      ends: ['wall', 'wall'],
      changes: { allowances: { jointMm: 0, scribeMm: 0, endPanelMm: 0, claddingMm: 0 } },
    });
    expect(scene.alternative?.pieces.map(({ item }) => item)).toEqual(['module-2100']);
    const frames = tagged(scene, 'frame', 'piece:0').map((shape) => boxOf([shape]));
    expect(frames.map(({ left, right }) => [left, right])).toEqual([
      [0, 30],
      [1035, 1065],
      [2070, 2100],
    ]);
    // 30 mm square tube from the feet to the rail under the top.
    expect(frames.map(({ bottom, top }) => [bottom, top])).toEqual(frames.map(() => [160, 830]));
  });

  it('has the heights of the stock range', () => {
    const scene = drawScene(demoBackBar);
    const { heights } = demoRange;
    expect(boxOf(tagged(scene, 'top', 'piece:0'))).toMatchObject({ bottom: heights.topMm - 40, top: 900 });
    expect(boxOf(tagged(scene, 'upstand'))).toMatchObject({ bottom: 900, top: 900 + heights.upstandMm });
    expect(boxOf(tagged(scene, 'serving-shelf'))).toMatchObject({ bottom: 1110, top: heights.shelfMm });
    const brackets = tagged(scene, 'bracket').map((shape) => boxOf([shape]));
    for (const { left, right } of brackets) expect(right - left).toBeCloseTo(6, 6);
    const gaps = brackets.slice(1).map(({ left }, index) => left - brackets[index]!.left);
    expect(Math.max(...gaps)).toBeLessThanOrEqual(demoRange.extras.shelfBracket.spacingMm + toleranceMm);
    expect(scene.drawing.levels.map(({ heightMm, word }) => [word, heightMm])).toEqual([
      ['feet', 160],
      ['top', 900],
      ['upstand', 1100],
      ['shelf', 1140],
    ]);
  });
});

describe('seen from the working side', () => {
  it('has the run’s first point at the bartender’s left exactly where a cross product says so', () => {
    for (const backSide of ['left', 'right'] as const) {
      const { drawing } = drawScene({
        name: 'One',
        frontLine: frontThrough([3000, 0]),
        ends: ['wall', 'exposed'],
        backSide,
      });
      // The front runs along +x; the bartender stands at the back and looks at the front. With the back towards +y the
      // look is along -y, and a quarter turn to the left of (0, -1) is (1, 0): the far end is at the left hand.
      const look = backSide === 'left' ? { x: 0, y: -1 } : { x: 0, y: 1 };
      const leftHand = { x: -look.y, y: look.x };
      const isFirstAtLeft = leftHand.x < 0;
      expect(drawing.leftEnd.startsWith(isFirstAtLeft ? 'Start' : 'End')).toBe(true);
      expect(drawing.leftEnd.endsWith(isFirstAtLeft ? 'wall' : 'exposed')).toBe(true);
      const wall = boxOf(drawing.shapes.filter(({ tag }) => tag === 'wall'));
      expect(wall.left < 0).toBe(isFirstAtLeft);
    }
  });

  it('keeps an item’s left at the bartender’s left whichever way the run was traced', () => {
    for (const backSide of ['left', 'right'] as const) {
      const scene = drawScene({
        name: 'One',
        frontLine: frontThrough([4800, 0]),
        ends: ['wall', 'wall'],
        backSide,
        wanted: [{ item: 'cocktail-station-1200', straight: 0, nearMm: 2400, withinMm: 700 }],
      });
      const index = scene.alternative!.pieces.findIndex(({ item }) => item === 'cocktail-station-1200');
      const piece = scene.drawing.parts.find(({ part }) => part === `piece:${index}`)!;
      const pans = boxOf(tagged(scene, 'pan-cut-outs', `piece:${index}`));
      const tray = boxOf(tagged(scene, 'drip-tray', `piece:${index}`));
      expect(pans.left - piece.box.left).toBeGreaterThan(55);
      expect(pans.right - piece.box.left).toBeLessThan(275);
      expect(tray.left - piece.box.left).toBeCloseTo(850, 6);
    }
  });
});

describe('what can be recognised', () => {
  it('draws every feature of every station within the station’s width, under its own tag', () => {
    for (const item of demoRange.items) {
      if (!item.elevation) continue;
      const scene = drawScene({ name: 'Host', frontLine: frontThrough([2420, 0]), ends: ['wall', 'wall'] });
      const host = { straight: 0, item: 'module-2400', fromMm: 10, toMm: 2410 };
      const isHosted = item.support === 'drop-in' || item.support === 'countertop';
      const placed = { straight: 0, item: item.id, fromMm: 100, toMm: 100 + item.widthMm };
      const alternative = {
        ...scene.alternative!,
        pieces: isHosted ? [host, { ...placed, host: 0 }] : [placed],
        leftovers: [],
      };
      const index = alternative.pieces.length - 1;
      const run = scene.document.runs[scene.runId]!;
      const drawing = drawElevation({
        run,
        runNumber: 1,
        straights: [{ lengthMm: 2420, plusMinusMm: 5 }],
        corners: [],
        zones: [],
        problem: null,
        alternative,
        marks: pieceMarks(1, alternative),
        range: demoRange,
        unit: 'mm',
      });
      for (const { feature } of item.elevation) {
        const shapes = drawing.shapes.filter(({ tag, part }) => tag === feature && part === `piece:${index}`);
        expect(shapes.length, `${item.id}: ${feature}`).toBeGreaterThan(0);
        const part = drawing.parts.find((one) => one.part === `piece:${index}`)!;
        const box = boxOf(shapes);
        // A swan neck swung aside may reach over the edge of a narrow tap's own width, never over the item's.
        expect(box.left, `${item.id}: ${feature}`).toBeGreaterThan(part.box.left - 1);
        expect(box.right, `${item.id}: ${feature}`).toBeLessThan(part.box.right + 1);
      }
    }
  });

  it('draws as many taps, bottles, pans and baskets as the stock range counts', () => {
    const scene = drawScene(demoFrontBar);
    const index = scene.alternative!.pieces.findIndex(({ item }) => item === 'beer-station-600');
    const circles = tagged(scene, 'beer-taps', `piece:${index}`).filter(
      ({ path }) =>
        path.isClosed && path.steps.length === 4 && path.steps.every(({ kind }) => kind === 'curve'),
    );
    expect(circles).toHaveLength(6);
  });

  it('hatches each verdict its own way and says it in words', () => {
    const scene = drawScene({ name: 'Three', frontLine: frontThrough([3000, 0]), ends: ['wall', 'wall'] });
    const leftover = (fromMm: number, toMm: number, verdict: 'closes' | 'filler' | 'made-to-measure') => ({
      straight: 0,
      fromMm,
      toMm,
      widthMm: toMm - fromMm,
      verdict,
      confirmed: verdict !== 'closes',
    });
    const alternative = {
      ...scene.alternative!,
      pieces: [],
      leftovers: [
        leftover(0, 10, 'closes'),
        leftover(10, 130, 'filler'),
        leftover(130, 700, 'made-to-measure'),
      ],
    };
    const drawing = drawElevation({
      run: scene.document.runs[scene.runId]!,
      runNumber: 1,
      straights: [{ lengthMm: 3000, plusMinusMm: 12 }],
      corners: [],
      zones: [],
      problem: null,
      alternative,
      marks: pieceMarks(1, alternative),
      range: demoRange,
      unit: 'mm',
    });
    const hatches = [0, 1, 2].map(
      (index) => drawing.shapes.find(({ part }) => part === `leftover:${index}`)?.hatch,
    );
    expect(hatches).toEqual(['closes', 'filler', 'made-to-measure']);
    expect(drawing.callouts.map(({ mark, text }) => `${mark} ${text.replace(/\s/g, ' ')}`)).toEqual([
      '1.L1 closes 10 mm, measure on site',
      '1.L2 filler 120 mm',
      '1.L3 made to measure 570 mm',
    ]);
  });

  it('lifts a flap only where the opening’s name says that there is one', () => {
    const opening = (name: string) =>
      drawScene({
        name: 'One',
        frontLine: frontThrough([4200, 0]),
        ends: ['wall', 'wall'],
        zones: [{ kind: 'opening', name, straight: 0, fromMm: 1810, toMm: 2610 }],
      });
    expect(tagged(opening('Lifting flap'), 'flap-arc').length).toBeGreaterThan(0);
    expect(tagged(opening('Pass to the kitchen'), 'flap-arc')).toEqual([]);
    // The flapjack counter is no flap.
    expect(tagged(opening('Flapjacks'), 'flap-arc')).toEqual([]);
    const clear = opening('Pass to the kitchen');
    const box = clear.drawing.parts.find(({ part }) => part.startsWith('zone:'))!.box;
    const inGap = clear.drawing.shapes.filter((shape) => {
      const { left, right } = boxOf([shape]);
      return left > box.left + 1 && right < box.right - 1;
    });
    expect(inGap).toEqual([]);
  });

  it('hatches walls at wall ends, panels at exposed ends, and folds at corners with the angle', () => {
    const scene = drawScene(demoFrontBar);
    expect(tagged(scene, 'wall').filter(({ hatch }) => hatch === 'section')).toHaveLength(1);
    expect(tagged(scene, 'end-panel')).toHaveLength(1);
    expect(tagged(scene, 'fold')).toHaveLength(1);
    expect(scene.drawing.callouts.some(({ text }) => text === 'corner 1B, 90°')).toBe(true);
    expect(scene.drawing.caption).toContain('seen from the working side');
  });

  it('draws a run that is not fitted as its bare outline with its zones and lengths', () => {
    const { drawing } = drawScene(demoFrontBar, { isBare: true });
    expect(drawing.shapes.some(({ tag }) => tag === 'frame')).toBe(false);
    expect(drawing.shapes.some(({ tag }) => tag === 'outline')).toBe(true);
    expect(drawing.shapes.some(({ tag }) => tag === 'blocked')).toBe(true);
    expect(drawing.chains.at(-1)!.links.map(({ text }) => text.replace(/\s/g, ''))).toEqual(['8700', '2680']);
  });
});

describe('what is no longer true of a run', () => {
  it('draws the bare run where the fit at hand names straights that the run no longer has', () => {
    const fitted = drawScene(demoFrontBar);
    const retraced = drawScene(demoBackBar);
    const drawing = elevationOfRun(retraced.document, retraced.runId, {
      range: demoRange,
      unit: 'mm',
      problem: fitted.problem,
      alternative: fitted.alternative,
    });
    expect(drawing!.parts).toEqual([]);
    expect(drawing!.shapes.some(({ tag }) => tag === 'outline')).toBe(true);
  });

  it('draws a plain carcass for an item that the range no longer has', () => {
    const scene = drawScene(demoBackBar);
    const range = { ...demoRange, items: [] };
    const drawing = elevationOfRun(scene.document, scene.runId, {
      range,
      unit: 'mm',
      problem: null,
      alternative: scene.alternative,
    });
    const carcasses = drawing!.shapes.filter(({ tag, part }) => tag === 'frame' && part !== undefined);
    expect(new Set(carcasses.map(({ part }) => part)).size).toBe(scene.alternative!.pieces.length);
  });

  it('draws nothing of a run that is gone or whose sheet has no scale, and survives two picks at one place', () => {
    const { document, runId } = drawScene(demoBackBar);
    const nothing = { range: demoRange, unit: 'mm', problem: null, alternative: null } as const;
    expect(elevationOfRun({ ...document, runs: {} }, runId, nothing)).toBeNull();
    const run = document.runs[runId]!;
    const sheet = document.sheets[run.sheetId]!;
    const unscaled = { ...document, sheets: { [run.sheetId]: { ...sheet, acceptedScale: null } } };
    expect(elevationOfRun(unscaled, runId, nothing)).toBeNull();
    const point = run.frontLine[0]!;
    const dot = { ...run, frontLine: [point, { ...run.frontLine[1]!, at: point.at }] };
    const drawing = elevationOfRun({ ...document, runs: { [runId]: dot } }, runId, nothing)!;
    expect(settleDrawing(drawing, ratioForHeight(drawing, 52)).texts.length).toBeGreaterThan(0);
  });
});

describe('lines', () => {
  it('take widths of the series of ISO 128-2, at small scales too', () => {
    // The series 0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0 mm is from memory of ISO 128-2; 0.09 continues it.
    const series = [0.09, 0.13, 0.18, 0.25, 0.35, 0.5, 0.7];
    for (const ratio of [20, 60, 200])
      for (const width of Object.values(lineWeightMm)) {
        const drawn = width * lineGroupShare(ratio);
        expect(Math.min(...series.map((one) => Math.abs(one - drawn)))).toBeLessThan(0.01);
      }
  });
});
