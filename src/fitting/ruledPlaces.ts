import { eventWindows } from './eventWindows.ts';
import type { FillItem } from './fillStock.ts';
import type { NodeBudget } from './nodeBudget.ts';
import type { PieceRules } from './pieceRules.ts';
import type { PlacedItem } from './placedItem.ts';
import type { StationEvent } from './stationEvents.ts';
import type { Stretch } from './stretch.ts';
import { anchorPlaces, eventsIn } from './stretchNodes.ts';

/** A column that a stretch passes: where it is, and the depth that is left in front of it. Micrometres. */
export interface PassedColumnUm {
  readonly fromUm: number;
  readonly toUm: number;
  readonly depthUm: number;
}

/** The columns of a stretch, from its flat list. */
export const columnsIn = (stretch: Stretch): readonly PassedColumnUm[] => {
  const flat = stretch.columns ?? [];
  return Array.from({ length: flat.length / 3 }, (_, index) => ({
    fromUm: flat[3 * index]!,
    toUm: flat[3 * index + 1]!,
    depthUm: flat[3 * index + 2]!,
  }));
};

/** What the places of a ruled stretch depend on. */
export interface PlaceSettings {
  readonly fill: readonly FillItem[];
  readonly events: readonly StationEvent[];
  readonly jointUm: number;
  readonly fillerMaxUm: number;
  readonly rules: PieceRules;
}

/**
 * All places at which a piece may start in an optimal layout of a stretch with columns or rules, the last one first.
 * For a fixed sequence of pieces the layout can only slide; the score is piecewise linear with steps in that slide, and
 * the slides that columns and pieces of other stretches leave open are closed intervals. So some optimal layout has an
 * anchor: one of `anchorPlaces`, a bend of an event, a piece that just clears a column, or one of `contactsUm`, which
 * are starts that just clear a piece elsewhere. Every piece is whole pieces away from the anchor.
 */
export const ruledPlaces = (
  stretch: Stretch,
  settings: PlaceSettings,
  contactsUm: readonly number[],
  budget: NodeBudget,
): readonly number[] => {
  const { fill, jointUm } = settings;
  const events = eventsIn(stretch, settings.events);
  const lowUm = stretch.leftMinUm;
  const highUm = stretch.rightMaxUm;
  const anchors = anchorPlaces(stretch, settings.fillerMaxUm);
  const either = [...events.flatMap((event) => event.bends), ...contactsUm];
  for (const { fromUm, toUm } of columnsIn(stretch)) either.push(toUm, fromUm + jointUm);
  const steps = [...new Set(fill.map((item) => item.widthUm + jointUm))];
  const startingAt = eventWindows(events);
  const endingBefore = eventWindows(events, ({ widthUm }) => widthUm + jointUm);
  const rightward = new Set<number>([...anchors.left, ...either].filter((at) => at >= lowUm && at <= highUm));
  for (const placeUm of rightward) {
    const starting = startingAt(placeUm);
    if (!budget.spend(1 + steps.length + starting.length)) break;
    for (const step of steps) if (placeUm + step <= highUm) rightward.add(placeUm + step);
    for (const { widthUm } of starting) {
      if (placeUm + widthUm + jointUm <= highUm) rightward.add(placeUm + widthUm + jointUm);
    }
  }
  const leftward = new Set<number>([...anchors.right.map((endUm) => endUm + jointUm), ...either]);
  for (const placeUm of leftward) {
    const ending = endingBefore(placeUm);
    if (!budget.spend(1 + steps.length + ending.length)) break;
    for (const step of steps) if (placeUm - step >= lowUm) leftward.add(placeUm - step);
    for (const { widthUm } of ending) {
      const fromUm = placeUm - widthUm - jointUm;
      if (fromUm >= lowUm) leftward.add(fromUm);
    }
  }
  for (const placeUm of leftward) if (placeUm >= lowUm && placeUm <= highUm) rightward.add(placeUm);
  return [...Float64Array.from(rightward).sort().reverse()];
};

/** Places at which something that just clears a piece of another stretch starts, or the piece after it does. */
export const contactsWith = (
  others: readonly PlacedItem[],
  items: readonly { readonly item: string; readonly widthUm: number }[],
  settings: PlaceSettings,
): readonly number[] => {
  const places = new Set<number>();
  for (const other of others) {
    for (const { item } of items) {
      const clearUm = settings.rules.clearUm(item, other.item);
      if (clearUm === 0) continue;
      places.add(other.toUm + clearUm);
      places.add(other.fromUm - clearUm + settings.jointUm);
    }
  }
  return [...places];
};
