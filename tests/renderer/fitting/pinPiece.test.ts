import { describe, expect, it } from 'vitest';
import { isPin, pinCommand, releaseCommand } from '../../../renderer/fitting/pinPiece.ts';
import { applyPatch, reversePatch } from '../../../src/document/patch.ts';
import type { ProjectDocument } from '../../../src/document/projectDocument.ts';
import { drawnScaleOfRun } from '../../../src/measure/scaleOfSheet.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';
import { apply, documentOf, fitOf, runId } from './cornerRun.ts';

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
