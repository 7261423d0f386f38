import { isNarrowEnough, isShallowEnough } from './fillStock.ts';
import type { LeftOutStation } from './fitAnswer.ts';
import { lengthText } from './lengthText.ts';
import { micrometres } from './micrometre.ts';
import type { FitProblem } from './problemSchema.ts';
import { type RunLayout, solveRun } from './runSolver.ts';

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

/** How many left-out stations are searched for a nearest place; more than that are named without one. */
const maxSearched = 4;

/**
 * The wanted stations that a layout leaves out, each with the reason and, where there is one, the nearest place that
 * works with the other stations placed as asked for.
 */
export const leftOutStations = (
  problem: FitProblem,
  run: RunLayout,
  steps: number,
): readonly LeftOutStation[] => {
  const placed = placedIn(run);
  const jointUm = micrometres(problem.allowances?.jointMm ?? 0);
  const out = (problem.wanted ?? []).filter(({ id }) => !placed.has(id));
  return out.map((wish, index) => {
    const item = problem.stock.find(({ id }) => id === wish.item)!;
    const named = { wanted: wish.id, item: wish.item, straight: wish.straight };
    if (!isNarrowEnough(problem, item)) {
      return {
        ...named,
        reason: `${item.id} is ${item.widthMm} mm wide, more than ${problem.maxWidthMm} mm.`,
      };
    }
    if (!isShallowEnough(problem, item)) {
      return { ...named, reason: `${item.id} is ${item.depthMm} mm deep, the run ${problem.depthMm} mm.` };
    }
    const rules = [
      ...(item.beside ? [`beside ${item.beside.join(' or ')}`] : []),
      ...(item.clearOf ?? []).map((rule) => `${rule.distanceMm} mm clear of ${rule.item}`),
    ];
    const kept = rules.length > 0 ? `, ${rules.join(', ')},` : '';
    const away = `no layout has it within ${wish.withinMm} mm of ${wish.nearMm} mm${kept} together with the other stations`;
    if (index >= maxSearched) return { ...named, reason: `${away}.` };
    const lengthMm = problem.straights[wish.straight]!.lengthMm;
    const freed: FitProblem = {
      ...problem,
      wanted: problem
        .wanted!.filter(({ id }) => placed.has(id) || id === wish.id)
        .map((one) => (one.id === wish.id ? { ...one, withinMm: Math.abs(one.nearMm) + 2 * lengthMm } : one)),
    };
    const best = solveRun(freed, 'position', steps).best;
    const centre = best && placedIn(best).size > placed.size ? centreOf(best, wish.id, jointUm) : undefined;
    return centre === undefined
      ? { ...named, reason: `${away}, and no other place on the straight works.` }
      : {
          ...named,
          reason: `${away}; the nearest place that works is ${lengthText(Math.round(centre))} mm.`,
        };
  });
};
