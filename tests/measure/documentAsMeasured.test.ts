import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/document/applyCommand.ts';
import type { Command } from '../../src/document/command.ts';
import { emptyDocument, type ProjectDocument } from '../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../src/document/runDefaults.ts';
import { documentAsMeasured } from '../../src/measure/documentAsMeasured.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { straightsOf, wholeLengthOf } from '../../src/measure/straights.ts';
import { demoRange } from '../../src/stock/demoRange.ts';

/** Paper points of so many millimetres of the room at 1:50: 1 pt = 25.4/72 mm of paper (ISO 32000-1, 8.3.2.3). */
const pt = (mm: number) => mm / ((50 * 25.4) / 72);
const at = (xMm: number, yMm: number) => ({ x: pt(xMm), y: pt(yMm) });

const document = [
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
    scale: { ratio: 50, relativeUncertainty: 0.01, because: 'a test' },
  },
  {
    type: 'add-run',
    run: {
      ...runDefaultsOf(demoRange),
      id: 'run-1',
      sheetId: 'sheet-1',
      name: 'Front bar',
      frontLine: [at(0, 0), at(3000, 4000), at(3000, 6000)].map((point, index) => ({
        id: `vertex-${index + 1}`,
        at: point,
        treatment: null,
      })),
      pickUncertaintyPt: 0,
    },
  },
  {
    type: 'want-station',
    station: {
      id: 'station-1',
      runId: 'run-1',
      item: demoRange.items[0]!.id,
      vertexId: 'vertex-2',
      at: at(3000, 5000),
      withinMm: 0,
    },
  },
  {
    type: 'measure-on-site',
    runId: 'run-1',
    vertexId: 'vertex-1',
    siteMeasure: { lengthMm: 5100, plusMinusMm: 3, measuredBy: '', measuredOn: '' },
  },
].reduce<ProjectDocument>(
  (before, command) => {
    const applied = applyCommand(before, command as unknown as Command);
    if (!applied.ok) throw new Error(applied.refusal.message);
    return applied.document;
  },
  emptyDocument('Quay Street Tap', { id: demoRange.id, version: demoRange.version }),
);
const run = document.runs['run-1' as never]!;
const scale = { ratio: 50, relativeUncertainty: 0.01, userUnit: 1 };

describe('a run measured on site', () => {
  it('lies anew: the 3-4-5 straight is 5 100 long in its own direction, and what follows moves along', () => {
    const laid = documentAsMeasured(document);
    const points = laid.runs['run-1' as never]!.frontLine.map(({ at }) => at);
    // 5 100 along the direction (3, 4)/5 of Euclid's right-angled triangle: 3 060 and 4 080.
    expect(points[1]!.x).toBeCloseTo(pt(3060), 9);
    expect(points[1]!.y).toBeCloseTo(pt(4080), 9);
    expect(points[2]!.y - points[1]!.y).toBeCloseTo(pt(2000), 9);
    const station = laid.stations['station-1' as never]!;
    expect(station.at.x).toBeCloseTo(pt(3060), 9);
    expect(station.at.y).toBeCloseTo(pt(5080), 9);
  });

  it('has the measured length with the measure’s own +/-, and the whole adds variances (JCGM 100, 5.1.2)', () => {
    const [first, second] = straightsOf(runAsTraced(run), scale);
    expect(first).toMatchObject({ lengthMm: 5100, plusMinusMm: 3 });
    expect(second!.lengthMm).toBeCloseTo(2000, 6);
    expect(second!.plusMinusMm).toBeCloseTo(20, 6);
    const whole = wholeLengthOf(runAsTraced(run), scale);
    expect(whole.lengthMm).toBeCloseTo(7100, 6);
    expect(whole.plusMinusMm).toBeCloseTo(Math.hypot(3, 20), 6);
  });

  it('stays as it lies when it is laid again, and a project without measures is the same object', () => {
    const laid = documentAsMeasured(document);
    expect(documentAsMeasured(laid)).toEqual(laid);
    const taken = applyCommand(document, {
      type: 'measure-on-site',
      runId: 'run-1',
      vertexId: 'vertex-1',
      siteMeasure: null,
    } as never);
    if (!taken.ok) throw new Error(taken.refusal.message);
    expect(documentAsMeasured(taken.document)).toBe(taken.document);
  });
});
