import { describe, expect, it } from 'vitest';
import { feetOf, floorAt, topOf, workingHeights } from '../../src/measure/floorLevels.ts';

const heights = { topMm: 900, feetAdjustMm: 25 };
const level = { topHeightMm: null, floorAtStartMm: 0, floorAtEndMm: 0, raisedFloorBehindMm: 0 };

/** A fall of 1 : 80 is what floors to drains are commonly laid to (common practice, no source): 12.5 mm on a metre. */
const fallMm = (lengthMm: number) => lengthMm / 80;

describe('a run on a falling floor', () => {
  it('has its floor half way down in the middle', () => {
    expect(floorAt({ floorAtStartMm: 10, floorAtEndMm: -30 }, 0.5)).toBe(-10);
  });

  it('asks nothing of its feet on a level floor at the range’s height', () => {
    expect(feetOf(level, heights)).toMatchObject({ atStartMm: 0, atEndMm: 0, shortByMm: 0 });
  });

  it('takes up a 1 : 80 fall over 4 m with feet of 25 mm either way, and no more', () => {
    // 4 m fall by 50 mm, which is the whole travel of feet that turn 25 mm each way from the middle.
    expect(fallMm(4000)).toBe(50);
    expect(feetOf({ ...level, floorAtEndMm: -fallMm(4000) }, heights)).toMatchObject({
      atStartMm: -25,
      atEndMm: 25,
      shortByMm: 0,
    });
    expect(feetOf({ ...level, floorAtEndMm: -fallMm(4800) }, heights).shortByMm).toBeCloseTo(5, 9);
  });

  it('says by how much a typed top is out of the feet’s reach, and which would be best', () => {
    const feet = feetOf({ ...level, topHeightMm: 950, floorAtEndMm: -20 }, heights);
    expect(feet).toMatchObject({ atStartMm: 50, atEndMm: 70, shortByMm: 45, bestTopMm: 890 });
  });
});

describe('heights of a run', () => {
  it('stand above the middle of the floor where no top is typed', () => {
    expect(topOf({ ...level, floorAtStartMm: 100, floorAtEndMm: 60 }, heights)).toBe(980);
    expect(topOf(null, heights)).toBe(900);
  });

  it('are less from a raised working floor', () => {
    expect(workingHeights({ ...level, raisedFloorBehindMm: 150, floorAtEndMm: -20 }, heights)).toEqual({
      leastMm: 740,
      greatestMm: 760,
    });
  });
});
