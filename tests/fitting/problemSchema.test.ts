import { describe, expect, it } from 'vitest';
import { fitRun } from '../../src/fitting/fitRun.ts';
import { parseProblem } from '../../src/fitting/problemSchema.ts';
import { seededRandom } from '../oracles/seededRandom.ts';

const good = {
  depthMm: 700,
  straights: [
    { lengthMm: 4_200, blocked: [[1_000, 1_200]], openings: [[2_000, 2_600]] },
    { lengthMm: 2_700 },
  ],
  corners: [{ turnDeg: 90 }],
  ends: [{ kind: 'wall' }, { kind: 'exposed', giveMm: [20, 20] }],
  stock: [
    { id: 'M600', widthMm: 600, support: 'standing' },
    { id: 'tap', widthMm: 450, support: 'carried', price: 12.5, massKg: 30 },
  ],
  cornerUnits: [{ id: 'C900', sizeMm: 900 }],
  wanted: [{ id: 'w', item: 'tap', straight: 0, nearMm: 800, withinMm: 200 }],
  allowances: { jointMm: 2, scribeMm: 5, endPanelMm: 20, claddingMm: 18 },
  fillerMaxMm: 150,
  hostMarginMm: 30,
  maxWidthMm: 2_400,
};

// biome-ignore lint/suspicious/noExplicitAny: a bad problem may hold anything, that is what is tested.
type Loose = any;
type Change = (problem: Loose) => void;

const changed = (change: Change): unknown => {
  const copy = structuredClone(good);
  change(copy);
  return copy;
};

describe('parseProblem', () => {
  it('accepts a problem with every field of the contract', () => {
    const parsed = parseProblem(good);
    expect(parsed).toEqual({ ok: true, problem: good });
  });

  it('accepts one with only the fields that have no default', () => {
    const { depthMm, ends, stock, fillerMaxMm } = good;
    expect(parseProblem({ depthMm, ends, stock, fillerMaxMm, straights: [{ lengthMm: 1_000 }] }).ok).toBe(
      true,
    );
  });

  it('ignores fields that it does not know', () => {
    expect(parseProblem({ ...good, laterField: 1 }).ok).toBe(true);
  });

  const refused: readonly [string, Change, string, string][] = [
    ['a negative length', (p) => (p.straights[0].lengthMm = -1), 'negative', 'straights[0].lengthMm'],
    ['a length of 0', (p) => (p.straights[1].lengthMm = 0), 'zero', 'straights[1].lengthMm'],
    [
      'a length that is not a number',
      (p) => (p.straights[0].lengthMm = Number.NaN),
      'not-finite',
      'straights[0].lengthMm',
    ],
    ['an infinite depth', (p) => (p.depthMm = Number.POSITIVE_INFINITY), 'not-finite', 'depthMm'],
    ['a negative filler', (p) => (p.fillerMaxMm = -1), 'negative', 'fillerMaxMm'],
    ['a missing filler', (p) => delete p.fillerMaxMm, 'missing', 'fillerMaxMm'],
    ['a text for a length', (p) => (p.depthMm = '700'), 'wrong-type', 'depthMm'],
    ['a stock width of 0', (p) => (p.stock[0].widthMm = 0), 'zero', 'stock[0].widthMm'],
    ['a negative price', (p) => (p.stock[0].price = -1), 'negative', 'stock[0].price'],
    ['an unknown support', (p) => (p.stock[0].support = 'floating'), 'unknown-value', 'stock[0].support'],
    ['an empty id', (p) => (p.stock[0].id = ''), 'empty-text', 'stock[0].id'],
    ['two stock lines of one id', (p) => (p.stock[1].id = 'M600'), 'duplicate-id', 'stock[1].id'],
    ['two wishes of one id', (p) => p.wanted.push(p.wanted[0]), 'duplicate-id', 'wanted[1].id'],
    [
      'two corner units of one id',
      (p) => p.cornerUnits.push(p.cornerUnits[0]),
      'duplicate-id',
      'cornerUnits[1].id',
    ],
    ['a wish for an unknown item', (p) => (p.wanted[0].item = 'sink'), 'unknown-item', 'wanted[0].item'],
    [
      'a wish on a straight that is not there',
      (p) => (p.wanted[0].straight = 2),
      'unknown-straight',
      'wanted[0].straight',
    ],
    ['a wish on straight -1', (p) => (p.wanted[0].straight = -1), 'negative', 'wanted[0].straight'],
    ['a wish on straight 0.5', (p) => (p.wanted[0].straight = 0.5), 'wrong-type', 'wanted[0].straight'],
    [
      'overlapping zones',
      (p) => (p.straights[0].openings = [[1_100, 1_300]]),
      'zones-overlap',
      'straights[0].openings[0]',
    ],
    [
      'a zone that runs backwards',
      (p) => (p.straights[0].blocked = [[500, 400]]),
      'empty-zone',
      'straights[0].blocked[0]',
    ],
    [
      'a zone beyond the straight',
      (p) => (p.straights[0].blocked = [[4_000, 4_300]]),
      'zone-outside',
      'straights[0].blocked[0]',
    ],
    ['a zone of one number', (p) => (p.straights[0].blocked = [[400]]), 'too-few', 'straights[0].blocked[0]'],
    ['no corner for two straights', (p) => (p.corners = []), 'corner-count', 'corners'],
    ['corners left out for two straights', (p) => delete p.corners, 'corner-count', 'corners'],
    ['a turn of 180', (p) => (p.corners[0].turnDeg = 180), 'too-large', 'corners[0].turnDeg'],
    ['a turn of 0', (p) => (p.corners[0].turnDeg = 0), 'zero', 'corners[0].turnDeg'],
    [
      'a through corner at 45',
      (p) => (p.corners[0] = { turnDeg: 45, treatment: 'first-through' }),
      'treatment-needs-right-angle',
      'corners[0].treatment',
    ],
    ['one end', (p) => (p.ends = [p.ends[0]]), 'too-few', 'ends'],
    ['three ends', (p) => p.ends.push(p.ends[0]), 'too-many', 'ends'],
    ['a 10 km run', (p) => (p.straights[0].lengthMm = 10_000_000), 'too-large', 'straights[0].lengthMm'],
    [
      'a 10 km run in pieces',
      (p) => {
        p.straights = Array.from({ length: 4 }, () => ({ lengthMm: 90_000 }));
        p.corners = Array.from({ length: 3 }, () => ({ turnDeg: 90 }));
      },
      'run-too-long',
      'straights',
    ],
    [
      '10,000 stock lines',
      (p) => {
        p.stock = Array.from({ length: 10_000 }, (_, index) => ({
          id: `${index}`,
          widthMm: 600,
          support: 'standing',
        }));
      },
      'too-many',
      'stock',
    ],
    [
      '25 wishes on one straight',
      (p) => {
        p.wanted = Array.from({ length: 25 }, (_, index) => ({ ...p.wanted[0], id: `${index}` }));
      },
      'too-many',
      'wanted[24]',
    ],
  ];
  for (const [name, change, code, path] of refused) {
    it(`refuses ${name} as ${code} at ${path}`, () => {
      const parsed = parseProblem(changed(change));
      expect(parsed).toMatchObject({ ok: false, error: { code, path } });
      if (!parsed.ok) expect(parsed.error.message.length).toBeGreaterThan(10);
    });
  }

  for (const value of [undefined, null, 1, 'text', [], {}, () => 0, Symbol('s'), new Date(0)]) {
    it(`refuses ${typeof value} ${String(value).slice(0, 20)} as a whole without throwing`, () => {
      expect(parseProblem(value)).toMatchObject({ ok: false });
    });
  }

  it('allows a zone past the traced corner only where an inside corner lets material reach there', () => {
    const inside = changed((p) => {
      p.corners[0].turnDeg = -90;
      p.straights[1].blocked = [[-200, 100]];
    });
    expect(parseProblem(inside).ok).toBe(true);
    expect(parseProblem(changed((p) => (p.straights[1].blocked = [[-200, 100]])))).toMatchObject({
      error: { code: 'zone-outside' },
    });
  });
});

describe('nasty input', () => {
  const nasty: readonly unknown[] = [
    0,
    -0,
    -1,
    1e-9,
    0.001,
    1e9,
    1e308,
    Number.NaN,
    Number.POSITIVE_INFINITY,
    null,
    undefined,
    '',
    '1',
    true,
    [],
    {},
    [[]],
    { length: 3 },
    '__proto__',
    12_345.678_9,
  ];
  const paths = (value: unknown, path: readonly (string | number)[] = []): (string | number)[][] =>
    typeof value === 'object' && value !== null
      ? [
          [...path],
          ...Object.entries(value).flatMap(([key, field]) =>
            paths(field, [...path, Array.isArray(value) ? Number(key) : key]),
          ),
        ]
      : [[...path]];

  it('is refused or solved in bounded steps, never thrown over, whichever field it stands in', () => {
    const places = paths(good).filter((path) => path.length > 0);
    for (const place of places) {
      for (const value of nasty) {
        const problem = structuredClone(good) as Loose;
        const last = place.at(-1)!;
        place.slice(0, -1).reduce((at, step) => at[step], problem)[last] = value;
        const parsed = parseProblem(problem);
        if (parsed.ok)
          expect(fitRun(parsed.problem, { steps: 200_000 }).status).toMatch(/optimal|infeasible|stopped/);
        else expect(parsed.error.code).toMatch(/^[a-z-]+$/);
      }
    }
  });

  it('in several fields at once neither throws nor hangs', () => {
    const random = seededRandom(77);
    const places = paths(good).filter((path) => path.length > 0);
    for (let round = 0; round < 400; round += 1) {
      const problem = structuredClone(good) as Loose;
      for (let count = 0; count < 3; count += 1) {
        const place = random.pick(places);
        const parent = place.slice(0, -1).reduce((at, step) => at?.[step], problem);
        if (typeof parent === 'object' && parent !== null) parent[place.at(-1)!] = random.pick(nasty);
      }
      const parsed = parseProblem(problem);
      if (parsed.ok) expect(fitRun(parsed.problem, { steps: 200_000 }).status).toBeTypeOf('string');
    }
  });
});
