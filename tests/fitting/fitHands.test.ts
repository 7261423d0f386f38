import { describe, expect, it } from 'vitest';
import { checkFit } from '../../src/fitting/checkFit.ts';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { type FitProblem, parseProblem, type StockItem } from '../../src/fitting/problemSchema.ts';

/*
 * Which way round a handed piece stands: its door or drainer needs room at its hand. Common practice, no source; the
 * expected layouts are worked out by hand.
 */
const sinkOf = (hand: 'left' | 'right', fields: Partial<StockItem> = {}): StockItem => ({
  id: `sink-${hand}`,
  widthMm: 900,
  support: 'standing',
  fill: false,
  hand,
  handOf: 'sink',
  ...fields,
});
const module = (widthMm: number): StockItem => ({ id: `M${widthMm}`, widthMm, support: 'standing' });

const problemOf = (fields: Partial<FitProblem>): FitProblem => {
  const parsed = parseProblem({
    depthMm: 700,
    straights: [{ lengthMm: 2_100 }],
    ends: [{ kind: 'wall' }, { kind: 'wall' }],
    stock: [module(1_200), sinkOf('left'), sinkOf('right')],
    fillerMaxMm: 150,
    wanted: [{ id: 'w', item: 'sink', straight: 0, nearMm: 450, withinMm: 0 }],
    ...fields,
  });
  if (!parsed.ok) throw new Error(parsed.error.message);
  return parsed.problem;
};

const placed = (fields: Partial<FitProblem>): string | undefined => {
  const problem = problemOf(fields);
  const answer = fitRun(problem);
  expect(answer.status).toBe('optimal');
  expect(checkFit(problem, answer)).toEqual([]);
  return answer.alternatives[0]!.pieces.find(({ wanted }) => wanted === 'w')?.item;
};

describe('a station wanted by the name of a pair', () => {
  it('takes the hand that is not against the wall', () => {
    // At the start, which the bartender has on the left: the left side is at the wall, so the right one must be free.
    expect(placed({})).toBe('sink-right');
    expect(placed({ wanted: [{ id: 'w', item: 'sink', straight: 0, nearMm: 1_650, withinMm: 0 }] })).toBe(
      'sink-left',
    );
  });

  it('turns round where the start is at the bartender’s right', () => {
    expect(placed({ startHand: 'right' })).toBe('sink-left');
  });

  it('takes either, the cheaper, where both sides are free', () => {
    const straights = [{ lengthMm: 3_300 }];
    const wanted = [{ id: 'w', item: 'sink', straight: 0, nearMm: 1_650, withinMm: 0 }];
    const stock = [module(1_200), sinkOf('left', { price: 9 }), sinkOf('right', { price: 8 })];
    expect(placed({ straights, wanted, stock })).toBe('sink-right');
    expect(placed({ straights, wanted, stock, startHand: 'right' })).toBe('sink-right');
  });

  it('is free at an exposed end, an opening and a bay, not at a blocked zone, a column or a corner', () => {
    const only = [{ id: 'w', item: 'sink', hand: 'left' as const, straight: 0, nearMm: 450, withinMm: 0 }];
    const exposed = { kind: 'exposed' as const };
    expect(placed({ wanted: only })).toBeUndefined();
    expect(placed({ wanted: only, ends: [exposed, { kind: 'wall' }] })).toBe('sink-left');
    expect(placed({ wanted: only, ends: [{ kind: 'meets' }, { kind: 'wall' }] })).toBeUndefined();
    const behind = (straight: FitProblem['straights'][number]) =>
      placed({ straights: [straight], wanted: [{ ...only[0]!, nearMm: 1_450 }] });
    expect(behind({ lengthMm: 3_100, openings: [[0, 1_000]] })).toBe('sink-left');
    expect(behind({ lengthMm: 3_100, bays: [{ fromMm: 0, toMm: 1_000 }] })).toBe('sink-left');
    expect(behind({ lengthMm: 3_100, blocked: [[0, 1_000]] })).toBeUndefined();
    const column = { fromMm: 0, toMm: 1_000, depthMm: 300 };
    expect(behind({ lengthMm: 3_100, columns: [column] })).toBeUndefined();
  });

  it('does not count a leftover as room: a filler closes it up', () => {
    const straights = [{ lengthMm: 1_000 }];
    expect(
      placed({ straights, wanted: [{ id: 'w', item: 'sink', straight: 0, nearMm: 500, withinMm: 100 }] }),
    ).toBeUndefined();
  });

  it('moves away from the corner when only that hand is to be had', () => {
    const problem = problemOf({
      straights: [{ lengthMm: 2_100 }],
      stock: [module(600), module(1_200), sinkOf('left')],
      wanted: [{ id: 'w', item: 'sink-left', straight: 0, nearMm: 450, withinMm: 1_000 }],
    });
    const [first] = fitRun(problem).alternatives;
    // A 600 to its left is the least that frees it.
    expect(first!.pieces.map(({ item, fromMm }) => [item, fromMm])).toEqual([
      ['M600', 0],
      ['sink-left', 600],
      ['M600', 1_500],
    ]);
  });

  it('says why where neither hand serves, and what hand was asked for', () => {
    const problem = problemOf({ straights: [{ lengthMm: 900 }] });
    const [first] = fitRun(problem).alternatives;
    expect(first!.leftOut?.[0]?.reason).toBe(
      'no layout has it within 0 mm of 450 mm as sink-left or sink-right together with the other stations, and no other place on the straight works.',
    );
  });
});

describe('a problem with pairs', () => {
  const codeOf = (fields: object) => {
    const parsed = parseProblem({ ...problemOf({}), ...fields });
    return parsed.ok ? 'ok' : `${parsed.error.code} ${parsed.error.path}`;
  };
  it('is refused where a pair has the name of an item, or a hand is wanted that nobody makes', () => {
    expect(codeOf({ stock: [module(1_200), sinkOf('left', { handOf: 'M1200' }), sinkOf('right')] })).toBe(
      'duplicate-id stock[1].handOf',
    );
    const wish = { id: 'w', item: 'sink', straight: 0, nearMm: 450, withinMm: 0 };
    expect(codeOf({ stock: [sinkOf('left')], wanted: [{ ...wish, hand: 'right' }] })).toBe(
      'unknown-hand wanted[0].hand',
    );
    expect(codeOf({ stock: [sinkOf('left')], wanted: [{ ...wish, item: 'nothing' }] })).toBe(
      'unknown-item wanted[0].item',
    );
  });
});
