import type { Point } from '../../geometry/point.ts';
import { movedZone } from '../zoneOnPlan.ts';
import type { FloorArc, FloorPlan } from './floorPlan.ts';

/** The plan moved as a whole. */
export const movedPlan = (plan: FloorPlan, by: Point): FloorPlan => {
  const moved = ({ x, y }: Point): Point => ({ x: x + by.x, y: y + by.y });
  const movedArc = (stretch: FloorArc): FloorArc =>
    stretch.kind === 'arc'
      ? { kind: 'arc', arc: { ...stretch.arc, centre: moved(stretch.arc.centre) } }
      : { kind: 'line', points: stretch.points.map(moved) };
  return {
    ...plan,
    runs: plan.runs.map((run) => ({
      ...run,
      frontLine: run.frontLine.map(moved),
      backLine: run.backLine.map(moved),
      arcs: { front: run.arcs.front.map(movedArc), back: run.arcs.back.map(movedArc) },
      straights: run.straights.map((straight) => ({
        ...straight,
        start: moved(straight.start),
        end: moved(straight.end),
        ...(straight.bend
          ? {
              bend: {
                ...straight.bend,
                centre: moved(straight.bend.centre),
                middle: moved(straight.bend.middle),
              },
            }
          : {}),
      })),
      parts: run.parts.map((part) => ({
        ...part,
        ring: part.ring.map(moved),
        letterRing: part.letterRing.map(moved),
        ...(part.outline ? { outline: part.outline.map(moved) } : {}),
      })),
      zones: run.zones.map((zone) => movedZone(zone, moved)),
      services: run.services.map((service) => ({ ...service, at: moved(service.at) })),
      lastDatum: { ...run.lastDatum, at: moved(run.lastDatum.at) },
    })),
  };
};

/** Clear between plans that stand side by side, mm of the room: beyond the figures of both. */
const apartMm = 4000;

/**
 * Plans of one sheet as one, side by side: the first where it is, each further one to its right. Distances between runs of
 * different plans mean nothing. Throws a RangeError for none.
 */
export const besideOneAnother = (plans: readonly FloorPlan[]): FloorPlan => {
  const [first, ...others] = plans;
  if (!first) throw new RangeError('There is no plan to draw.');
  const xsOf = (plan: FloorPlan) =>
    plan.runs.flatMap(({ frontLine, backLine }) => [...frontLine, ...backLine].map(({ x }) => x));
  let all = first;
  for (const plan of others) {
    const x = Math.max(...xsOf(all)) + apartMm - Math.min(...xsOf(plan));
    all = { ...all, runs: [...all.runs, ...movedPlan(plan, { x, y: 0 }).runs] };
  }
  return all;
};
