import { describe, expect, it } from 'vitest';
import { checkFit } from '../../src/fitting/checkFit.ts';
import type { FitAlternative, FitAnswer } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitProblem, parseProblem } from '../../src/fitting/problemSchema.ts';
import { exhaustiveFit } from '../oracles/exhaustiveFit.ts';

/** Widths 600 to 2400 in steps of 300: common practice, no source. */
const modules = [600, 900, 1200, 1500, 1800, 2100, 2400].map((widthMm) => ({
  id: `M${widthMm}`,
  widthMm,
  support: 'standing' as const,
}));
const wall = { kind: 'wall' as const };
const exposed = { kind: 'exposed' as const };

const problemOf = (fields: Partial<FitProblem>): FitProblem => ({
  depthMm: 700,
  straights: [{ lengthMm: 6_248 }],
  ends: [wall, wall],
  stock: modules,
  fillerMaxMm: 150,
  ...fields,
});

const fitted = (
  fields: Partial<FitProblem>,
  options: Parameters<typeof fitRun>[1] = { alternatives: 1 },
): FitAnswer => {
  const problem = problemOf(fields);
  expect(parseProblem(problem).ok).toBe(true);
  const answer = fitRun(problem, options);
  expect(checkFit(problem, answer)).toEqual([]);
  return answer;
};

const first = (answer: FitAnswer): FitAlternative => answer.alternatives[0]!;
const items = (answer: FitAnswer) => first(answer).pieces.map(({ item }) => item);
const widths = (answer: FitAnswer) => first(answer).leftovers.map(({ widthMm }) => widthMm);
const verdicts = (answer: FitAnswer) => first(answer).leftovers.map(({ verdict }) => verdict);

describe('known answers', () => {
  it('fills 6 248 mm between two walls with two fillers and no made-to-measure piece, and says why', () => {
    const answer = fitted({});
    expect(answer.status).toBe('optimal');
    expect(items(answer)).toEqual(['M2400', 'M2400', 'M1200']);
    expect(widths(answer)).toEqual([124, 124]);
    expect(verdicts(answer)).toEqual(['filler', 'filler']);
    expect(first(answer).score).toEqual({
      unplaced: 0,
      madeToMeasure: 0,
      leftoverMm: 248,
      fillers: 2,
      pieces: 3,
      displacementMm: 0,
      price: 0,
    });
    expect(answer.explanation).toBe(
      '6 248 = 2 400 + 2 400 + 1 200 + 248; 248 is more than one filler may be, so it is split 124 + 124 at the two walls.',
    );
  });

  for (const [name, ends] of [
    ['walls', [wall, wall]],
    ['a wall and an exposed end', [wall, exposed]],
    ['an exposed end and a wall', [exposed, wall]],
  ] as const) {
    it(`fills an L of 4 200 x 2 700, front outside, depth 700, between ${name} as well as an exhaustive search`, () => {
      const straights = [{ lengthMm: 4_200 }, { lengthMm: 2_700 }];
      const fields = { straights, corners: [{ turnDeg: 90 }], ends };
      const answer = fitted(fields);
      expect(Object.values(first(answer).score)).toEqual(exhaustiveFit(problemOf(fields), 50)!.slice(0, 7));
    });
  }

  it('leaves L mod 300 with ceil(floor(L / 300) / 8) modules for every length from 600 mm on', () => {
    // Number theory: widths in units of 300 are 2..8 and 2, 3 make every integer from 2 on.
    for (let lengthMm = 600; lengthMm <= 12_000; lengthMm += 97) {
      const answer = fitted({ straights: [{ lengthMm }] });
      expect(first(answer).score.leftoverMm).toBe(lengthMm % 300);
      expect(first(answer).score.pieces).toBe(Math.ceil(Math.floor(lengthMm / 300) / 8));
    }
  });
});

describe('straights and corners', () => {
  const corner = (
    turnDeg: number,
    treatment?: 'first-through' | 'second-through' | 'corner-unit' | 'mitre',
  ) => ({
    straights: [{ lengthMm: 3_000 }, { lengthMm: 3_000 }],
    corners: [treatment ? { turnDeg, treatment } : { turnDeg }],
    cornerUnits: [{ id: 'C900', sizeMm: 900, price: 7 }],
  });
  /** Material of straights 0 and 1 at the corner: pieces and leftovers together. */
  const reach = (answer: FitAnswer): [number, number] => {
    const all = [...first(answer).pieces, ...first(answer).leftovers];
    return [
      Math.max(...all.filter(({ straight }) => straight === 0).map(({ toMm }) => toMm)),
      Math.min(...all.filter(({ straight }) => straight === 1).map(({ fromMm }) => fromMm)),
    ];
  };

  it.each([
    ['takes the depth off the second straight', 90, 'first-through', [3_000, 700]],
    ['takes the depth off the first straight', 90, 'second-through', [2_300, 0]],
    ['takes the unit off both', 90, 'corner-unit', [2_100, 900]],
    ['gives up depth x tan(45) on both', 90, 'mitre', [2_300, 700]],
    ['lets the first straight gain the depth', -90, 'first-through', [3_700, 0]],
    ['lets the second straight gain the depth', -90, 'second-through', [3_000, -700]],
    ['takes the unit less the depth off both', -90, 'corner-unit', [2_800, 200]],
    ['takes nothing', -90, 'mitre', [3_000, 0]],
  ] as const)('%s at a turn of %d made %s', (_, turnDeg, treatment, expected) => {
    const answer = fitted(corner(turnDeg, treatment));
    expect(first(answer).corners[0]!.treatment).toBe(treatment);
    expect(reach(answer)).toEqual(expected);
  });

  it('takes a wedge at another angle: depth x tan(|turn| / 2) outside, nothing inside', () => {
    const outside = fitted(corner(60));
    expect(first(outside).corners).toEqual([{ treatment: 'mitre' }]);
    const off = 700 * Math.tan(Math.PI / 6);
    expect(reach(outside)[0]).toBeCloseTo(3_000 - off, 2);
    expect(reach(outside)[1]).toBeCloseTo(off, 2);
    expect(reach(fitted(corner(-60)))).toEqual([3_000, 0]);
  });

  it('treats a turn within half a degree of 90 as a right angle, and one beyond as a mitre', () => {
    expect(first(fitted(corner(90.5))).corners[0]!.treatment).not.toBe('mitre');
    expect(first(fitted(corner(89.5))).corners[0]!.treatment).not.toBe('mitre');
    expect(first(fitted(corner(90.6))).corners[0]!.treatment).toBe('mitre');
  });

  it('counts a corner unit as one piece with its price, a wedge as one piece and one made to measure', () => {
    const unit = fitted(corner(90, 'corner-unit'));
    expect(first(unit).score.pieces).toBe(first(unit).pieces.length + 1);
    expect(first(unit).score.price).toBe(7);
    const wedge = fitted({ ...corner(90, 'mitre'), fillerMaxMm: 3_000 });
    expect(first(wedge).score.pieces).toBe(first(wedge).pieces.length + 1);
    expect(first(wedge).score.madeToMeasure).toBe(1);
  });

  it('moves both straights by cladding x tan(|turn| / 2): back outside, on inside', () => {
    const cladding = { allowances: { claddingMm: 20 } };
    expect(reach(fitted({ ...corner(90, 'first-through'), ...cladding }))).toEqual([2_980, 720]);
    expect(reach(fitted({ ...corner(-90, 'first-through'), ...cladding }))).toEqual([3_720, -20]);
  });

  it('takes scribe off at walls and end panels off at exposed ends', () => {
    const answer = fitted({
      straights: [{ lengthMm: 2_430 }],
      ends: [wall, exposed],
      allowances: { scribeMm: 10, endPanelMm: 20 },
    });
    expect(first(answer).pieces).toMatchObject([{ fromMm: 10, toMm: 2_410 }]);
  });

  it('refuses a corner unit smaller than the depth or wider than maxWidthMm', () => {
    const small = { ...corner(90, 'corner-unit'), cornerUnits: [{ id: 'C600', sizeMm: 600 }] };
    const answer = fitted(small);
    expect(answer).toMatchObject({ status: 'infeasible', clash: ['corners[0].treatment'] });
    expect(fitted({ ...corner(90, 'corner-unit'), maxWidthMm: 800 }).status).toBe('infeasible');
  });

  it('does not stand a corner unit in a blocked zone', () => {
    const fields = corner(90);
    const blocked = {
      ...fields,
      straights: [{ lengthMm: 3_000, blocked: [[2_400, 2_600]] as [number, number][] }, { lengthMm: 3_000 }],
    };
    expect(first(fitted(blocked)).corners[0]!.treatment).not.toBe('corner-unit');
  });

  it('names the smallest set of pins that clash', () => {
    const answer = fitted({
      straights: [{ lengthMm: 3_000 }, { lengthMm: 1_200 }, { lengthMm: 3_000 }],
      corners: [
        { turnDeg: 90, treatment: 'first-through' },
        { turnDeg: 90, treatment: 'second-through' },
      ],
    });
    expect(answer.status).toBe('infeasible');
    expect(answer.clash).toEqual(['corners[0].treatment', 'corners[1].treatment']);
  });

  it('says which straight is too short however its corners are made', () => {
    const answer = fitted({ straights: [{ lengthMm: 100 }], allowances: { scribeMm: 60 } });
    expect(answer).toMatchObject({ status: 'infeasible', clash: ['straights[0].lengthMm'] });
  });
});

describe('fitting', () => {
  it('sets neighbours one joint apart and takes no joint at ends or zones', () => {
    const answer = fitted({
      straights: [{ lengthMm: 1_202 + 1_202 + 100, blocked: [[1_202, 1_302]] }],
      stock: [modules[0]!],
      allowances: { jointMm: 2 },
    });
    expect(first(answer).pieces.map(({ fromMm, toMm }) => [fromMm, toMm])).toEqual([
      [0, 600],
      [602, 1_202],
      [1_302, 1_902],
      [1_904, 2_504],
    ]);
  });

  it('leaves nothing over at an exposed end, all of it at the wall', () => {
    const answer = fitted({ straights: [{ lengthMm: 2_500 }], ends: [exposed, wall] });
    expect(first(answer).leftovers).toMatchObject([{ fromMm: 2_400, toMm: 2_500 }]);
  });

  it('leaves a stretch with no piece as one leftover, not split', () => {
    const answer = fitted({ straights: [{ lengthMm: 250 }] });
    expect(first(answer).leftovers).toMatchObject([{ fromMm: 0, toMm: 250, verdict: 'made-to-measure' }]);
  });

  it('lets an exposed end move in over a stretch with no piece', () => {
    const answer = fitted({
      straights: [{ lengthMm: 250 }],
      ends: [{ kind: 'exposed', giveMm: [100, 0] }, wall],
    });
    expect(first(answer).leftovers).toMatchObject([
      { fromMm: 100, toMm: 250, widthMm: 150, verdict: 'filler' },
    ]);
  });

  it('moves an exposed end in or out by its give where that leaves nothing over', () => {
    const give: FitProblem['ends'][number] = { kind: 'exposed', giveMm: [40, 60] };
    expect(first(fitted({ straights: [{ lengthMm: 2_440 }], ends: [wall, give] })).pieces).toMatchObject([
      { toMm: 2_400 },
    ]);
    expect(first(fitted({ straights: [{ lengthMm: 2_340 }], ends: [wall, give] })).pieces).toMatchObject([
      { toMm: 2_400 },
    ]);
    expect(widths(fitted({ straights: [{ lengthMm: 2_450 }], ends: [wall, give] }))).toEqual([10]);
  });

  it('refuses two exposed ends that the stock cannot meet, and names the nearest made-to-measure module', () => {
    const answer = fitted({ straights: [{ lengthMm: 2_430 }], ends: [exposed, exposed] });
    expect(answer.status).toBe('infeasible');
    expect(answer.alternatives).toEqual([]);
    expect(answer.questions.join(' ')).toMatch(/made-to-measure module is \d/);
  });

  it('carries a carried piece between two standing ones', () => {
    const stock = [...modules, { id: 'tap', widthMm: 450, support: 'carried' as const }];
    const wanted = [{ id: 'w', item: 'tap', straight: 0, nearMm: 225, withinMm: 1_000 }];
    const answer = fitted({ stock, wanted });
    const at = items(answer).indexOf('tap');
    expect(at).toBeGreaterThan(0);
    expect(at).toBeLessThan(items(answer).length - 1);
  });

  it('lets a hosted piece into one standing piece, 30 mm from its sides by default, and does not count it', () => {
    const stock = [...modules, { id: 'basin', widthMm: 300, support: 'drop-in' as const, price: 5 }];
    const wanted = [{ id: 'w', item: 'basin', straight: 0, nearMm: 0, withinMm: 400 }];
    const answer = fitted({ straights: [{ lengthMm: 600 }], stock, wanted });
    expect(first(answer).pieces).toEqual([
      { straight: 0, item: 'M600', fromMm: 0, toMm: 600 },
      { straight: 0, item: 'basin', fromMm: 30, toMm: 330, wanted: 'w', host: 0 },
    ]);
    expect(first(answer).score).toMatchObject({ pieces: 1, displacementMm: 180, price: 5, unplaced: 0 });
  });

  it('uses stock as fill by default only where it stands, and otherwise where fill says so', () => {
    const only = (support: 'standing' | 'carried', fill?: boolean) =>
      items(fitted({ stock: [{ id: 'a', widthMm: 600, support, ...(fill === undefined ? {} : { fill }) }] }))
        .length;
    expect(only('standing')).toBeGreaterThan(0);
    expect(only('standing', false)).toBe(0);
    expect(only('carried')).toBe(0);
    const mixed = fitted({
      straights: [{ lengthMm: 1_650 }],
      stock: [modules[0]!, { id: 'rack', widthMm: 450, support: 'carried', fill: true }],
    });
    expect(items(mixed)).toEqual(['M600', 'rack', 'M600']);
  });

  it('bounds every piece by maxWidthMm, wanted or not, and leaves the wide one out by name', () => {
    const wanted = [{ id: 'w', item: 'M2400', straight: 0, nearMm: 1_200, withinMm: 500 }];
    const answer = fitted({ maxWidthMm: 1_200, wanted });
    expect(Math.max(...first(answer).pieces.map(({ fromMm, toMm }) => toMm - fromMm))).toBe(1_200);
    expect(first(answer).leftOut).toMatchObject([{ wanted: 'w', item: 'M2400' }]);
    expect(first(answer).score.unplaced).toBe(1);
  });

  it('keeps the centre of a wanted station within its tolerance, and says the nearest place where it cannot', () => {
    const wanted = [{ id: 'w', item: 'M600', straight: 0, nearMm: 100, withinMm: 150 }];
    const answer = fitted({ wanted });
    expect(first(answer).score.unplaced).toBe(1);
    expect(first(answer).leftOut![0]!.reason).toContain('the nearest place that works is 300 mm');
    const wide = fitted({ wanted: [{ ...wanted[0]!, withinMm: 200 }] });
    expect(first(wide).pieces.find((piece) => piece.wanted === 'w')).toMatchObject({ fromMm: 0, toMm: 600 });
    expect(first(wide).score.displacementMm).toBe(200);
  });
});

describe('leftovers', () => {
  it('closes what the uncertainty covers, all of it, and never confirms that', () => {
    const answer = fitted({ straights: [{ lengthMm: 6_012, uncertaintyMm: 12 }] });
    expect(new Set(verdicts(answer))).toEqual(new Set(['closes']));
    expect(first(answer).score).toMatchObject({ leftoverMm: 12, fillers: 0, madeToMeasure: 0 });
    expect(first(answer).leftovers.some(({ confirmed }) => confirmed)).toBe(false);
    expect(answer.questions.join(' ')).toContain('Measure straight 1 on site');
  });

  it('calls a part up to fillerMaxMm a filler and one above it made to measure', () => {
    expect(verdicts(fitted({ straights: [{ lengthMm: 6_150 }] }))).toEqual(['filler']);
    expect(verdicts(fitted({ straights: [{ lengthMm: 6_151 }] }))).toEqual(['filler', 'filler']);
    expect(verdicts(fitted({ straights: [{ lengthMm: 6_299 }], fillerMaxMm: 100 }))).toEqual([
      'made-to-measure',
    ]);
  });

  it('confirms a filler only where layout and verdict hold over the uncertainty', () => {
    const confirmed = (lengthMm: number, uncertaintyMm: number) =>
      first(fitted({ straights: [{ lengthMm, uncertaintyMm }] })).leftovers.map(
        (leftover) => leftover.confirmed,
      );
    expect(confirmed(6_100, 0)).toEqual([true]);
    expect(confirmed(6_100, 40)).toEqual([true]);
    expect(confirmed(6_100, 50)).toEqual([false]);
    expect(confirmed(6_140, 20)).toEqual([false]);
    expect(confirmed(6_248, 20)).toEqual([true, true]);
    expect(confirmed(6_248, 60)).toEqual([false, false]);
  });

  it('says what would close the run', () => {
    const answer = fitted({ straights: [{ lengthMm: 6_295 }], fillerMaxMm: 100 });
    expect(answer.questions.join(' ')).toMatch(
      /^5 mm more on straight 1 and using M1500 instead of M1200 replaces the made-to-measure piece; 295 mm less/,
    );
  });
});

describe('alternatives and orders', () => {
  it('gives several that differ in kind, each with its reason, the best first', () => {
    const stock = modules.map((item) => ({ ...item, price: item.widthMm === 2_400 ? 9_999 : item.widthMm }));
    const answer = fitted({ stock }, { alternatives: 4 });
    expect(answer.alternatives.length).toBeGreaterThan(1);
    expect(new Set(answer.alternatives.map(({ reason }) => reason)).size).toBe(answer.alternatives.length);
    expect(first(answer).score).toEqual(first(fitted({ stock })).score);
  });

  it('gives one when one is asked for', () => {
    expect(fitted({}).alternatives).toHaveLength(1);
  });

  it.each(['pieces', 'price', 'position'] as const)('leads with %s when asked to', (order) => {
    const stock = [
      ...modules.map((item) => ({ ...item, price: item.widthMm > 1_500 ? item.widthMm * 3 : item.widthMm })),
      { id: 'tap', widthMm: 455, support: 'carried' as const },
    ];
    const wanted = [{ id: 'w', item: 'tap', straight: 0, nearMm: 2_000, withinMm: 400 }];
    const led = first(fitted({ stock, wanted }, { alternatives: 1, order })).score;
    const best = first(fitted({ stock, wanted })).score;
    const name = { pieces: 'pieces', price: 'price', position: 'displacementMm' } as const;
    expect(led[name[order]]).toBeLessThanOrEqual(best[name[order]]);
    expect(led.unplaced).toBe(best.unplaced);
  });

  it.each(['pieces', 'price'] as const)(
    'never empties a run for %s where a made-to-measure piece is needed anyway',
    (order) => {
      const stock = modules.map((item) => ({ ...item, price: item.widthMm }));
      const fields = { straights: [{ lengthMm: 6_295 }], fillerMaxMm: 100, stock };
      const led = first(fitted(fields, { alternatives: 1, order }));
      expect(led.score.madeToMeasure).toBe(1);
      // As little made to measure as can be: a filler of 100 at one wall leaves 195 at the other.
      expect(led.leftovers.map(({ widthMm }) => widthMm).sort()).toEqual([100, 195]);
    },
  );

  it('stops at its budget with the best found and a proven bound, the same every time', () => {
    const stock = [
      ...[611, 703, 871, 1_013].map((widthMm) => ({
        id: `S${widthMm}`,
        widthMm,
        support: 'standing' as const,
      })),
      { id: 'basin', widthMm: 300, support: 'drop-in' as const },
    ];
    const wanted = [1, 2, 3, 4].map((index) => ({
      id: `w${index}`,
      item: 'basin',
      straight: 0,
      nearMm: index * 1_500,
      withinMm: 400,
    }));
    const fields = { straights: [{ lengthMm: 9_000 }], stock, wanted };
    const answer = fitted(fields, { alternatives: 1, steps: 2_000 });
    expect(answer.status).toBe('stopped');
    expect(answer.bound!.unplaced).toBeLessThanOrEqual(first(answer).score.unplaced);
    expect(fitted(fields, { alternatives: 1, steps: 2_000 })).toEqual(answer);
  });
});
