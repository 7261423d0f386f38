import { describe, expect, it } from 'vitest';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { siteMeasureList } from '../../src/quote/siteMeasure.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { seededRandom } from '../oracles/seededRandom.ts';
import { problemFor } from './quotedBar.ts';

const listFor = (problem: ReturnType<typeof problemFor>) => {
  const answer = fitRun(problem, { alternatives: 1 });
  return siteMeasureList([
    {
      name: 'Bar',
      number: 1,
      problem,
      alternative: answer.alternatives[0]!,
      corners: (problem.corners ?? []).map(() => ({ innerAngleDeg: 90, plusMinusDeg: 0.4 })),
      questions: answer.questions,
    },
  ]);
};

describe('the site-measure list', () => {
  it('calls a straight decisive wherever another length within its uncertainty gives another fit', () => {
    const random = seededRandom(11_2027);
    const cases = campaignSize({ sample: 20, full: 200 });
    let changing = 0;
    for (let round = 0; round < cases; round += 1) {
      const lengthMm = random.integer(20_000, 60_000) / 10;
      const at = (byMm: number) =>
        problemFor([lengthMm + byMm], { ends: [{ kind: 'wall' }, { kind: 'wall' }] });
      // The whole solver run anew at the shortest and the longest length: no part of the list takes part.
      const layoutAt = (byMm: number) => {
        const { pieces, leftovers } = fitRun(at(byMm), { alternatives: 1 }).alternatives[0]!;
        return JSON.stringify([pieces.map(({ item }) => item), leftovers.map(({ verdict }) => verdict)]);
      };
      const isChanging = layoutAt(0) !== layoutAt(-12) || layoutAt(0) !== layoutAt(12);
      if (isChanging) {
        changing += 1;
        expect(listFor(at(0))[0], `length ${lengthMm}`).toMatchObject({ kind: 'straight', decides: true });
      }
    }
    expect(changing).toBeGreaterThan(0);
  });

  it('says why, with the mark of what hangs on the length', () => {
    const exact = listFor(problemFor([2_420], { ends: [{ kind: 'wall' }, { kind: 'wall' }] }))[0]!;
    expect(exact).toMatchObject({ decides: true, drawn: 2_420, plusMinus: 12 });
    expect(exact.why).toContain('exactly');
    const rest = listFor(problemFor([2_428], { ends: [{ kind: 'wall' }, { kind: 'wall' }] }))[0]!;
    expect(rest.why).toMatch(/1\.L1: .* closes only if/);
  });

  it('lists each straight, both dimensions of each zone and each corner, the decisive ones first', () => {
    const list = listFor(
      problemFor([6_000, 3_000], {
        straights: [
          { lengthMm: 6_000, uncertaintyMm: 12, openings: [[2_600, 3_500]] },
          { lengthMm: 3_000, uncertaintyMm: 0 },
        ],
      }),
    );
    expect(list.map(({ kind }) => kind).toSorted()).toEqual([
      'corner-angle',
      'opening',
      'opening',
      'straight',
      'straight',
    ]);
    const flags = list.map(({ decides }) => decides);
    expect(flags).toEqual(flags.toSorted((one, other) => Number(other) - Number(one)));
  });
});
