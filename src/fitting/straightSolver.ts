import type { CornerChoice } from './cornerChoices.ts';
import { distantPairs, leastTotalDisplacement } from './distantStations.ts';
import { depthUmOf, type FillItem } from './fillStock.ts';
import type { FillTables } from './fillTable.ts';
import { keepsRules } from './keepsRules.ts';
import { micrometres } from './micrometre.ts';
import { type NodeBudget, nodeBudget } from './nodeBudget.ts';
import { type PieceRules, pieceRules } from './pieceRules.ts';
import type { PlacedItem } from './placedItem.ts';
import type { FitProblem } from './problemSchema.ts';
import { ruledStretchSolver } from './ruledStraight.ts';
import type { RuledSettings } from './ruledStretch.ts';
import {
  addScores,
  compareScores,
  DISPLACEMENT,
  type ScoreSequence,
  type ScoreVector,
  UNPLACED,
  zeroScore,
} from './scoreVector.ts';
import { liveBits, type Station, type StationEvent, stationEvents, stationsOf } from './stationEvents.ts';
import { bareStretch, cutsOf, type Stretch, stretchesOf } from './stretch.ts';
import { compareSequences, type StretchLayout } from './stretchLayout.ts';
import type { StretchSettings } from './stretchSettings.ts';
import { solveStretch } from './stretchSolver.ts';

/** The best filling of one straight between two given sides. */
export interface StraightLayout {
  readonly score: ScoreVector;
  readonly layouts: readonly StretchLayout[];
  /** At least as good as any filling; equal to `score` unless the budget ran out. */
  readonly bound: ScoreVector;
  /** Indices of the columns that are passed; absent where none is. */
  readonly passed?: readonly number[];
}

/** What the straights of a run have in common. */
export interface RunSettings {
  readonly problem: FitProblem;
  readonly fill: readonly FillItem[];
  readonly tables: FillTables;
  readonly order: ScoreSequence;
  readonly longestIsBest: boolean;
  readonly budget: NodeBudget;
  readonly stretchSteps: number;
  readonly pairingSteps: number;
}

/** Solves one straight for any pair of corner choices; equal stretches are solved once. */
export interface StraightSolver {
  readonly stations: readonly Station[];
  /** Bits of the stations that could stand in more than one stretch. */
  readonly sharedBits: number;
  readonly solve: (
    before: CornerChoice | undefined,
    after: CornerChoice | undefined,
  ) => StraightLayout | undefined;
  /**
   * Solves one stretch again, for instance at another length; key as in `solveStretch`. `others` are the pieces of the
   * straight's other stretches from which distances are kept.
   */
  readonly solveOne: (stretch: Stretch, others?: readonly PlacedItem[]) => StretchResult;
}

interface StretchResult {
  readonly byShared: ReadonlyMap<number, StretchLayout>;
  readonly proven: boolean;
}

/** Even with the budget of the whole run gone, a stretch may spend this much to find a fair layout. */
const minimumSteps = 20_000;

const bitCount = (bits: number): number => {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count += 1;
  return count;
};

/** Bits of stations whose window touches more than one gap between the straight's zones. */
const sharedStations = (problem: FitProblem, straight: number, events: readonly StationEvent[]): number => {
  const cuts = cutsOf(problem, straight, new Set()).map(({ fromUm, toUm }) => (fromUm + toUm) / 2);
  const reach = new Map<number, { low: number; high: number }>();
  for (const event of events) {
    for (const { bit } of [...(event.own ? [event.own] : []), ...event.hosted]) {
      const known = reach.get(bit);
      reach.set(bit, {
        low: Math.min(known?.low ?? event.fromMinUm, event.fromMinUm),
        high: Math.max(known?.high ?? 0, event.fromMaxUm + event.widthUm),
      });
    }
  }
  let shared = 0;
  for (const [bit, { low, high }] of reach) if (cuts.some((cut) => low < cut && high > cut)) shared |= bit;
  return shared;
};

/** Prepares the solver of straight `index`. */
export const straightSolver = (settings: RunSettings, index: number): StraightSolver => {
  const { problem, order, tables } = settings;
  const stations = stationsOf(problem, index);
  const marginUm = micrometres(problem.hostMarginMm ?? 30);
  const events = stationEvents(stations, settings.fill, marginUm, settings.budget);
  const placeable = events.reduce((bits, event) => bits | event.bits, 0);
  const known = new Map<string, StretchResult>();
  const rules = pieceRules(problem, settings.fill, stations);
  const pairs = distantPairs(
    stations.filter(({ bit }) => (placeable & bit) !== 0),
    rules,
  );
  const exclusive = pairs.filter((pair) => !Number.isFinite(pair.leastDisplacement)).map(({ bits }) => bits);
  // Of two stations that can't both be placed, each stretch must know of the other.
  const sharedBits = exclusive.reduce((all, bits) => all | bits, sharedStations(problem, index, events));
  const ruled = ruledSolver(settings, rules, stations, events, sharedBits, exclusive);
  const solveBare = (stretch: Stretch): StretchResult => {
    const key = Object.values(stretch).join('/');
    const before = known.get(key);
    if (before !== undefined) return before;
    const budget = nodeBudget(
      Math.max(minimumSteps, Math.min(settings.stretchSteps, settings.budget.remaining())),
    );
    const stretchSettings: StretchSettings = {
      tables,
      fill: settings.fill,
      fillerMaxUm: micrometres(problem.fillerMaxMm),
      order,
      longestIsBest: settings.longestIsBest,
      events,
      sharedBits,
      budget,
      pairingSteps: settings.pairingSteps,
    };
    const byShared = solveStretch(stretch, stretchSettings);
    settings.budget.spend(budget.spent());
    const proven = budget.isProven();
    const result = { byShared, proven };
    known.set(key, result);
    return result;
  };
  const isRuled = (stretch: Stretch): boolean => !rules.isEmpty || stretch.columns !== undefined;
  const solveOne = (stretch: Stretch, others: readonly PlacedItem[] = []): StretchResult => {
    const bare = solveBare(bareStretch(stretch));
    if (!isRuled(stretch)) return bare;
    const layouts = [...bare.byShared].map(([bits, layout]) => [bits, { ...layout, stretch }] as const);
    if (layouts.every(([, layout]) => keepsRules([layout], ruled.settings, others))) {
      return { byShared: new Map(layouts), proven: bare.proven };
    }
    const { fillings, proven } = ruled.solve([stretch], others);
    return { byShared: new Map([...fillings].map(([bits, filling]) => [bits, filling.layouts[0]!])), proven };
  };
  const unproven: ScoreVector = [-bitCount(placeable), 0, 0, 0, 0, 0, 0];
  /**
   * Under rules. First without them: what is best then is best, if it keeps them all, and nothing is better than it; so
   * that it is left at that where it is worse than what is known already.
   */
  const solveRuled = (
    stretches: readonly Stretch[],
    known: StraightLayout | undefined,
  ): StraightLayout | undefined => {
    const bare = solveBareStretches(stretches.map(bareStretch));
    if (bare === undefined || (known && compareScores(bare.bound, known.score, order) > 0)) return undefined;
    const layouts = bare.layouts.map((layout, at) => ({ ...layout, stretch: stretches[at]! }));
    if (keepsRules(layouts, ruled.settings)) return { ...bare, layouts };
    const { fillings, proven } = ruled.solve(stretches);
    const best = bestOf([...fillings.values()], order);
    if (best === undefined) {
      if (!proven) settings.budget.giveUpProof();
      return undefined;
    }
    if (!proven) return { ...best, bound: bare.bound };
    const bound = rules.hasHostedDistances ? relaxedBound(stretches) : best.score;
    return { ...best, bound: bound ?? bare.bound };
  };
  /**
   * Where hosted pieces keep distances not every place is tried. Without those distances nothing is left untried, so
   * that no layout is better than the best then; and one with all stations moves them at least as far as their
   * distances ask for, whatever comes after displacement in the order then being at its best.
   */
  const relaxedBound = (stretches: readonly Stretch[]): ScoreVector | undefined => {
    const relaxed = ruled.solveRelaxed(stretches);
    const bound = bestOf([...relaxed.fillings.values()], order)?.score;
    if (!relaxed.proven || bound === undefined) return undefined;
    const displacement = leastTotalDisplacement(pairs);
    if (-bound[UNPLACED]! < bitCount(placeable) || bound[DISPLACEMENT]! >= displacement) return bound;
    const free = ruled.solveWithoutDisplacement(stretches);
    const rest = bestOf(
      [...free.fillings.values()],
      order.filter((place) => place !== DISPLACEMENT),
    )?.score;
    if (!free.proven || rest === undefined) return bound;
    const raised = [...bound];
    raised[DISPLACEMENT] = displacement;
    for (const place of order.slice(order.indexOf(DISPLACEMENT) + 1)) raised[place] = rest[place] ?? 0;
    return raised;
  };
  const solveBareStretches = (stretches: readonly Stretch[]): StraightLayout | undefined => {
    let partial = new Map<number, StraightLayout>([[0, { score: zeroScore, layouts: [], bound: zeroScore }]]);
    let proven = true;
    for (const stretch of stretches) {
      const result = solveBare(stretch);
      proven &&= result.proven;
      const next = new Map<number, StraightLayout>();
      for (const [usedBits, sofar] of partial) {
        for (const [bits, layout] of result.byShared) {
          if ((usedBits & bits) !== 0) continue;
          const score = addScores(sofar.score, layout.score);
          const candidate = { score, layouts: [...sofar.layouts, layout], bound: score };
          const other = next.get(usedBits | bits);
          if (other === undefined || compareStraights(candidate, other, order) < 0) {
            next.set(usedBits | bits, candidate);
          }
        }
      }
      partial = next;
    }
    const best = bestOf([...partial.values()], order);
    if (best === undefined || proven) return best;
    return { ...best, bound: unproven };
  };
  const columnSets = subsetsOf(problem.straights[index]!.columns?.length ?? 0);
  const solve: StraightSolver['solve'] = (before, after) => {
    let best: StraightLayout | undefined;
    let bound: ScoreVector | undefined;
    for (const passed of columnSets) {
      const stretches = stretchesOf(problem, index, before, after, new Set(passed));
      if (stretches === undefined) continue;
      const found = stretches.some(isRuled) ? solveRuled(stretches, best) : solveBareStretches(stretches);
      if (found === undefined) continue;
      const layout = passed.length > 0 ? { ...found, passed } : found;
      if (best === undefined || compareStraights(layout, best, order) < 0) best = layout;
      if (bound === undefined || compareScores(layout.bound, bound, order) < 0) bound = layout.bound;
    }
    return best && bound && { ...best, bound };
  };
  return {
    stations,
    sharedBits,
    solve,
    solveOne,
  };
};

/** Every set of the numbers from 0 up to `count`, the empty one first. */
const subsetsOf = (count: number): readonly (readonly number[])[] =>
  Array.from({ length: 2 ** count }, (_, bits) =>
    Array.from({ length: count }, (_unused, index) => index).filter((index) => (bits & (1 << index)) !== 0),
  );

const bestOf = <Filling extends Pick<StraightLayout, 'score' | 'layouts'>>(
  fillings: readonly Filling[],
  order: ScoreSequence,
): Filling | undefined => {
  let best: Filling | undefined;
  for (const filling of fillings) {
    if (best === undefined || compareStraights(filling, best, order) < 0) best = filling;
  }
  return best;
};

/** The solver for a straight's stretches under rules, with and without the distances of hosted pieces. */
const ruledSolver = (
  settings: RunSettings,
  rules: PieceRules,
  stations: readonly Station[],
  events: readonly StationEvent[],
  sharedBits: number,
  exclusive: readonly number[],
) => {
  const { problem, fill, tables, order } = settings;
  const depths = new Map(problem.stock.map((item) => [item.id, depthUmOf(problem, item)]));
  const distantBits = new Map<string, number>();
  for (const { item, bit } of stations) {
    if (rules.reachUm(item) > 0) distantBits.set(item, (distantBits.get(item) ?? 0) | bit);
  }
  const ruledSettings: RuledSettings = {
    fill,
    events,
    jointUm: tables.jointUm,
    fillerMaxUm: micrometres(problem.fillerMaxMm),
    rules,
    order,
    sharedBits,
    marginUm: micrometres(problem.hostMarginMm ?? 30),
    depthUmOf: (item) => depths.get(item)!,
    couldStandLeftOf: liveBits(events, Number.NEGATIVE_INFINITY, 0),
    distantFill: fill.map(({ id }) => id).filter((id) => rules.reachUm(id) > 0),
    distantBits,
    exclusive,
    ignoreHosted: false,
  };
  const newBudget = () =>
    nodeBudget(Math.max(minimumSteps, Math.min(settings.stretchSteps, settings.budget.remaining())));
  const spend = (budget: NodeBudget) => {
    settings.budget.spend(budget.spent());
  };
  return {
    settings: ruledSettings,
    solve: ruledStretchSolver(ruledSettings, newBudget, spend),
    solveRelaxed: ruledStretchSolver({ ...ruledSettings, ignoreHosted: true }, newBudget, spend),
    solveWithoutDisplacement: ruledStretchSolver(
      { ...ruledSettings, ignoreHosted: true, order: order.filter((place) => place !== DISPLACEMENT) },
      newBudget,
      spend,
    ),
  };
};

const compareStraights = (
  a: Pick<StraightLayout, 'score' | 'layouts'>,
  b: Pick<StraightLayout, 'score' | 'layouts'>,
  order: ScoreSequence,
): number =>
  compareScores(a.score, b.score, order) ||
  compareSequences(
    a.layouts.flatMap((layout) => layout.sequence),
    b.layouts.flatMap((layout) => layout.sequence),
  );
