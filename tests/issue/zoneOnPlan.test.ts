import { describe, expect, it } from 'vitest';
import { zoneOnPlan } from '../../src/issue/zoneOnPlan.ts';
import type { RunZone } from '../../src/measure/zonesOfRun.ts';

const at = (x: number, y: number) => ({ x, y });
const zone = (kind: RunZone['kind'], more: Partial<RunZone> = {}): RunZone => ({
  id: 'zone-1' as RunZone['id'],
  kind,
  name: 'Named',
  straight: 0,
  fromMm: 1000,
  toMm: 1600,
  ...more,
});

// Expected places follow from the lengths given; a door's arc is a circle about its hinge (Euclid, Elements I, def. 15).
describe('a zone on plan', () => {
  it('takes the whole depth, a bay with its clearances and with its equipment inside', () => {
    const clearance = { beforeMm: 50, afterMm: 100, heightMm: 820, doorSwingMm: 0 };
    const { ring, equipment, door } = zoneOnPlan(zone('bay', { clearance }), 700, false, at);
    expect(ring).toEqual([at(950, 0), at(1700, 0), at(1700, 700), at(950, 700)]);
    expect(equipment).toEqual([at(1000, 0), at(1600, 0), at(1600, 700), at(1000, 700)]);
    expect(door).toBeNull();
  });

  it('swings a door of the bay’s width on a circle about its hinge, into the aisle', () => {
    const clearance = { beforeMm: 0, afterMm: 0, heightMm: 0, doorSwingMm: 600 };
    const { door } = zoneOnPlan(zone('bay', { clearance }), 700, false, at);
    expect(door?.leaf).toEqual([at(1000, 700), at(1000, 1300)]);
    for (const { x, y } of door?.arc ?? []) {
      expect(Math.hypot(x - 1000, y - 700)).toBeCloseTo(600, 9);
      expect(y).toBeGreaterThanOrEqual(700);
    }
    expect(door?.arc).toHaveLength(13);
  });

  it('is a column’s own depth at the back where pieces pass it, and blocks the whole depth where not', () => {
    const column = zone('blocked', { column: { depthMm: 250, index: 0 } });
    expect(zoneOnPlan(column, 700, true, at)).toMatchObject({
      ring: [at(1000, 450), at(1600, 450), at(1600, 700), at(1000, 700)],
      columnRing: null,
    });
    expect(zoneOnPlan(column, 700, false, at)).toMatchObject({
      ring: [at(1000, 0), at(1600, 0), at(1600, 700), at(1000, 700)],
      columnRing: [at(1000, 450), at(1600, 450), at(1600, 700), at(1000, 700)],
    });
  });
});
