import { describe, expect, it } from 'vitest';
import { applyCommand } from '../../src/document/applyCommand.ts';
import { documentAsMeasured } from '../../src/measure/documentAsMeasured.ts';
import { runAsTraced } from '../../src/measure/runAsTraced.ts';
import { straightsOf, wholeLengthOf } from '../../src/measure/straights.ts';
import { demoRange } from '../../src/stock/demoRange.ts';
import { acceptScale, addRun, at, documentWithSheet, edited, pt } from '../document/drawnDocument.ts';

const document = edited(
  documentWithSheet,
  acceptScale(50, 0.01),
  addRun([at(0, 0), at(3000, 4000), at(3000, 6000)]),
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
