import { describe, expect, it } from 'vitest';
import { checkFit } from '../../src/fitting/checkFit.ts';
import type { FitAnswer } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitProblem, parseProblem } from '../../src/fitting/problemSchema.ts';

const stock = [
  ...[600, 900, 1200].map((widthMm) => ({ id: `M${widthMm}`, widthMm, support: 'standing' as const })),
  { id: 'washer', widthMm: 600, support: 'standing' as const, fill: false },
  { id: 'rack', widthMm: 650, support: 'standing' as const, fill: false },
  { id: 'basin', widthMm: 300, support: 'drop-in' as const },
  { id: 'blender', widthMm: 200, support: 'countertop' as const },
];
type Rules = Partial<FitProblem['stock'][number]>;

const problemOf = (rules: Record<string, Rules>, fields: Partial<FitProblem> = {}): FitProblem => {
  const parsed = parseProblem({
    depthMm: 700,
    straights: [{ lengthMm: 6_000 }],
    ends: [{ kind: 'wall' }, { kind: 'wall' }],
    stock: stock.map((item) => ({ ...item, ...rules[item.id] })),
    fillerMaxMm: 150,
    ...fields,
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  return parsed.problem;
};
const wish = (id: string, item: string, nearMm: number, withinMm = 600) => ({
  id,
  item,
  straight: 0,
  nearMm,
  withinMm,
});
const fitted = (problem: FitProblem): FitAnswer => {
  const answer = fitRun(problem, { alternatives: 1 });
  expect(checkFit(problem, answer)).toEqual([]);
  return answer;
};
const pieceOf = (answer: FitAnswer, wanted: string) =>
  answer.alternatives[0]!.pieces.find((piece) => piece.wanted === wanted);

describe('a piece that must stand beside another', () => {
  const wanted = [wish('wash', 'washer', 2_000), wish('racks', 'rack', 3_600)];

  it('is drawn to it, where without the rule it stands away', () => {
    const free = fitted(problemOf({}, { wanted }));
    const bound = fitted(problemOf({ rack: { beside: ['washer'] } }, { wanted }));
    expect(bound.status).toBe('optimal');
    const gapMm = (answer: FitAnswer) => pieceOf(answer, 'racks')!.fromMm - pieceOf(answer, 'wash')!.toMm;
    expect(gapMm(free)).toBeGreaterThan(0);
    expect(gapMm(bound)).toBe(0);
  });

  it('is left out by name where nothing it needs can stand next to it', () => {
    const answer = fitted(problemOf({ rack: { beside: ['washer'] } }, { wanted: wanted.slice(1) }));
    expect(answer.alternatives[0]!.leftOut?.map((one) => one.wanted)).toEqual(['racks']);
  });

  it('is served by any one of several, also by what its host carries', () => {
    const rules = { basin: { beside: ['washer', 'blender'] } };
    const near = [wish('b', 'basin', 3_000), wish('m', 'blender', 3_900)];
    const answer = fitted(problemOf(rules, { wanted: near }));
    expect(answer.alternatives[0]!.score.unplaced).toBe(0);
  });
});

describe('a piece that keeps clear of another', () => {
  it('keeps its distance edge to edge, both ways round, and moves as little as that takes', () => {
    const wanted = [wish('b', 'basin', 3_000, 900), wish('m', 'blender', 3_300, 900)];
    for (const rules of [
      { basin: { clearOf: [{ item: 'blender', distanceMm: 500 }] } },
      { blender: { clearOf: [{ item: 'basin', distanceMm: 500 }] } },
    ]) {
      const answer = fitted(problemOf(rules, { wanted }));
      const [basin, blender] = [pieceOf(answer, 'b')!, pieceOf(answer, 'm')!];
      expect(Math.max(blender.fromMm - basin.toMm, basin.fromMm - blender.toMm)).toBe(500);
      // Wished 300 between centres, needed 150 + 500 + 100.
      expect(answer.alternatives[0]!.score.displacementMm).toBe(450);
      expect(answer.status).toBe('optimal');
    }
  });

  it('keeps it across an opening too', () => {
    const wanted = [wish('a', 'washer', 2_000, 900), wish('c', 'rack', 3_300, 900)];
    const straights = [{ lengthMm: 6_000, openings: [[2_400, 2_900] as [number, number]] }];
    const rules = { washer: { clearOf: [{ item: 'rack', distanceMm: 1_300 }] } };
    const answer = fitted(problemOf(rules, { wanted, straights }));
    expect(pieceOf(answer, 'c')!.fromMm - pieceOf(answer, 'a')!.toMm).toBeGreaterThanOrEqual(1_300);
  });

  it('leaves one of two out, with a proof, where their windows leave no room for the distance', () => {
    const wanted = [wish('b', 'basin', 3_000, 100), wish('m', 'blender', 3_300, 100)];
    const answer = fitted(
      problemOf({ basin: { clearOf: [{ item: 'blender', distanceMm: 900 }] } }, { wanted }),
    );
    expect(answer.status).toBe('optimal');
    expect(answer.alternatives[0]!.leftOut).toHaveLength(1);
  });
});

describe('a column that takes only the back', () => {
  const columns = [{ fromMm: 2_000, toMm: 2_300, depthMm: 200 }];
  const shallow = { M600: { depthMm: 500 }, M900: { depthMm: 500 }, M1200: { depthMm: 500 } };

  it('is passed by pieces that are shallow enough, and says so', () => {
    const answer = fitted(problemOf(shallow, { straights: [{ lengthMm: 6_000, columns }] }));
    expect(answer.alternatives[0]!.passedColumns).toEqual([{ straight: 0, column: 0 }]);
    expect(answer.alternatives[0]!.score.leftoverMm).toBe(0);
    expect(answer.explanation).toContain('in front of the column from 2 000 to 2 300 on straight 1');
  });

  it('stops the pieces where none is shallow enough, as a blocked zone does', () => {
    const stopped = fitted(problemOf({}, { straights: [{ lengthMm: 6_000, columns }] }));
    const blocked = fitted(problemOf({}, { straights: [{ lengthMm: 6_000, blocked: [[2_000, 2_300]] }] }));
    expect(stopped.alternatives).toEqual(blocked.alternatives);
  });

  it('lets no piece stand that is deeper than the run, and says why a wanted one is left out', () => {
    const problem = problemOf({ washer: { depthMm: 750 } }, { wanted: [wish('wash', 'washer', 2_000)] });
    expect(fitted(problem).alternatives[0]!.leftOut?.[0]?.reason).toBe(
      'washer is 750 mm deep, the run 700 mm.',
    );
  });
});

describe('the checker', () => {
  const codes = (problem: FitProblem, from: FitProblem) =>
    checkFit(problem, fitRun(from, { alternatives: 1 })).map(({ code }) => code);

  it('refuses fits that were made without the rules', () => {
    const wanted = [wish('wash', 'washer', 2_000), wish('racks', 'rack', 3_600)];
    const free = problemOf({}, { wanted });
    expect(codes(problemOf({ rack: { beside: ['washer'] } }, { wanted }), free)).toEqual(['not-beside']);
    const clear = { rack: { clearOf: [{ item: 'washer', distanceMm: 3_000 }] } };
    expect(codes(problemOf(clear, { wanted }), free)).toEqual(['not-clear']);
    expect(codes(problemOf({ rack: { depthMm: 800 } }, { wanted }), free)).toEqual(['too-deep']);
  });

  it('refuses a deep piece in front of a column that is said to be passed', () => {
    const columns = [{ fromMm: 2_000, toMm: 2_300, depthMm: 200 }];
    const straights = [{ lengthMm: 6_000, columns }];
    const shallow = { M600: { depthMm: 500 }, M900: { depthMm: 500 }, M1200: { depthMm: 500 } };
    expect(codes(problemOf({}, { straights }), problemOf(shallow, { straights }))).toContain(
      'too-deep-for-column',
    );
    const bogus = fitRun(problemOf({}), { alternatives: 1 });
    const claimed = {
      ...bogus,
      alternatives: [{ ...bogus.alternatives[0]!, passedColumns: [{ straight: 0, column: 3 }] }],
    };
    expect(checkFit(problemOf({}), claimed).map(({ code }) => code)).toEqual(['unknown-column']);
  });
});

describe('bad rules', () => {
  const codeOf = (change: Record<string, unknown>, straight: Record<string, unknown> = {}) => {
    const parsed = parseProblem({
      ...problemOf({}),
      straights: [{ lengthMm: 6_000, ...straight }],
      stock: [{ ...stock[0], ...change }],
    });
    return parsed.ok ? 'ok' : `${parsed.error.code} ${parsed.error.path}`;
  };

  it.each([
    [{ beside: [] }, {}, 'too-few stock[0].beside'],
    [{ beside: [''] }, {}, 'empty-text stock[0].beside[0]'],
    [{ clearOf: [{ item: 'M600', distanceMm: -1 }] }, {}, 'negative stock[0].clearOf[0].distanceMm'],
    [{ clearOf: [{ item: 'M600' }] }, {}, 'missing stock[0].clearOf[0].distanceMm'],
    [{ depthMm: 0 }, {}, 'zero stock[0].depthMm'],
    [{}, { columns: [{ fromMm: 10, toMm: 5, depthMm: 100 }] }, 'empty-zone straights[0].columns[0]'],
    [{}, { columns: [{ fromMm: 10, toMm: 50, depthMm: 0 }] }, 'zero straights[0].columns[0].depthMm'],
    [
      {},
      { columns: [{ fromMm: 10, toMm: 50, depthMm: 90 }], blocked: [[40, 90]] },
      'zones-overlap straights[0].blocked[0]',
    ],
    [
      {},
      { columns: Array.from({ length: 7 }, () => ({ fromMm: 1, toMm: 2, depthMm: 9 })) },
      'too-many straights[0].columns',
    ],
    [{ clearOf: [{ item: 'not-in-the-stock', distanceMm: 5 }], beside: ['nor-this'] }, {}, 'ok'],
  ])('%j %j are answered with %s', (change, straight, expected) => {
    expect(codeOf(change, straight)).toBe(expected);
  });
});

describe('distances of pieces in or on others', () => {
  it('leave an answer stopped with a bound where the steps do not reach, and are proven with more of them', () => {
    const modules = [600, 900].map((widthMm) => ({
      id: `M${widthMm}`,
      widthMm,
      support: 'standing' as const,
    }));
    const parsed = parseProblem({
      depthMm: 700,
      straights: [{ lengthMm: 2_110, uncertaintyMm: 10 }],
      ends: [{ kind: 'wall' }, { kind: 'wall' }],
      stock: [
        ...modules,
        { id: 'basin', widthMm: 320, support: 'drop-in', clearOf: [{ item: 'blender', distanceMm: 600 }] },
        { id: 'blender', widthMm: 300, support: 'countertop' },
      ],
      fillerMaxMm: 150,
      allowances: { jointMm: 2 },
      wanted: [
        { id: 'a', item: 'basin', straight: 0, nearMm: 700, withinMm: 250 },
        { id: 'b', item: 'blender', straight: 0, nearMm: 1_300, withinMm: 250 },
      ],
    });
    if (!parsed.ok) throw new Error(parsed.error.message);
    const few = fitRun(parsed.problem, { alternatives: 1, steps: 400_000 });
    const many = fitRun(parsed.problem, { alternatives: 1, steps: 500_000_000 });
    expect(many.status).toBe('optimal');
    expect(few.status).toBe('stopped');
    expect(few.bound!.displacementMm).toBeLessThanOrEqual(many.alternatives[0]!.score.displacementMm);
    expect(checkFit(parsed.problem, many)).toEqual([]);
  });
});
