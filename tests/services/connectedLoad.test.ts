import { describe, expect, it } from 'vitest';
import { connectedLoad, continuousExamples, leastRatingAmps } from '../../src/services/connectedLoad.ts';
import type { ServicePoint } from '../../src/services/servicePoint.ts';

const power = (connection: string, loadKw: number | null, count = 1): ServicePoint => ({
  asker: { kind: 'piece', index: 0 },
  item: 'x',
  itemName: 'X',
  kind: 'power',
  trade: 'electrical',
  connection,
  count,
  loadKw,
  straight: 0,
  alongMm: 0,
  plusMinusMm: 0,
  fromFrontMm: 75,
  fromBackMm: 625,
  heightMm: 600,
  atPaper: { x: 0, y: 0 } as ServicePoint['atPaper'],
});

describe('connected load', () => {
  it('adds watts, not floats: 0.1 + 0.2 kW is 0.3 kW', () => {
    expect(connectedLoad([power('230 V', 0.1), power('230 V', 0.2)]).totalKw).toBe(0.3);
  });

  it('says how many points state no load', () => {
    expect(connectedLoad([power('230 V', null, 2), power('230 V', 1)])).toEqual({
      totalKw: 1,
      unstatedPoints: 2,
    });
  });

  it('takes 16 A continuous to a 20 A device (NEC 210.20(A), read in a manufacturer’s data bulletin)', () => {
    expect(leastRatingAmps({ continuousAmps: 16, otherAmps: 0 })).toBe(20);
    expect(leastRatingAmps({ continuousAmps: 16, otherAmps: 3 })).toBe(23);
  });

  it('shows the example factor only at North American voltages', () => {
    const [example, ...others] = continuousExamples([power('120 V 20 A', 1.92), power('230 V 16 A', 1.5)]);
    expect(others).toEqual([]);
    expect(example).toMatchObject({ amps: 16, leastRatingAmps: 20 });
    // The range states the load of all outlets of a point together.
    expect(continuousExamples([power('120 V 20 A', 3.84, 2)])[0]).toMatchObject({ amps: 16 });
  });
});
