import type { CornerChoice } from './cornerChoices.ts';
import { distantPairs } from './distantStations.ts';
import { micrometres } from './micrometre.ts';
import { bitCount, placeableBits } from './missedStations.ts';
import { nodeBudget } from './nodeBudget.ts';
import { pieceRules } from './pieceRules.ts';
import type { PlacedItem } from './placedItem.ts';
import type { FitProblem } from './problemSchema.ts';
import { ruledSolver } from './ruledSolver.ts';
import { addScores, compareScores, type ScoreVector, zeroScore } from './scoreVector.ts';
import { type Station, type StationEvent, stationEvents, stationsOf } from './stationEvents.ts';
import { bestFilling, compareFillings } from './straightFilling.ts';
import type { RunSettings, StraightLayout, StretchResult } from './straightSettings.ts';
import { cutsOf, type Stretch, stretchesOf } from './stretch.ts';
import type { StretchSettings } from './stretchSettings.ts';
import { solveStretch } from './stretchSolver.ts';

/** Solves one straight for any pair of corner choices; equal stretches are solved once. */
export interface StraightSolver {
  readonly stations: readonly Station[];
  readonly events: readonly StationEvent[];
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

/** Even with the budget of the whole run gone, a stretch may spend this much to find a fair layout. */
const minimumSteps = 20_000;

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
  const stations = stationsOf(problem, index, settings.onlyMoved);
  const marginUm = micrometres(problem.hostMarginMm ?? 30);
  const events = stationEvents(stations, settings.fill, marginUm, settings.budget);
  const placeable = placeableBits(events);
  const known = new Map<string, StretchResult>();
  const rules = pieceRules(problem, settings.fill, stations);
  const pairs = distantPairs(
    stations.filter(({ bit }) => (placeable & bit) !== 0),
    rules,
  );
  const exclusive = pairs.filter((pair) => !Number.isFinite(pair.leastDisplacement)).map(({ bits }) => bits);
  // Of two stations that can't both be placed, each stretch must know of the other.
  const sharedBits = exclusive.reduce((all, bits) => all | bits, sharedStations(problem, index, events));
  const newBudget = () =>
    nodeBudget(Math.max(minimumSteps, Math.min(settings.stretchSteps, settings.budget.remaining())));
  const solveBare = (stretch: Stretch): StretchResult => {
    const key = Object.values(stretch).join('/');
    const before = known.get(key);
    if (before !== undefined) return before;
    const budget = newBudget();
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
  const unproven: ScoreVector = [-bitCount(placeable), 0, 0, 0, 0, 0, 0];
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
          if (other === undefined || compareFillings(candidate, other, order) < 0) {
            next.set(usedBits | bits, candidate);
          }
        }
      }
      partial = next;
    }
    const best = bestFilling([...partial.values()], order);
    if (best === undefined || proven) return best;
    return { ...best, bound: unproven };
  };
  const ruled = ruledSolver({
    settings,
    rules,
    pairs,
    stations,
    events,
    sharedBits,
    solveBare,
    solveBareStretches,
    newBudget,
  });
  const columnSets = subsetsOf(problem.straights[index]!.columns?.length ?? 0);
  const solve: StraightSolver['solve'] = (before, after) => {
    let best: StraightLayout | undefined;
    let bound: ScoreVector | undefined;
    for (const passed of columnSets) {
      const stretches = stretchesOf(problem, index, before, after, new Set(passed));
      if (stretches === undefined) continue;
      const found = stretches.some(ruled.isRuled)
        ? ruled.solve(stretches, best)
        : solveBareStretches(stretches);
      if (found === undefined) continue;
      const layout = passed.length > 0 ? { ...found, passed } : found;
      if (best === undefined || compareFillings(layout, best, order) < 0) best = layout;
      if (bound === undefined || compareScores(layout.bound, bound, order) < 0) bound = layout.bound;
    }
    return best && bound && { ...best, bound };
  };
  return {
    stations,
    events,
    sharedBits,
    solve,
    solveOne: (stretch, others = []) =>
      ruled.isRuled(stretch) ? ruled.solveOne(stretch, others) : solveBare(stretch),
  };
};

/** Every set of the numbers from 0 up to `count`, the empty one first. */
const subsetsOf = (count: number): readonly (readonly number[])[] =>
  Array.from({ length: 2 ** count }, (_, bits) =>
    Array.from({ length: count }, (_unused, index) => index).filter((index) => (bits & (1 << index)) !== 0),
  );
