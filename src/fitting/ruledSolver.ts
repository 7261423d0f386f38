import type { DistantPair } from './distantStations.ts';
import { leastTotalDisplacement } from './distantStations.ts';
import { depthUmOf } from './fillStock.ts';
import { type ContactSettings, hostedAnchors, hostedGrounds, pushedStarts } from './hostedContacts.ts';
import { keepsRules } from './keepsRules.ts';
import { micrometres } from './micrometre.ts';
import { bitCount, placeableBits } from './missedStations.ts';
import { type NodeBudget, nodeBudget } from './nodeBudget.ts';
import type { PieceRules } from './pieceRules.ts';
import type { PlacedItem } from './placedItem.ts';
import { ruledStretchSolver } from './ruledStraight.ts';
import type { RuledSettings } from './ruledStretch.ts';
import { compareScores, DISPLACEMENT, type ScoreVector, UNPLACED } from './scoreVector.ts';
import { liveBits, type Station, type StationEvent } from './stationEvents.ts';
import { bestFilling } from './straightFilling.ts';
import type { RunSettings, StraightLayout, StretchResult } from './straightSettings.ts';
import { bareStretch, type Stretch } from './stretch.ts';

/** What the ruled solver of one straight needs to know of it. */
interface RuledStraight {
  readonly settings: RunSettings;
  readonly rules: PieceRules;
  readonly pairs: readonly DistantPair[];
  readonly stations: readonly Station[];
  readonly events: readonly StationEvent[];
  readonly sharedBits: number;
  /** Solves a stretch without rules and columns. */
  readonly solveBare: (stretch: Stretch) => StretchResult;
  readonly solveBareStretches: (stretches: readonly Stretch[]) => StraightLayout | undefined;
  readonly newBudget: () => NodeBudget;
}

const ruledSettings = (straight: RuledStraight): RuledSettings => {
  const { rules, stations, events, sharedBits, pairs } = straight;
  const { problem, fill, tables, order } = straight.settings;
  const depths = new Map(problem.stock.map((item) => [item.id, depthUmOf(problem, item)]));
  const distantBits = new Map<string, number>();
  for (const { item, bit } of stations) {
    if (rules.reachUm(item) > 0) distantBits.set(item, (distantBits.get(item) ?? 0) | bit);
  }
  const marginUm = micrometres(problem.hostMarginMm ?? 30);
  const contacts: ContactSettings = { stations, events, rules, marginUm, jointUm: tables.jointUm };
  const grounds = hostedGrounds(contacts);
  const distantFill = fill.filter(({ id }) => rules.reachUm(id) > 0);
  return {
    fill,
    events,
    jointUm: tables.jointUm,
    fillerMaxUm: micrometres(problem.fillerMaxMm),
    rules,
    order,
    sharedBits,
    marginUm,
    depthUmOf: (item) => depths.get(item)!,
    couldStandLeftOf: liveBits(events, Number.NEGATIVE_INFINITY, 0),
    distantFill: distantFill.map(({ id }) => id),
    distantBits,
    exclusive: pairs.filter((pair) => !Number.isFinite(pair.leastDisplacement)).map(({ bits }) => bits),
    hostedAnchors: hostedAnchors(grounds, contacts),
    pushedStarts: () => new Map(),
    allPushedStarts: (places) => pushedStarts(grounds, places, distantFill, contacts),
  };
};

/** The solver for a straight with rules between its pieces or with columns that are passed. */
export const ruledSolver = (straight: RuledStraight) => {
  const { rules, pairs, events, solveBare, solveBareStretches, newBudget } = straight;
  const { order, budget } = straight.settings;
  const settings = ruledSettings(straight);
  const placeable = placeableBits(events);
  const solver = (changed: Partial<RuledSettings>, isWhole = false) =>
    ruledStretchSolver(
      { ...settings, ...changed },
      isWhole ? () => nodeBudget(Math.min(straight.settings.wholeSteps, budget.remaining())) : newBudget,
      (spent) => {
        budget.spend(spent.spent());
      },
      !isWhole,
    );
  const orderWithoutDisplacement = order.filter((place) => place !== DISPLACEMENT);
  const solvers = {
    /** Hosted pieces that keep distances are only tried where they or what is right of them would have them. */
    light: solver({}),
    /** They are tried wherever they could have to stand as well. */
    whole: solver({ pushedStarts: settings.allPushedStarts }, true),
    /** They keep no distances: no layout that keeps them can be better. */
    relaxed: solver({ pushedStarts: 'ignored' }),
    relaxedWithoutDisplacement: solver({ pushedStarts: 'ignored', order: orderWithoutDisplacement }),
  };
  const isRuled = (stretch: Stretch): boolean => !rules.isEmpty || stretch.columns !== undefined;

  /**
   * No layout that keeps hosted distances is better than the best without them; and one with all stations moves them at
   * least as far as their distances ask for, whatever comes after displacement in the order then being at its best.
   */
  const relaxedBound = (stretches: readonly Stretch[]): ScoreVector | undefined => {
    const relaxed = solvers.relaxed(stretches);
    const bound = bestFilling(relaxed.fillings.values(), order)?.score;
    if (!relaxed.proven || bound === undefined) return undefined;
    const displacement = leastTotalDisplacement(pairs);
    if (-bound[UNPLACED]! < bitCount(placeable) || bound[DISPLACEMENT]! >= displacement) return bound;
    const free = solvers.relaxedWithoutDisplacement(stretches);
    const rest = bestFilling(free.fillings.values(), orderWithoutDisplacement)?.score;
    if (!free.proven || rest === undefined) return bound;
    const raised = [...bound];
    raised[DISPLACEMENT] = displacement;
    for (const place of order.slice(order.indexOf(DISPLACEMENT) + 1)) raised[place] = rest[place] ?? 0;
    return raised;
  };

  /**
   * First without the rules: what is best then is best, if it keeps them all, and nothing is better than it; so that it
   * is left at that where it is worse than what is `known` already. Then with them.
   */
  const solve = (
    stretches: readonly Stretch[],
    known: StraightLayout | undefined,
  ): StraightLayout | undefined => {
    const bare = solveBareStretches(stretches.map(bareStretch));
    if (bare === undefined || (known && compareScores(bare.bound, known.score, order) > 0)) return undefined;
    const layouts = bare.layouts.map((layout, at) => ({ ...layout, stretch: stretches[at]! }));
    if (keepsRules(layouts, settings)) return { ...bare, layouts };
    const light = solvers.light(stretches);
    const best = bestFilling(light.fillings.values(), order);
    if (best === undefined) {
      if (!light.proven) budget.giveUpProof();
      return undefined;
    }
    if (!light.proven) return { ...best, bound: bare.bound };
    if (!rules.hasHostedDistances) return { ...best, bound: best.score };
    const bound = relaxedBound(stretches) ?? bare.bound;
    if (stretches.length > 1 || compareScores(best.score, bound, order) === 0) return { ...best, bound };
    // Only within one stretch are all places known that hosted pieces could have to take.
    const whole = solvers.whole(stretches);
    const better = bestFilling([best, ...whole.fillings.values()], order)!;
    return { ...better, bound: whole.proven ? better.score : bound };
  };

  const solveOne = (stretch: Stretch, others: readonly PlacedItem[]): StretchResult => {
    const bare = solveBare(bareStretch(stretch));
    const layouts = [...bare.byShared].map(([bits, layout]) => [bits, { ...layout, stretch }] as const);
    if (layouts.every(([, layout]) => keepsRules([layout], settings, others))) {
      return { byShared: new Map(layouts), proven: bare.proven };
    }
    const { fillings, proven } = solvers.light([stretch], others);
    return { byShared: new Map([...fillings].map(([bits, filling]) => [bits, filling.layouts[0]!])), proven };
  };

  return { isRuled, solve, solveOne };
};
