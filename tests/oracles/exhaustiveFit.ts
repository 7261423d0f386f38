import type { FitProblem } from '../../src/fitting/problemSchema.ts';
import { exhaustiveRules, type RuledPiece } from './exhaustiveRules.ts';

/**
 * An exhaustive search for fits, written from the sentences of DESIGN section 5 alone and sharing nothing with the
 * solver but the problem's type. It tries every corner kind, every sequence of pieces and every place on a grid, so
 * it is right only where all lengths of the problem are multiples of twice the grid, and quick only where it is small.
 */
type OracleScore = readonly [
  unplaced: number,
  madeToMeasure: number,
  leftoverMm: number,
  fillers: number,
  pieces: number,
  displacementMm: number,
  price: number,
  /** Not a part of the published score: the length to be made to measure, which some named orders compare. */
  madeLengthMm: number,
];

interface Span {
  straight: number;
  startExposed: boolean;
  endExposed: boolean;
  /** Whether a piece that must be free there may be the first or the last. */
  startOpen: boolean;
  endOpen: boolean;
  startRange: [number, number];
  endRange: [number, number];
  uncertainty: number;
  /** The columns that pieces may pass in front of. */
  columns: Column[];
}

type Column = NonNullable<FitProblem['straights'][number]['columns']>[number];

interface Corner {
  first: number;
  second: number;
  stands: number;
  pieces: number;
  madeToMeasure: number;
  price: number;
}

const less = (a: OracleScore, b: OracleScore, sequence: readonly number[]): boolean => {
  for (const place of sequence) {
    if (Math.abs(a[place]! - b[place]!) > 1e-7) return a[place]! < b[place]!;
  }
  return false;
};

const plus = (a: OracleScore, b: OracleScore): OracleScore =>
  a.map((value, place) => value + b[place]!) as unknown as OracleScore;

const nothing: OracleScore = [0, 0, 0, 0, 0, 0, 0, 0];

const cornerKinds = (problem: FitProblem, index: number): Corner[] => {
  const { turnDeg, treatment } = problem.corners![index]!;
  const d = problem.depthMm;
  // On the grid at a right angle: tan(45 degrees) in floating point is not quite 1.
  const exact = Math.tan(((Math.abs(turnDeg) / 2) * Math.PI) / 180);
  const t = Math.abs(exact - 1) < 1e-9 ? 1 : exact;
  const clad = (turnDeg > 0 ? 1 : -1) * t * (problem.allowances?.claddingMm ?? 0);
  const plain = { stands: 0, pieces: 0, madeToMeasure: 0, price: 0 };
  const wedge = turnDeg > 0 ? d * t : 0;
  const mitre = { ...plain, first: wedge + clad, second: wedge + clad, pieces: 1, madeToMeasure: 1 };
  const isRight = Math.abs(Math.abs(turnDeg) - 90) <= 0.5;
  if (!isRight) return [mitre];
  const kinds: Corner[] = [];
  if (!treatment || treatment === 'first-through') {
    kinds.push(
      turnDeg > 0
        ? { ...plain, first: clad, second: d + clad }
        : { ...plain, first: -d + clad, second: clad },
    );
  }
  if (!treatment || treatment === 'second-through') {
    kinds.push(
      turnDeg > 0
        ? { ...plain, first: d + clad, second: clad }
        : { ...plain, first: clad, second: -d + clad },
    );
  }
  if (!treatment || treatment === 'corner-unit') {
    for (const unit of problem.cornerUnits ?? []) {
      if (unit.sizeMm < d || unit.sizeMm > (problem.maxWidthMm ?? Number.POSITIVE_INFINITY)) continue;
      const off = turnDeg > 0 ? unit.sizeMm : unit.sizeMm - d;
      kinds.push({
        first: off + clad,
        second: off + clad,
        stands: off,
        pieces: 1,
        madeToMeasure: 0,
        price: unit.price ?? 0,
      });
    }
  }
  if (treatment === 'mitre') kinds.push(mitre);
  return kinds;
};

const spansOf = (
  problem: FitProblem,
  straight: number,
  before: Corner | undefined,
  after: Corner | undefined,
  passed: number,
): Span[] | undefined => {
  const {
    lengthMm,
    uncertaintyMm = 0,
    blocked = [],
    openings = [],
    bays = [],
    columns = [],
  } = problem.straights[straight]!;
  const { scribeMm = 0, endPanelMm = 0 } = problem.allowances ?? {};
  const ends = problem.ends;
  let low: [number, number];
  let high: [number, number];
  if (before) low = [before.second, before.second];
  else if (ends[0].kind === 'meets') low = [0, 0];
  else if (ends[0].kind === 'wall') low = [scribeMm, scribeMm];
  else {
    const [inward, outward] = ends[0].giveMm ?? [0, 0];
    low = [endPanelMm - outward, endPanelMm + inward];
  }
  if (after) high = [lengthMm - after.first, lengthMm - after.first];
  else if (ends[1].kind === 'meets') high = [lengthMm, lengthMm];
  else if (ends[1].kind === 'wall') high = [lengthMm - scribeMm, lengthMm - scribeMm];
  else {
    const [inward, outward] = ends[1].giveMm ?? [0, 0];
    high = [lengthMm - endPanelMm - inward, lengthMm - endPanelMm + outward];
  }
  if (low[0] > high[1]) return undefined;
  const passedColumns = columns.filter((_, index) => (passed & (1 << index)) !== 0);
  const stops = columns.filter((column) => !passedColumns.includes(column));
  const placesOf = (parts: readonly { fromMm: number; toMm: number }[]) =>
    parts.map(({ fromMm, toMm }) => [fromMm, toMm] as const);
  const zones = [...blocked, ...openings, ...placesOf(bays), ...placesOf(stops)]
    .map(([a, b]) => [a, b] as const)
    .sort((a, b) => a[0] - b[0]);
  for (const [a, b] of [...zones, ...placesOf(passedColumns)]) {
    const hits = (from: number, to: number) => from < to && a < to && b > from;
    if (before && hits(low[0] - before.stands, low[0])) return undefined;
    if (after && hits(high[0], high[0] + after.stands)) return undefined;
  }
  const startExposed = !before && ends[0].kind === 'exposed';
  const endExposed = !after && ends[1].kind === 'exposed';
  const cuts = zones.filter(([a, b]) => b > low[0] && a < high[1]);
  const isOpen = (cut: readonly [number, number] | undefined) =>
    cut !== undefined &&
    [...openings, ...placesOf(bays)].some(([from, to]) => from === cut[0] && to === cut[1]);
  const spans: Span[] = [];
  for (let index = 0; index <= cuts.length; index += 1) {
    const left = index === 0 ? low : ([cuts[index - 1]![1], cuts[index - 1]![1]] as [number, number]);
    const right = index === cuts.length ? high : ([cuts[index]![0], cuts[index]![0]] as [number, number]);
    const span = {
      straight,
      startExposed: index === 0 && startExposed,
      endExposed: index === cuts.length && endExposed,
      startOpen: index === 0 ? startExposed : isOpen(cuts[index - 1]),
      endOpen: index === cuts.length ? endExposed : isOpen(cuts[index]),
      startRange: left,
      endRange: right,
      uncertainty: uncertaintyMm,
      columns: passedColumns,
    };
    if (right[1] < left[0]) continue;
    if (right[1] === left[0] && !(span.startExposed && span.endExposed)) continue;
    spans.push(span);
  }
  return spans;
};

interface Placed {
  item: string;
  from: number;
  width: number;
  standing: boolean;
}

/** The best of its kind: the stations placed (bits by index in `wanted`), and what other spans must keep clear of. */
interface Best {
  readonly set: number;
  readonly ruled: readonly RuledPiece[];
  readonly score: OracleScore;
}

/** The best scores of a span, one for every set of wanted stations and of ruled pieces in place. */
const bestBySet = (
  problem: FitProblem,
  span: Span,
  grid: number,
  sequence: readonly number[],
): Map<string, Best> => {
  const rules = exhaustiveRules(problem);
  const joint = problem.allowances?.jointMm ?? 0;
  const margin = problem.hostMarginMm ?? 30;
  const widest = problem.maxWidthMm ?? Number.POSITIVE_INFINITY;
  const _stock = new Map(problem.stock.map((item) => [item.id, item]));
  const fills = problem.stock.filter(
    (item) =>
      (item.support === 'standing' || item.support === 'carried') &&
      (item.fill ?? item.support === 'standing') &&
      item.widthMm <= widest &&
      rules.mayStand(item.id),
  );
  const wanted = (problem.wanted ?? [])
    .flatMap((wish, bit) =>
      problem.stock
        .filter(
          ({ id, handOf, hand }) =>
            id === wish.item || (handOf === wish.item && (wish.hand ?? hand) === hand),
        )
        .map((item) => ({ ...wish, item: item.id, bit: 1 << bit, stock: item })),
    )
    .filter(
      (wish) => wish.straight === span.straight && wish.stock.widthMm <= widest && rules.mayStand(wish.item),
    );
  const ownLength = wanted.filter((wish) => /standing|carried/.test(wish.stock.support));
  const hosted = wanted.filter((wish) => !/standing|carried/.test(wish.stock.support));
  const best = new Map<string, Best>();
  const offer = (pieces: readonly RuledPiece[], set: number, score: OracleScore) => {
    if (!rules.areKept(pieces) || !rules.areFree(pieces, span)) return;
    const ruled = rules.ruledOf(pieces);
    const key = `${set}${JSON.stringify(ruled)}`;
    const known = best.get(key);
    if (!known || less(score, known.score, sequence)) best.set(key, { set, ruled, score });
  };
  const verdicts = (parts: number[]): [number, number, number, number] => {
    const total = parts.reduce((sum, part) => sum + part, 0);
    if (total <= span.uncertainty) return [0, total, 0, 0];
    const real = parts.filter((part) => part > 0);
    const made = real.filter((part) => part > problem.fillerMaxMm);
    const madeMm = made.reduce((sum, part) => sum + part, 0);
    return [made.length, total, real.length - made.length, madeMm];
  };
  const host = (pieces: Placed[], at: number, taken: RuledPiece[], set: number, score: OracleScore): void => {
    if (at === hosted.length) {
      const own = pieces.map(({ item, from, width }, on) => ({ item, from, to: from + width, on }));
      offer([...own, ...taken], set, score);
      return;
    }
    host(pieces, at + 1, taken, set, score);
    const wish = hosted[at]!;
    if ((set & wish.bit) !== 0) return;
    const width = wish.stock.widthMm;
    for (const [on, piece] of pieces.entries()) {
      if (!piece.standing) continue;
      for (let from = piece.from + margin; from + width <= piece.from + piece.width - margin; from += grid) {
        const off = Math.abs(from + width / 2 - wish.nearMm);
        if (off > wish.withinMm) continue;
        if (taken.some((other) => other.on === on && from < other.to && from + width > other.from)) continue;
        host(
          pieces,
          at + 1,
          [...taken, { item: wish.item, from, to: from + width, on }],
          set | wish.bit,
          plus(score, [-1, 0, 0, 0, 0, off, wish.stock.price ?? 0, 0]),
        );
      }
    }
  };
  const close = (pieces: Placed[], first: number, last: number, set: number, score: OracleScore): void => {
    if (!pieces.at(-1)!.standing) return;
    if (span.endExposed ? last < span.endRange[0] || last > span.endRange[1] : last > span.endRange[0])
      return;
    const left = span.startExposed ? 0 : first - span.startRange[0];
    const right = span.endExposed ? 0 : span.endRange[0] - last;
    const [made, total, fillers, madeMm] = verdicts([left, right]);
    host(pieces, 0, [], set, plus(score, [0, made, total, fillers, pieces.length, 0, 0, madeMm]));
  };
  const grow = (pieces: Placed[], first: number, next: number, set: number, score: OracleScore): void => {
    const before = pieces.at(-1);
    const step = (item: string, width: number, standing: boolean, bit: number, add: OracleScore) => {
      if (next + width > span.endRange[1]) return;
      if (!rules.mayStandAt(item, next, next + width, span.columns)) return;
      if (!standing && !before?.standing) return;
      const grown = [...pieces, { item, from: next, width, standing }];
      const sum = plus(score, add);
      close(grown, first, next + width, set | bit, sum);
      grow(grown, first, next + width + joint, set | bit, sum);
    };
    for (const item of fills) {
      step(item.id, item.widthMm, item.support === 'standing', 0, [0, 0, 0, 0, 0, 0, item.price ?? 0, 0]);
    }
    for (const wish of ownLength) {
      if ((set & wish.bit) !== 0) continue;
      const off = Math.abs(next + wish.stock.widthMm / 2 - wish.nearMm);
      if (off > wish.withinMm) continue;
      step(wish.item, wish.stock.widthMm, wish.stock.support === 'standing', wish.bit, [
        -1,
        0,
        0,
        0,
        0,
        off,
        wish.stock.price ?? 0,
        0,
      ]);
    }
  };
  const lastStart = span.startExposed ? span.startRange[1] : span.endRange[1];
  for (let first = span.startRange[0]; first <= lastStart; first += grid) grow([], first, first, 0, nothing);
  if (!(span.startExposed && span.endExposed)) {
    const gap = Math.max(0, span.endRange[0] - span.startRange[1]);
    const [made, total, fillers, madeMm] = verdicts([gap]);
    offer([], 0, [0, made, total, fillers, 0, 0, 0, madeMm]);
  }
  return best;
};

/** The order of DESIGN section 5. */
const bestFirst: readonly number[] = [0, 1, 2, 3, 4, 5, 6];

/** The best score that any fit of the problem has, or nothing where there is no fit. */
export const exhaustiveFit = (
  problem: FitProblem,
  gridMm: number,
  sequence: readonly number[] = bestFirst,
): OracleScore | undefined => {
  const rules = exhaustiveRules(problem);
  const known = new Map<string, Map<string, Best>>();
  let best: OracleScore | undefined;
  const visit = (straight: number, before: Corner | undefined, sets: Map<number, OracleScore>): void => {
    if (straight === problem.straights.length) {
      for (const score of sets.values()) if (!best || less(score, best, sequence)) best = score;
      return;
    }
    const afters = straight === problem.straights.length - 1 ? [undefined] : cornerKinds(problem, straight);
    for (const after of afters) {
      const corner: OracleScore = after
        ? [0, after.madeToMeasure, 0, 0, after.pieces, 0, after.price, 0]
        : nothing;
      const done = new Map<number, OracleScore>();
      const columnSets = 1 << (problem.straights[straight]!.columns ?? []).length;
      let isPossible = false;
      for (let passed = 0; passed < columnSets; passed += 1) {
        const spans = spansOf(problem, straight, before, after, passed);
        if (!spans) continue;
        isPossible = true;
        let sofar = new Map<string, Best>();
        for (const [set, score] of sets) sofar.set(`${set}`, { set, ruled: [], score: plus(score, corner) });
        for (const span of spans) {
          const key = JSON.stringify(span);
          const options = known.get(key) ?? bestBySet(problem, span, gridMm, sequence);
          known.set(key, options);
          const next = new Map<string, Best>();
          for (const one of sofar.values()) {
            for (const more of options.values()) {
              if ((one.set & more.set) !== 0 || !rules.areClear(one.ruled, more.ruled)) continue;
              const sum = plus(one.score, more.score);
              const set = one.set | more.set;
              const ruled = [...one.ruled, ...more.ruled];
              const place = `${set}${JSON.stringify(ruled)}`;
              const other = next.get(place);
              if (!other || less(sum, other.score, sequence)) next.set(place, { set, ruled, score: sum });
            }
          }
          sofar = next;
        }
        for (const { set, score } of sofar.values()) {
          const other = done.get(set);
          if (!other || less(score, other, sequence)) done.set(set, score);
        }
      }
      if (isPossible) visit(straight + 1, after, done);
    }
  };
  visit(0, undefined, new Map([[0, [(problem.wanted ?? []).length, 0, 0, 0, 0, 0, 0, 0] as OracleScore]]));
  return best;
};
