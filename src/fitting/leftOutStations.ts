import { arcFrontOf, jointUmOn } from './arcFront.ts';
import { isNarrowEnough, isShallowEnough } from './fillStock.ts';
import type { LeftOutStation } from './fitAnswer.ts';
import type { FitWords } from './fitWords.ts';
import { micrometres, millimetres } from './micrometre.ts';
import type { FitProblem, StockItem, WantedStation } from './problemSchema.ts';
import { type RunLayout, solveRun } from './runSolver.ts';
import { wantedItems } from './wantedItems.ts';

/** Ids of the wanted stations that a layout places. */
const placedIn = (run: RunLayout): ReadonlySet<string> =>
  new Set(
    run.straights
      .flatMap((straight) => straight.layouts.flatMap((layout) => layout.sequence))
      .flatMap(({ event }) =>
        event ? [...(event.own ? [event.own.id] : []), ...event.hosted.map(({ id }) => id)] : [],
      ),
  );

/** Where a station stands in a layout, as its centre, or nothing. */
const centreOf = (run: RunLayout, id: string, jointUm: number): number | undefined => {
  for (const layout of run.straights.flatMap((straight) => straight.layouts)) {
    let atUm = layout.fromUm;
    for (const { event, item } of layout.sequence) {
      if (event?.own?.id === id) return atUm + event.widthUm / 2;
      const rank = event?.hosted.findIndex((station) => station.id === id) ?? -1;
      if (event && rank >= 0) return event.hostedAt(atUm)!.fromUm[rank]! + event.hosted[rank]!.widthUm / 2;
      atUm += (event?.widthUm ?? item!.widthUm) + jointUm;
    }
  }
  return undefined;
};

/** Why none of the items that would answer a wish can stand on this run at all, or nothing where one can. */
const unfitWords = (
  problem: FitProblem,
  items: readonly StockItem[],
  straight: number,
  words: FitWords,
): string | undefined => {
  const reasons = items.map((item) => {
    const { widthMm, depthMm = 0 } = item;
    const [width, most] = [widthMm, problem.maxWidthMm ?? 0].map((mm) => words.length(micrometres(mm)));
    if (!isNarrowEnough(problem, item)) return `${item.id} is ${width} wide, more than ${most}`;
    const [deep, run] = [depthMm, problem.depthMm].map((mm) => words.length(micrometres(mm)));
    if (!isShallowEnough(problem, item)) return `${item.id} is ${deep} deep, the run ${run}`;
    const arc = arcFrontOf(problem, straight);
    if (arc && (item.support === 'standing' || item.support === 'carried') && !arc.moduleOf(widthMm)) {
      return `${item.id} is ${width} wide, too wide for a front of radius ${words.length(micrometres(arc.radiusMm))}`;
    }
    return undefined;
  });
  return reasons.includes(undefined) ? undefined : `${reasons.join('; ')}.`;
};

/** What its item asks for beside its place, in words. */
const ruleWords = (_problem: FitProblem, items: readonly StockItem[], words: FitWords): string => {
  const rules = items.flatMap((item) => [
    ...(item.support === 'carried' ? ['between two standing pieces'] : []),
    ...(item.beside ? [`beside ${item.beside.join(' or ')}`] : []),
    ...(item.clearOf ?? []).map(
      (rule) => `${words.length(micrometres(rule.distanceMm))} clear of ${rule.item}`,
    ),
    ...(item.hand ? [`free at its ${item.hand}`] : []),
  ]);
  const [only] = items;
  // A pair is free at one side or the other; what both hands ask for is said of each.
  if (items.length > 1) return ` as ${items.map(({ id }) => id).join(' or ')}`;
  return only === undefined || rules.length === 0 ? '' : `, ${rules.join(', ')},`;
};

/**
 * Where a station could stand nearest to its wish with all that a layout places still placed. One solution in which
 * every station must be placed and only this one's displacement counts, before all else but the stations placed.
 */
const nearestPlace = (
  problem: FitProblem,
  placed: ReadonlySet<string>,
  wish: WantedStation,
  steps: number,
): { readonly centreUm: number | undefined; readonly proven: boolean; readonly steps: number } => {
  const withinMm = Math.abs(wish.nearMm) + 2 * problem.straights[wish.straight]!.lengthMm;
  const freed: FitProblem = {
    ...problem,
    wanted: problem
      .wanted!.filter(({ id }) => placed.has(id) || id === wish.id)
      .map((one) => (one.id === wish.id ? { ...one, withinMm } : one)),
  };
  const solution = solveRun(freed, 'position', steps, undefined, wish.id);
  const { best } = solution;
  const jointUm = jointUmOn(problem, wish.straight);
  const isPlaced = best !== undefined && placedIn(best).size > placed.size;
  return {
    centreUm: isPlaced ? centreOf(best, wish.id, jointUm) : undefined,
    proven: solution.proven,
    steps: solution.steps,
  };
};

/**
 * The wanted stations that a layout leaves out, each with the reason and, where there is one, the nearest place that
 * works with the other stations placed as asked for. Searched for while the steps last, in the sequence of the wishes.
 */
export const leftOutStations = (
  problem: FitProblem,
  run: RunLayout,
  steps: number,
  words: FitWords,
): readonly LeftOutStation[] => {
  const placed = placedIn(run);
  let left = steps;
  return (problem.wanted ?? [])
    .filter(({ id }) => !placed.has(id))
    .map((wish): LeftOutStation => {
      const items = wantedItems(problem, wish);
      const named = { wanted: wish.id, item: wish.item, straight: wish.straight };
      const unfit = unfitWords(problem, items, wish.straight, words);
      if (unfit !== undefined) return { ...named, reason: unfit };
      const length = (mm: number) => words.length(micrometres(mm));
      const rules = ruleWords(problem, items, words);
      const away = `no layout has it within ${length(wish.withinMm)} of ${length(wish.nearMm)}${rules} together with the other stations`;
      if (left <= 0) return { ...named, reason: `${away}.` };
      const { centreUm, proven, steps: spent } = nearestPlace(problem, placed, wish, left);
      left -= Math.max(spent, steps / 50);
      if (centreUm === undefined) {
        const none = proven ? 'no other place on the straight works' : 'no place that works was found';
        return { ...named, reason: `${away}, and ${none}.` };
      }
      const place = words.length(Math.round(centreUm));
      if (!proven) return { ...named, reason: `${away}; a place that works is ${place}.` };
      const nearest = { straight: wish.straight, atMm: millimetres(centreUm) };
      return { ...named, reason: `${away}; the nearest place that works is ${place}.`, nearest };
    });
};
