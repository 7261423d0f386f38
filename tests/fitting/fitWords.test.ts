import { describe, expect, it } from 'vitest';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { displayWords } from '../../src/fitting/fitWords.ts';
import { type FitProblem, parseProblem } from '../../src/fitting/problemSchema.ts';

/** A bar of 20 ft with modules of 3 ft and 4 ft: sums that an estimator does in the head. 1 ft is 304.8 mm. */
const feet = (count: number) => Math.round(count * 304_800) / 1_000;
const problemOf = (fields: Partial<FitProblem>): FitProblem => {
  const parsed = parseProblem({
    depthMm: 762,
    straights: [{ lengthMm: feet(20) + 76.2, uncertaintyMm: 12.7 }],
    ends: [{ kind: 'wall' }, { kind: 'wall' }],
    stock: [3, 4].map((count) => ({ id: `${count}ft`, widthMm: feet(count), support: 'standing' })),
    fillerMaxMm: 70,
    ...fields,
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  return parsed.problem;
};

describe('the sentences of a fit', () => {
  it('are written in feet and inches where asked for', () => {
    const answer = fitRun(problemOf({}), { words: displayWords('ft-in') });
    expect(answer.explanation).toBe(
      `20'-3" = 4'-0" + 4'-0" + 4'-0" + 4'-0" + 4'-0" + 3"; 3" is more than one filler may be, so it is split 1 1/2" + 1 1/2" at the two walls.`,
    );
    expect(answer.questions.join(' ')).not.toMatch(/\dmm| mm/);
  });

  it('say ± on screen and +/- in the contract, and change nothing but the words', () => {
    const problem = problemOf({ straights: [{ lengthMm: feet(20), uncertaintyMm: 12.7 }] });
    const contract = fitRun(problem);
    const onScreen = fitRun(problem, { words: displayWords('mm') });
    const inFeet = fitRun(problem, { words: displayWords('ft-in') });
    expect(contract.questions[0]).toContain('+/- 12.7 mm');
    expect(onScreen.questions[0]).toContain('± 12.7 mm');
    expect(inFeet.questions[0]?.replace(/\s/g, ' ')).toContain('± 1/2"');
    const bare = ({ explanation: _, questions: _questions, alternatives, ...rest }: typeof contract) => [
      rest,
      alternatives.map(({ reason: _reason, ...layout }) => layout),
    ];
    expect(bare(onScreen)).toEqual(bare(contract));
    expect(bare(inFeet)).toEqual(bare(contract));
  });

  it('name a left-out station’s place, an alternative’s amounts and a clash in the same unit', () => {
    const words = displayWords('ft-in');
    const wanted = [{ id: 'w', item: '3ft', straight: 0, nearMm: 0, withinMm: 25.4 }];
    const out = fitRun(problemOf({ wanted }), { words }).alternatives[0]!.leftOut![0]!;
    expect(out.reason).toContain(`within 1" of 0"`);
    expect(out.reason).toContain(`the nearest place that works is 1'-6"`);
    const ends: FitProblem['ends'] = [{ kind: 'exposed' }, { kind: 'exposed' }];
    expect(fitRun(problemOf({ ends }), { words }).questions[0]).toBe(
      `Between the two exposed ends the nearest made-to-measure module is 4'-3" beside 4 x 4ft (3" from 4ft); with it the length of 20'-3" comes out.`,
    );
  });
});

describe('the made-to-measure module between two exposed ends', () => {
  const ends: FitProblem['ends'] = [{ kind: 'exposed' }, { kind: 'exposed' }];
  const stock = [600, 900, 1_200, 1_500, 1_800, 2_100, 2_400].map((widthMm) => ({
    id: `M${widthMm}`,
    widthMm,
    support: 'standing' as const,
  }));
  const ask = (lengthMm: number, fields: Partial<FitProblem> = {}) =>
    fitRun(problemOf({ straights: [{ lengthMm }], ends, stock, ...fields })).questions[0];

  it('has the fewest and widest stock pieces beside it of those as near to a stock width', () => {
    // 6 248 = 2 x 2 400 + 1 448; 52 short of a 1 500. So would be 2 348 beside 2 400 and 1 500.
    expect(ask(6_248)).toContain('is 1 448 mm beside 2 x M2400 (52 mm from M1500)');
  });

  it('is never wider than a piece may be', () => {
    // 100 over two 600s: a 700 may not be, a 500 beside the last 800 has no stock. 1 300 = 600 + 700 or 1 300.
    expect(ask(1_300, { maxWidthMm: 600 })).toBe(
      'Between the two exposed ends the nearest made-to-measure module is 100 mm beside 2 x M600 (500 mm from M600); with it the length of 1 300 mm comes out.',
    );
    expect(ask(580, { maxWidthMm: 500 })).toBe(
      'Between the two exposed ends no made-to-measure module of up to 500 mm closes 580 mm.',
    );
  });
});

describe('a straight without a length for pieces', () => {
  it('is said to be so', () => {
    const problem = problemOf({ straights: [{ lengthMm: 2_000, blocked: [[0, 2_000]] }] });
    expect(fitRun(problem).explanation).toBe('Straight 1: its sides and zones leave no length for pieces.');
  });
});
