import type { CornerChoice } from './cornerChoices.ts';
import type { FillItem } from './fillStock.ts';
import type { FillTables } from './fillTable.ts';
import { micrometres } from './micrometre.ts';
import { type NodeBudget, nodeBudget } from './nodeBudget.ts';
import type { FitProblem } from './problemSchema.ts';
import { addScores, compareScores, type ScoreSequence, type ScoreVector, zeroScore } from './scoreVector.ts';
import { type Station, type StationEvent, stationEvents, stationsOf } from './stationEvents.ts';
import { type Stretch, stretchesOf } from './stretch.ts';
import { compareSequences, type StretchLayout } from './stretchLayout.ts';
import type { StretchSettings } from './stretchSettings.ts';
import { solveStretch } from './stretchSolver.ts';

/** The best filling of one straight between two given sides. */
export interface StraightLayout {
  readonly score: ScoreVector;
  readonly layouts: readonly StretchLayout[];
  /** At least as good as any filling; equal to `score` unless the budget ran out. */
  readonly bound: ScoreVector;
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
  /** Solves one stretch again, for instance at another length; key as in `solveStretch`. */
  readonly solveOne: (stretch: Stretch) => StretchResult;
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
  const { blocked = [], openings = [] } = problem.straights[straight]!;
  const cuts = [...blocked, ...openings]
    .map((zone) => (micrometres(zone[0]) + micrometres(zone[1])) / 2)
    .sort((a, b) => a - b);
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
  const sharedBits = sharedStations(problem, index, events);
  const placeable = events.reduce((bits, event) => bits | event.bits, 0);
  const known = new Map<string, StretchResult>();
  const solveOne = (stretch: Stretch): StretchResult => {
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
  const solve: StraightSolver['solve'] = (before, after) => {
    const stretches = stretchesOf(problem, index, before, after);
    if (stretches === undefined) return undefined;
    let partial = new Map<number, StraightLayout>([[0, { score: zeroScore, layouts: [], bound: zeroScore }]]);
    let proven = true;
    for (const stretch of stretches) {
      const result = solveOne(stretch);
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
    let best: StraightLayout | undefined;
    for (const layout of partial.values()) {
      if (best === undefined || compareStraights(layout, best, order) < 0) best = layout;
    }
    if (best === undefined) return undefined;
    if (proven) return best;
    return { ...best, bound: [-bitCount(placeable), 0, 0, 0, 0, 0, 0] };
  };
  return { stations, sharedBits, solve, solveOne };
};

const compareStraights = (a: StraightLayout, b: StraightLayout, order: ScoreSequence): number =>
  compareScores(a.score, b.score, order) ||
  compareSequences(
    a.layouts.flatMap((layout) => layout.sequence),
    b.layouts.flatMap((layout) => layout.sequence),
  );
