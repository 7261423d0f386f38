import { describe, expect, it } from 'vitest';
import { checkedArcMitre } from '../../src/fitting/checkedArcs.ts';
import { checkFit } from '../../src/fitting/checkFit.ts';
import { cornerChoices } from '../../src/fitting/cornerChoices.ts';
import type { FitAnswer } from '../../src/fitting/fitAnswer.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitProblem, parseProblem } from '../../src/fitting/problemSchema.ts';
import { campaignSize } from '../campaign/campaignSize.ts';
import { curvedRun } from '../oracles/curvedRun.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const modules = [600, 900, 1200, 1500].map((widthMm) => ({
  id: `M${widthMm}`,
  widthMm,
  support: 'standing' as const,
  price: widthMm / 2,
}));

const problemOf = (value: object): FitProblem => {
  const parsed = parseProblem({
    depthMm: 600,
    ends: [{ kind: 'wall' }, { kind: 'wall' }],
    stock: modules,
    fillerMaxMm: 150,
    ...value,
  });
  if (!parsed.ok) throw new Error(`${parsed.error.code}: ${parsed.error.message}`);
  return parsed.problem;
};

const errorOf = (value: object): string => {
  try {
    problemOf(value);
  } catch (error) {
    return (error as Error).message;
  }
  return '';
};

const whole = (mm: number): number => Math.round(mm * 1000) / 1000;

/** A straight, an arc that goes on without a turn, a straight. */
const hockeyStick = (value: object = {}) =>
  problemOf({
    straights: [
      { lengthMm: 4000 },
      { lengthMm: whole((Math.PI / 2) * 3200), arc: { radiusMm: 3200, front: 'outside' } },
      { lengthMm: 3000 },
    ],
    corners: [{ turnDeg: 0 }, { turnDeg: 0 }],
    ...value,
  });

const bestOf = (answer: FitAnswer) => answer.alternatives[0]!;

describe('a straight that is an arc', () => {
  it('is filled with modules as chords, at the sectors that circle geometry gives', () => {
    const radiusMm = 3200;
    const problem = problemOf({ straights: [{ lengthMm: 5000, arc: { radiusMm, front: 'outside' } }] });
    const answer = fitRun(problem);
    expect(answer.status).toBe('optimal');
    expect(checkFit(problem, answer)).toEqual([]);
    const { pieces, wedges, leftovers } = bestOf(answer);
    for (const piece of pieces) {
      // Chord c = 2 r sin(angle / 2), sagitta s = r - sqrt(r^2 - c^2 / 4): handbook formulas, from memory.
      const angle = (piece.toMm - piece.fromMm) / radiusMm;
      expect(2 * radiusMm * Math.sin(angle / 2)).toBeCloseTo(piece.widthMm!, 2);
      expect(piece.overhangMm).toBeCloseTo(radiusMm - Math.sqrt(radiusMm ** 2 - piece.widthMm! ** 2 / 4), 2);
    }
    // All angles add up to the sweep: half sectors of the outer two, the wedges, the leftovers.
    const between = wedges!.filter(({ after, before }) => after !== undefined && before !== undefined);
    expect(between).toHaveLength(pieces.length - 1);
    for (const { frontMm, backMm } of between) {
      expect(frontMm).toBeGreaterThan(backMm);
      // Backs of pieces of one width touch; those of others lie at other distances from the centre.
      expect(backMm).toBeLessThan(60);
    }
    expect(leftovers.length).toBeLessThanOrEqual(2);
  });

  it('opens its wedges to the back where the front is inside', () => {
    const problem = problemOf({ straights: [{ lengthMm: 5000, arc: { radiusMm: 3200, front: 'inside' } }] });
    const answer = fitRun(problem);
    expect(checkFit(problem, answer)).toEqual([]);
    const between = bestOf(answer).wedges!.filter(
      ({ after, before }) => after !== undefined && before !== undefined,
    );
    for (const { frontMm, backMm } of between) expect(backMm).toBeGreaterThan(frontMm);
  });

  it('keeps out modules that the top would overhang too far', () => {
    const straights = [{ lengthMm: 5000, arc: { radiusMm: 3200, front: 'outside' as const } }];
    // 1200^2 / (8 x 3200) = 56.25, a little more exactly.
    const answer = fitRun(problemOf({ straights, overhangMaxMm: 57 }), { alternatives: 1 });
    expect(Math.max(...bestOf(answer).pieces.map(({ widthMm }) => widthMm!))).toBe(1200);
    const tighter = fitRun(problemOf({ straights, overhangMaxMm: 56 }), { alternatives: 1 });
    expect(Math.max(...bestOf(tighter).pieces.map(({ widthMm }) => widthMm!))).toBe(900);
  });

  it('says in words what stands on it', () => {
    const answer = fitRun(hockeyStick({ overhangMaxMm: 57 }), { alternatives: 1 });
    expect(answer.explanation).toMatch(
      /Straight 2: \d modules as chords on radius 3 200, \d wedges of [\d.°, and]+, the top overhangs up to \d+;/,
    );
    expect(answer.explanation).toContain('Corner 1: the front goes on without a turn, a plain joint.');
  });

  it('gives nothing up at a joint without a turn', () => {
    const problem = hockeyStick();
    const answer = fitRun(problem);
    expect(checkFit(problem, answer)).toEqual([]);
    const best = bestOf(answer);
    expect(best.corners.map(({ treatment }) => treatment)).toEqual(['joint', 'joint']);
    expect(best.score.madeToMeasure).toBe(
      best.leftovers.filter(({ verdict }) => verdict === 'made-to-measure').length,
    );
    // 4000 = 1500 + 1500 + 900 + 100 or the like: the straights fill as if each stood alone.
    const alone = fitRun(
      problemOf({ straights: [{ lengthMm: 4000 }], ends: [{ kind: 'wall' }, { kind: 'meets' }] }),
    );
    const leftOn = (straight: number) =>
      best.leftovers
        .filter((one) => one.straight === straight)
        .reduce((sum, { widthMm }) => sum + widthMm, 0);
    expect(leftOn(0)).toBeCloseTo(bestOf(alone).score.leftoverMm, 3);
  });

  it('takes wanted stations and hosts pieces by their own width', () => {
    const problem = hockeyStick({
      stock: [
        ...modules,
        { id: 'ICE', widthMm: 700, support: 'standing', fill: false, price: 900 },
        { id: 'RAIL', widthMm: 500, support: 'carried', fill: false, price: 200 },
        { id: 'BASIN', widthMm: 400, support: 'drop-in', price: 150 },
      ],
      wanted: [
        { id: 'a', item: 'ICE', straight: 1, nearMm: 2500, withinMm: 400 },
        { id: 'b', item: 'BASIN', straight: 1, nearMm: 1200, withinMm: 600 },
        { id: 'c', item: 'RAIL', straight: 1, nearMm: 3600, withinMm: 600 },
      ],
    });
    const answer = fitRun(problem);
    expect(checkFit(problem, answer)).toEqual([]);
    expect(bestOf(answer).score.unplaced).toBe(0);
  });

  it('leaves a station out that is too wide for the radius, and says so', () => {
    const problem = problemOf({
      straights: [{ lengthMm: 2500, arc: { radiusMm: 900, front: 'outside' } }],
      stock: [
        { id: 'M600', widthMm: 600, support: 'standing' },
        { id: 'ICE', widthMm: 1500, support: 'standing', fill: false },
      ],
      wanted: [{ id: 'a', item: 'ICE', straight: 0, nearMm: 1200, withinMm: 1000 }],
    });
    const answer = fitRun(problem);
    expect(bestOf(answer).leftOut![0]!.reason).toMatch(/too wide for a front of radius/);
  });

  it('is refused where its back has no radius, where it goes round more than once, and for corners that need straights', () => {
    const arc = { radiusMm: 600, front: 'outside' };
    expect(errorOf({ straights: [{ lengthMm: 900, arc }] })).toMatch(/^radius-too-small/);
    expect(errorOf({ straights: [{ lengthMm: 7000, arc: { ...arc, radiusMm: 1000 } }] })).toMatch(
      /^more-than-a-circle/,
    );
    const straights = [{ lengthMm: 900 }, { lengthMm: 900, arc: { ...arc, radiusMm: 2000 } }];
    expect(errorOf({ straights, corners: [{ turnDeg: 90, treatment: 'first-through' }] })).toMatch(
      /^treatment-beside-arc/,
    );
    expect(errorOf({ straights: [{ lengthMm: 900 }, { lengthMm: 900 }], corners: [{ turnDeg: 0 }] })).toMatch(
      /^zero/,
    );
  });

  it('is confirmed or not as any straight is, and asks what would close it', () => {
    const arc = { radiusMm: 3200, front: 'outside' };
    const answer = fitRun(problemOf({ straights: [{ lengthMm: 5000, uncertaintyMm: 30, arc }] }));
    expect(answer.questions.join(' ')).toMatch(/straight 1/);
  });
});

describe('a wedge beside an arc', () => {
  it('takes off what walking back along both fronts finds', () => {
    for (let seed = 1; seed <= campaignSize({ sample: 200, full: 5000 }); seed += 1) {
      const random = seededRandom(seed);
      const leg = () => ({
        lengthMm: 3000,
        ...(random.integer(0, 3) > 0
          ? {
              arc: {
                radiusMm: random.integer(1500, 9000),
                front: random.pick(['outside', 'inside'] as const),
              },
            }
          : {}),
      });
      const straights = [
        leg(),
        {
          lengthMm: 3000,
          arc: { radiusMm: random.integer(1500, 9000), front: random.pick(['outside', 'inside'] as const) },
        },
      ];
      const turnDeg = random.integer(10, 100) * random.pick([-1, 1]);
      const problem = problemOf({
        straights,
        corners: [{ turnDeg }],
        allowances: { claddingMm: random.pick([0, 20, 50]) },
      });
      const [choice] = cornerChoices(problem, 0);
      const checked = checkedArcMitre(problem, 0);
      if (choice === undefined) continue;
      expect(checked, `seed ${seed}`).toBeDefined();
      expect(choice.offFirstUm / 1000, `seed ${seed}`).toBeCloseTo(checked!.beforeMm, 2);
      expect(choice.offSecondUm / 1000, `seed ${seed}`).toBeCloseTo(checked!.afterMm, 2);
    }
  });

  it('is the usual one where the arc is nearly straight', () => {
    const problem = problemOf({
      straights: [{ lengthMm: 3000 }, { lengthMm: 3000, arc: { radiusMm: 199_999, front: 'outside' } }],
      corners: [{ turnDeg: 60 }],
    });
    const [choice] = cornerChoices(problem, 0);
    expect(choice!.offFirstUm / 1000).toBeCloseTo(600 * Math.tan(Math.PI / 6), -1);
  });
});

describe('random runs with arcs', () => {
  it('on one arc are as good as trying every selection of modules', () => {
    let compared = 0;
    for (let seed = 1; seed <= campaignSize({ sample: 150, full: 2000 }); seed += 1) {
      const random = seededRandom(seed);
      const radiusMm = random.integer(1500, 9000);
      const sweepDeg = random.integer(15, 170);
      const front = random.pick(['outside', 'inside'] as const);
      const depthMm = random.pick([500, 600, 700]);
      const end = () => random.pick(['wall', 'meets', 'exposed'] as const);
      const ends = [end(), end()] as const;
      const overhangMaxMm = random.pick([60, 120, 2000]);
      const stock = modules.filter(() => random.integer(0, 3) > 0);
      const fillerMaxMm = random.pick([100, 150, 250]);
      const lengthMm = whole((radiusMm * sweepDeg * Math.PI) / 180);
      const oracle = curvedRun({
        radiusMm,
        sweepDeg: ((lengthMm / radiusMm) * 180) / Math.PI,
        front,
        depthMm,
        ends: [...ends],
        stock,
        fillerMaxMm,
        overhangMaxMm,
      });
      // Between two exposed ends a rounding decides whether a selection takes the arc exactly.
      if (oracle.status === 'stopped' || ends.every((kind) => kind === 'exposed')) continue;
      const problem = problemOf({
        straights: [{ lengthMm, arc: { radiusMm, front } }],
        depthMm,
        ends: ends.map((kind) => ({ kind })),
        stock,
        fillerMaxMm,
        overhangMaxMm,
      });
      const answer = fitRun(problem, { alternatives: 1 });
      const label = `seed ${seed}`;
      expect(checkFit(problem, answer), label).toEqual([]);
      expect(answer.status, label).toBe(oracle.status);
      if (answer.status !== 'optimal') continue;
      compared += 1;
      const { score } = bestOf(answer);
      expect(score.madeToMeasure, label).toBe(oracle.score.madeToMeasure);
      // Sectors are rounded up to the micrometre.
      expect(Math.abs(score.leftoverMm - oracle.score.leftoverMm), label).toBeLessThan(0.05);
      expect(score.fillers, label).toBe(oracle.score.fillers);
      expect(score.pieces, label).toBe(oracle.score.pieces);
      expect(score.price, label).toBeCloseTo(oracle.score.price, 3);
    }
    expect(compared).toBeGreaterThan(50);
  });

  it('of several straights, zones, stations and joints are accepted by the checker', () => {
    for (let seed = 1; seed <= campaignSize({ sample: 12, full: 1000 }); seed += 1) {
      const random = seededRandom(seed + 5000);
      const count = random.integer(1, 3);
      const isArc = Array.from({ length: count }, () => random.integer(0, 2) > 0);
      if (!isArc.includes(true)) isArc[0] = true;
      const straights = isArc.map((bent) => {
        const lengthMm = random.integer(1800, 6000);
        const radiusMm = random.integer(1600, 9000);
        const atMm = random.integer(300, lengthMm - 700);
        return {
          lengthMm: bent ? Math.min(lengthMm, Math.floor(radiusMm * 3)) : lengthMm,
          uncertaintyMm: random.pick([0, 4, 15]),
          ...(bent ? { arc: { radiusMm, front: random.pick(['outside', 'inside'] as const) } } : {}),
          ...(random.integer(0, 3) === 0 ? { openings: [[atMm, atMm + 300]] } : {}),
        };
      });
      const corners = isArc.slice(1).map((bent, index) => ({
        turnDeg: bent || isArc[index] ? random.pick([0, 0, 35, -40, 90]) : random.pick([90, -90, 45]),
      }));
      const problem = problemOf({
        straights,
        corners,
        ends: [
          { kind: random.pick(['wall', 'exposed', 'meets'] as const), giveMm: [40, 40] },
          { kind: 'wall' },
        ].map(({ kind, giveMm }: { kind: string; giveMm?: number[] }) =>
          kind === 'exposed' ? { kind, giveMm } : { kind },
        ),
        stock: [
          ...modules,
          { id: 'ICE', widthMm: 700, support: 'standing', fill: false, price: 900 },
          { id: 'RAIL', widthMm: 500, support: 'carried', fill: false, price: 200 },
          { id: 'BASIN', widthMm: 400, support: 'drop-in', price: 150 },
        ],
        wanted: ['ICE', 'RAIL', 'BASIN', 'BASIN'].flatMap((item, index) =>
          random.integer(0, 1) === 0
            ? []
            : [
                {
                  id: `w${index}`,
                  item,
                  straight: random.integer(0, count - 1),
                  nearMm: random.integer(400, 3000),
                  withinMm: random.integer(100, 900),
                },
              ],
        ),
        allowances: {
          jointMm: random.pick([0, 2, 3]),
          scribeMm: random.pick([0, 10]),
          endPanelMm: random.pick([0, 25]),
          claddingMm: random.pick([0, 18]),
        },
        overhangMaxMm: random.pick([80, 500]),
      });
      const answer = fitRun(problem, { alternatives: 2 });
      expect(checkFit(problem, answer), `seed ${seed}: ${JSON.stringify(problem)}`).toEqual([]);
    }
  });

  it('are judged: a piece moved by a millimetre, a wedge left out and a wrong overhang are found', () => {
    const problem = problemOf({ straights: [{ lengthMm: 5000, arc: { radiusMm: 3200, front: 'outside' } }] });
    const answer = fitRun(problem, { alternatives: 1 });
    const best = bestOf(answer);
    const broken = (change: object): readonly string[] =>
      checkFit(problem, { ...answer, alternatives: [{ ...best, ...change }] }).map(({ code }) => code);
    const [first, ...others] = best.pieces;
    expect(
      broken({ pieces: [{ ...first!, fromMm: first!.fromMm + 1, toMm: first!.toMm + 1 }, ...others] }),
    ).toContain('wrong-joint');
    expect(broken({ pieces: [{ ...first!, toMm: first!.toMm + 1 }, ...others] })).toContain('wrong-width');
    expect(broken({ pieces: [{ ...first!, overhangMm: 1 }, ...others] })).toContain('wrong-overhang');
    expect(broken({ wedges: [] })).toContain('wedge-missing');
    expect(
      broken({ wedges: best.wedges!.map((wedge) => ({ ...wedge, frontMm: wedge.frontMm + 1 })) }),
    ).toContain('wrong-wedge');
  });
});
