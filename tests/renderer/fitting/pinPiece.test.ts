import { describe, expect, it } from 'vitest';
import { differenceFrom, figuresOf } from '../../../renderer/fitting/alternativeFigures.ts';
import { shortNameOf, withNames } from '../../../renderer/fitting/pieceNames.ts';
import { isPin, pinCommand, releaseCommand } from '../../../renderer/fitting/pinPiece.ts';
import { problemChanges } from '../../../renderer/fitting/problemChanges.ts';
import { applyCommand } from '../../../src/document/applyCommand.ts';
import type { Command } from '../../../src/document/command.ts';
import { applyPatch, reversePatch } from '../../../src/document/patch.ts';
import { emptyDocument, type ProjectDocument } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { checkFit } from '../../../src/fitting/checkFit.ts';
import { fitRun } from '../../../src/fitting/fitRun.ts';
import { poseProblem } from '../../../src/fitting/poseProblem.ts';
import { drawnScaleOfRun } from '../../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';

const runId = 'run-1' as never;
const apply = (document: ProjectDocument, command: unknown) => {
  const applied = applyCommand(document, command as Command);
  if (!applied.ok) throw new Error(applied.refusal.message);
  return applied;
};

/** An L of 7 350 and 4 920 mm at 1:79.9, an odd scale, so that no paper point is a round number. */
const documentOf = (): ProjectDocument => {
  const pt = (mm: number) => mm / ((79.9 * 25.4) / 72);
  const steps = [
    {
      type: 'add-sheet',
      sheet: {
        id: 'sheet-1',
        name: 'Ground floor',
        planSha256: '0'.repeat(64),
        planFileName: 'ground.pdf',
        pageNumber: 1,
        userUnit: 1,
        acceptedScale: null,
        layers: {},
      },
    },
    {
      type: 'accept-scale',
      sheetId: 'sheet-1',
      scale: { ratio: 79.9, relativeUncertainty: 0.001, because: 'a test' },
    },
    {
      type: 'add-run',
      run: {
        ...runDefaultsOf(demoRange),
        id: runId,
        sheetId: 'sheet-1',
        name: 'Front bar',
        frontLine: [
          { id: 'vertex-1', at: { x: 100.1, y: 200.2 }, treatment: null },
          { id: 'vertex-2', at: { x: 100.1 + pt(7350), y: 200.2 }, treatment: null },
          { id: 'vertex-3', at: { x: 100.1 + pt(7350), y: 200.2 + pt(4920) }, treatment: null },
        ],
        pickUncertaintyPt: 0,
      },
    },
    {
      type: 'want-station',
      station: {
        id: 'station-1',
        runId,
        item: 'beer-station-600',
        vertexId: 'vertex-1',
        at: { x: 100.1 + pt(3100), y: 200.2 },
        withinMm: 600,
      },
    },
  ];
  return steps.reduce<ProjectDocument>(
    (document, step) => apply(document, step).document,
    emptyDocument('Quay Street Tap', { id: demoRange.id, version: 1 }),
  );
};

const fitOf = (document: ProjectDocument) => {
  const posed = poseProblem(document, runId, demoRange);
  if (!posed.ok) throw new Error(posed.message);
  const answer = fitRun(posed.problem, { order: posed.order, alternatives: 4 });
  const [best] = answer.alternatives;
  if (!best) throw new Error(answer.explanation);
  expect(checkFit(posed.problem, answer)).toEqual([]);
  return { ...posed, answer, best };
};
let serial = 0;
const freshId = () => {
  serial += 1;
  return `pin${serial}`;
};
const pinned = (document: ProjectDocument, index: number) => {
  const run = document.runs[runId];
  const scale = run && drawnScaleOfRun(document, run);
  const piece = fitOf(document).best.pieces[index];
  const command = run && scale && piece && pinCommand(document, run, piece, { scale, freshId });
  if (!command) throw new Error('nothing to pin');
  return apply(document, command);
};

describe('holding a piece where it stands', () => {
  it('leaves the fit as it is, whichever piece is held, and all of them together', () => {
    const document = documentOf();
    const { best } = fitOf(document);
    const places = (of: typeof best) =>
      of.pieces.map(({ straight, item, fromMm, toMm }) => [straight, item, fromMm, toMm]);
    let all = document;
    for (const index of best.pieces.keys()) {
      expect(places(fitOf(pinned(document, index).document).best)).toEqual(places(best));
      all = pinned(all, index).document;
    }
    expect(places(fitOf(all).best)).toEqual(places(best));
    expect(Object.values(all.stations).filter(isPin)).toHaveLength(best.pieces.length);
  });

  it('keeps it there when the run around it changes', () => {
    const document = documentOf();
    const { best } = fitOf(document);
    const index = best.pieces.findIndex(({ straight, item }) => straight === 0 && item.startsWith('module'));
    const held = best.pieces[index];
    if (!held) throw new Error('no module on the first straight');
    const around = apply(pinned(document, index).document, {
      type: 'change-run',
      runId,
      changes: { maxWidthMm: Math.max(held.toMm - held.fromMm, 1200) },
    }).document;
    expect(fitOf(around).best.pieces).toContainEqual(
      expect.objectContaining({ item: held.item, fromMm: held.fromMm, toMm: held.toMm }),
    );
  });

  it('turns the wish of a wanted station into a pin and back, and asks no more for a module let go', () => {
    const document = documentOf();
    const { best } = fitOf(document);
    const beer = best.pieces.findIndex(({ wanted }) => wanted === 'station-1');
    const held = pinned(document, beer).document;
    expect(Object.keys(held.stations)).toEqual(['station-1']);
    const station = held.stations['station-1' as never];
    if (!station) throw new Error('the station is gone');
    expect(isPin(station)).toBe(true);
    const again = apply(held, releaseCommand(station, demoRange)).document;
    expect(again.stations['station-1' as never]).toMatchObject({ withinMm: 600 });

    const module = best.pieces.findIndex(({ item }) => item.startsWith('module'));
    const withModule = pinned(document, module).document;
    const pin = Object.values(withModule.stations).find(isPin);
    if (!pin) throw new Error('nothing is held');
    expect(apply(withModule, releaseCommand(pin, demoRange)).document.stations).toEqual(document.stations);
  });

  it('is one step to undo', () => {
    const document = documentOf();
    const { document: held, patch, label } = pinned(document, 0);
    expect(label).toBe('Keep a piece where it stands');
    expect(applyPatch(held, reversePatch(patch))).toEqual(document);
  });
});

describe('what has changed since a fit was kept', () => {
  const document = documentOf();
  const before = fitOf(document).key;
  const changedBy = (...commands: readonly unknown[]) =>
    problemChanges(
      before,
      fitOf(commands.reduce<ProjectDocument>((one, step) => apply(one, step).document, document)).key,
      'mm',
    );

  it('is nothing where nothing has', () => {
    expect(problemChanges(before, before, 'mm')).toEqual([]);
  });

  it('is told in words', () => {
    const pt = 200 / ((79.9 * 25.4) / 72);
    const corner = document.runs[runId]?.frontLine[2]?.at;
    if (!corner) throw new Error('no end');
    expect(
      changedBy({ type: 'move-vertex', runId, vertexId: 'vertex-3', to: { x: corner.x, y: corner.y - pt } }),
    ).toEqual(['straight 2 is 200\u00a0mm shorter']);
    expect(changedBy({ type: 'change-run', runId, changes: { order: 'price' } })).toEqual(['the order']);
    expect(
      changedBy(
        { type: 'remove-station', stationId: 'station-1' },
        { type: 'change-run', runId, changes: { depthMm: 650, fillerMaxMm: 90 } },
      ),
    ).toEqual(['the depth', '1 fewer wanted or held in place', 'a limit']);
  });

  it('includes the stock range', () => {
    const dearer = { ...demoRange, items: demoRange.items.map((item) => ({ ...item, price: 1 })) };
    const now = poseProblem(document, runId, dearer);
    expect(now.ok && problemChanges(before, now.key, 'mm')).toEqual(['the stock range']);
  });
});

describe('alternatives side by side', () => {
  const { problem, answer, best } = fitOf(documentOf());
  const figures = answer.alternatives.map((alternative) => figuresOf(problem, alternative, demoRange));

  it('count what the fits hold', () => {
    for (const [index, alternative] of answer.alternatives.entries()) {
      expect(figures[index]).toMatchObject({
        pieces: alternative.score.pieces,
        leftoverMm: alternative.score.leftoverMm,
        widestMm: Math.max(...alternative.pieces.map(({ fromMm, toMm }) => toMm - fromMm)),
      });
      // Extras and leftovers come on top of the stock pieces that the solver prices.
      expect(figures[index]?.price).toBeGreaterThan(alternative.score.price);
    }
  });

  it('say nothing of a fit that comes to the same, and the same thing the other way round', () => {
    const [one] = figures;
    if (!one) throw new Error('no fit');
    const given = { unit: 'mm', currency: 'EUR' } as const;
    expect(differenceFrom(one, one, given)).toEqual([]);
    const other = {
      ...one,
      pieces: one.pieces + 1,
      joints: one.joints + 2,
      leftoverMm: one.leftoverMm + 52,
      price: one.price - 340,
    };
    expect(differenceFrom(one, other, given)).toEqual([
      '52\u00a0mm more left over',
      '1 more piece',
      '2 more joints',
      'EUR\u00a0340 cheaper',
    ]);
    expect(differenceFrom(other, one, given)).toEqual([
      '52\u00a0mm less left over',
      '1 fewer piece',
      '2 fewer joints',
      'EUR\u00a0340 dearer',
    ]);
  });

  it('name pieces as people do', () => {
    expect(shortNameOf(demoRange, 'module-1200')).toBe('Module 1200');
    expect(shortNameOf(demoRange, 'no-such-piece')).toBe('no-such-piece');
    const document = documentOf();
    expect(
      withNames(
        '"station-1" is left out; 2 x module-1200 and module-1200s, corner-700.',
        demoRange,
        document,
      ),
    ).toBe('Beer station 600 is left out; 2 x Module 1200 and module-1200s, Corner unit 700 x 700.');
    expect(best.reason).not.toBe('');
  });
});
