import { describe, expect, it } from 'vitest';
import { moveStationCommand } from '../../../renderer/fitting/moveStation.ts';
import type { StationId, VertexId } from '../../../src/document/ids.ts';
import type { Run, WantedStation } from '../../../src/document/projectDocument.ts';
import { runDefaultsOf } from '../../../src/document/runDefaults.ts';
import { type PaperPoint, paperPoint } from '../../../src/geometry/point.ts';
import { demoRange } from '../../../src/stock/demoRange.ts';

/** 1 user unit is 10 mm of room. */
const scale = { ratio: 720 / 25.4, relativeUncertainty: 0, userUnit: 1 };
const run = {
  ...runDefaultsOf(demoRange),
  id: 'run-1',
  sheetId: 'sheet-1',
  name: 'Bar',
  frontLine: [paperPoint(0, 400), paperPoint(0, 0), paperPoint(900, 0)].map((at: PaperPoint, index) => ({
    id: `vertex-${index}` as VertexId,
    at,
    treatment: null,
  })),
  pickUncertaintyPt: 0,
} as unknown as Run;
const station = { id: 'station-1' as StationId } as WantedStation;

// Expected places follow from the coordinates: 10 mm of room a unit.
describe('moving a station to where it has room', () => {
  it('wants it so far along the straight', () => {
    expect(moveStationCommand(run, station, { straight: 1, atMm: 2500 }, scale)).toEqual({
      type: 'change-station',
      stationId: 'station-1',
      changes: { vertexId: 'vertex-1', at: { x: 250, y: 0 } },
    });
  });

  it('keeps to the drawing where the straight was measured on site', () => {
    const siteMeasure = { lengthMm: 10_000, typed: '10 m', plusMinusMm: 2, measuredBy: '', measuredOn: '' };
    const measured = {
      ...run,
      frontLine: run.frontLine.map((vertex, index) => (index === 1 ? { ...vertex, siteMeasure } : vertex)),
    } as Run;
    // 5 000 of 10 000 mm on site is the middle of what is drawn 9 000 long.
    expect(moveStationCommand(measured, station, { straight: 1, atMm: 5000 }, scale)).toMatchObject({
      changes: { at: { x: 450, y: 0 } },
    });
  });

  it('is nothing on a straight that the run no longer has', () => {
    expect(moveStationCommand(run, station, { straight: 2, atMm: 0 }, scale)).toBeNull();
  });
});
