import { describe, expect, it } from 'vitest';
import { stretchOf } from '../../../renderer/rail/stretchOf.ts';

describe('a drawing that is stretched', () => {
  it('is told by the sheet’s own dimensions while the picked ones run one way only', () => {
    expect(stretchOf({}, { ratioX: 48.54, ratioY: 50 })).toBeCloseTo(0.0292, 12);
    expect(stretchOf(null, { ratioX: 51.5, ratioY: 50 })).toBeCloseTo(0.03, 12);
  });

  it('is judged by the picked dimensions once they run both ways', () => {
    expect(stretchOf({ ratioX: 50, ratioY: 50.01 }, { ratioX: 48.54, ratioY: 50 })).toBeNull();
    expect(stretchOf({ ratioX: 50, ratioY: 49 }, null)).toBeCloseTo(1 / 49, 12);
  });

  it('counts from half a per cent on, and nothing is said where nothing is known', () => {
    expect(stretchOf({ ratioX: 50.2, ratioY: 50 }, null)).toBeNull();
    expect(stretchOf({ ratioX: 50.3, ratioY: 50 }, null)).not.toBeNull();
    expect(stretchOf({}, {})).toBeNull();
    expect(stretchOf(null, null)).toBeNull();
  });
});
