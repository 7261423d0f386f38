import { eventWindows } from './eventWindows.ts';
import type { StationEvent } from './stationEvents.ts';
import type { Stretch } from './stretch.ts';
import { anchorPlaces, eventsIn } from './stretchNodes.ts';
import type { StretchSettings } from './stretchSettings.ts';

/** All places at which a piece may start in an optimal layout with events, the last one first. */
export interface LatticePlaces {
  readonly events: readonly StationEvent[];
  readonly places: readonly number[];
}

/**
 * Collects the places piece by piece from every anchor (see `stretchNodes`): to the right as far as an event may
 * start, to the left as far as the stretch reaches. Which pieces may stand next to each other is left to the solver.
 */
export const latticePlaces = (stretch: Stretch, settings: StretchSettings): LatticePlaces => {
  const { tables, fill, budget } = settings;
  const joint = tables.jointUm;
  const events = eventsIn(stretch, settings.events);
  const lowUm = stretch.leftMinUm;
  const lastUm = Math.max(
    ...events.map((event) => Math.min(event.fromMaxUm, stretch.rightMaxUm - event.widthUm)),
  );
  const anchors = anchorPlaces(stretch, settings.fillerMaxUm);
  const bends = events.flatMap((event) => event.bends);
  const steps = [...new Set([...fill.map((item) => item.widthUm)])].map((widthUm) => widthUm + joint);
  const startingAt = eventWindows(events);
  const endingBefore = eventWindows(events, ({ widthUm }) => widthUm + joint);
  const rightward = new Set<number>([...anchors.left, ...bends].filter((at) => at >= lowUm && at <= lastUm));
  for (const placeUm of rightward) {
    const starting = startingAt(placeUm);
    if (!budget.spend(steps.length + starting.length)) break;
    for (const step of steps) if (placeUm + step <= lastUm) rightward.add(placeUm + step);
    for (const { widthUm } of starting) {
      if (placeUm + widthUm + joint <= lastUm) rightward.add(placeUm + widthUm + joint);
    }
  }
  const leftward = new Set<number>([...anchors.right.map((endUm) => endUm + joint), ...bends]);
  for (const placeUm of leftward) {
    const ending = endingBefore(placeUm);
    if (!budget.spend(steps.length + ending.length)) break;
    for (const step of steps) if (placeUm - step >= lowUm) leftward.add(placeUm - step);
    for (const { widthUm } of ending) {
      const fromUm = placeUm - widthUm - joint;
      if (fromUm >= lowUm) leftward.add(fromUm);
    }
  }
  for (const placeUm of leftward) if (placeUm >= lowUm && placeUm <= lastUm) rightward.add(placeUm);
  return { events, places: [...Float64Array.from(rightward).sort().reverse()] };
};
