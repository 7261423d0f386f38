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

  it('keeps what is marked as wide as it is; the free lengths between share the difference', () => {
    // Along a straight of 4 000: a bay 1 000 to 1 600, a flap that touches it to 2 500, a column at the far end.
    const zone = (id: string, kind: string, fromMm: number, toMm: number) => ({
      type: 'add-zone',
      zone: { id, runId: 'run-1', kind, name: id, vertexId: 'vertex-1', a: at(fromMm, 30), b: at(toMm, 30) },
    });
    const measuredAs = (lengthMm: number) => {
      const laid = documentAsMeasured(
        edited(
          documentWithSheet,
          acceptScale(50, 0.01),
          addRun([at(0, 0), at(4000, 0), at(4000, 2000)]),
          zone('zone-1', 'bay', 1000, 1600),
          zone('zone-2', 'opening', 1600, 2500),
          zone('zone-3', 'blocked', 4000, 3500),
          {
            type: 'measure-on-site',
            runId: 'run-1',
            vertexId: 'vertex-1',
            siteMeasure: { lengthMm, plusMinusMm: 3, measuredBy: '', measuredOn: '' },
          },
        ),
      );
      return Object.values(laid.zones).map(({ a, b }) =>
        [a, b].map(({ x, y }) => [x / pt(1), y / pt(1)].map((mm) => Math.round(mm * 1e6) / 1e6)),
      );
    };
    // 2 000 of the 4 000 are free, half of it before the bay: of 40 less, 20 go there and 20 between flap and column.
    expect(measuredAs(3960)).toEqual([
      [
        [980, 30],
        [1580, 30],
      ],
      [
        [1580, 30],
        [2480, 30],
      ],
      [
        [3960, 30],
        [3460, 30],
      ],
    ]);
    // Shorter than what is marked: no free length can give way, so all of it shrinks alike.
    expect(measuredAs(1000)[0]).toEqual([
      [250, 30],
      [400, 30],
    ]);
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
