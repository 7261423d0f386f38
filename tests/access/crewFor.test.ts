import { describe, expect, it } from 'vitest';
import { crewFor, teamCapacityKg } from '../../src/access/crewFor.ts';

// HSE L23, guidance paragraph 120 (read in a copy): "the capability of a two-person team is two-thirds the sum of
// their individual capabilities and for a three-person team the capability is half the sum".
describe('what a team may lift', () => {
  it('is 26.67 kg for two people of 20 kg each', () => {
    // Worked number on an infrastructure company's team-handling page, printed there as 26.6.
    expect(teamCapacityKg(2, 20)).toBeCloseTo(26.67, 2);
  });

  it('is 66 kg for two and 75 kg for three people of 50 kg each', () => {
    // Worked numbers of a training company's page; 66.67 is printed as 66.
    expect(Math.floor(teamCapacityKg(2, 50)!)).toBe(66);
    expect(teamCapacityKg(3, 50)).toBe(75);
  });

  it('is not given for four, for which the guidance prints no share', () => {
    expect(teamCapacityKg(4)).toBeNull();
  });
});

describe('people for a piece', () => {
  it.each([
    [0, 1, false],
    [25, 1, false],
    [25.01, 2, false],
    [33.3, 2, false],
    [33.4, 3, false],
    [37.5, 3, false],
    [37.6, 4, true],
    [120, 4, true],
  ])('for %f kg are %i (aid needed: %s)', (massKg, people, needsAid) => {
    expect(crewFor(massKg)).toMatchObject({ people, needsAid });
  });
});
