import type { FillTable } from './fillTable.ts';
import { liveBits, type StationEvent } from './stationEvents.ts';
import type { Stretch } from './stretch.ts';
import type { StretchSettings } from './stretchSettings.ts';

/** The places at which events may stand in an optimal layout of a stretch. */
export interface StretchNodes {
  /** The events that can stand in this stretch at all. */
  readonly events: readonly StationEvent[];
  /** Ascending starts, by event. */
  readonly startsOf: readonly (readonly number[])[];
  readonly descending: readonly { readonly event: number; readonly fromUm: number }[];
  /** Bits of the stations that some event could still place wholly to the left of here. */
  readonly liveLeftOf: (fromUm: number) => number;
}

/** The events that can stand in a stretch at all. */
export const eventsIn = (stretch: Stretch, events: readonly StationEvent[]): readonly StationEvent[] =>
  events.filter(
    (event) =>
      Math.max(event.fromMinUm, stretch.leftMinUm) <=
      Math.min(event.fromMaxUm, stretch.rightMaxUm - event.widthUm),
  );

/** Places of the first piece's start and of the last piece's end at which an optimal layout may be anchored. */
export const anchorPlaces = (
  stretch: Stretch,
  fillerMaxUm: number,
): { readonly left: readonly number[]; readonly right: readonly number[] } => {
  const { leftMinUm, leftUm, leftMaxUm, rightMinUm, rightUm, rightMaxUm, uncertaintyUm } = stretch;
  const left =
    stretch.left === 'exposed'
      ? [leftMinUm, leftUm, leftMaxUm]
      : [leftUm, leftUm + fillerMaxUm, ...(stretch.right === 'exposed' ? [leftUm + uncertaintyUm] : [])];
  const right =
    stretch.right === 'exposed'
      ? [rightMinUm, rightUm, rightMaxUm]
      : [rightUm, rightUm - fillerMaxUm, ...(stretch.left === 'exposed' ? [rightUm - uncertaintyUm] : [])];
  return { left: [...new Set(left)], right: [...new Set(right)] };
};

/**
 * Finds the nodes. For a fixed sequence of pieces the score is, in the start of the first one, piecewise linear with
 * steps, so some optimal layout has an anchor: its first piece at the left side or one filler away from it, its last
 * one likewise at the right, or an event at a bend or window end of its own. From an anchor every other event of the
 * sequence lies whole pieces away, to the right or to the left; those places are collected here.
 */
export const stretchNodes = (stretch: Stretch, settings: StretchSettings): StretchNodes => {
  const { tables, fillerMaxUm, budget } = settings;
  const joint = tables.jointUm;
  const lowUm = stretch.leftMinUm;
  const highUm = stretch.rightMaxUm;
  const events = eventsIn(stretch, settings.events);
  const starts = events.map(() => new Set<number>());
  const rightward: { event: number; fromUm: number }[] = [];
  const leftward: { event: number; fromUm: number }[] = [];
  const seenRight = events.map(() => new Set<number>());
  const seenLeft = events.map(() => new Set<number>());
  const add = (index: number, fromUm: number, goRight: boolean, goLeft: boolean) => {
    const event = events[index]!;
    if (fromUm < event.fromMinUm || fromUm > event.fromMaxUm) return;
    if (fromUm < lowUm || fromUm + event.widthUm > highUm) return;
    if (!starts[index]!.has(fromUm)) {
      if (!Number.isFinite(event.displacementAt(fromUm))) return;
      starts[index]!.add(fromUm);
    }
    if (goRight && !seenRight[index]!.has(fromUm)) {
      seenRight[index]!.add(fromUm);
      rightward.push({ event: index, fromUm });
    }
    if (goLeft && !seenLeft[index]!.has(fromUm)) {
      seenLeft[index]!.add(fromUm);
      leftward.push({ event: index, fromUm });
    }
  };
  /** Visits every place `atUm + sum` with a sum of the table, from `minUm` to `maxUm`. */
  const eachSum = (table: FillTable, minUm: number, maxUm: number, visit: (sumUm: number) => void) => {
    for (let at = table.floorIndex(maxUm); at >= 0 && table.sums[at]! >= minUm; at -= 1) {
      if (!budget.spend(1)) return;
      visit(table.sums[at]!);
    }
  };
  // Going right from a place where the next piece may start; the piece before it is standing, carried, or none.
  const toRight = (placeUm: number, before: 'side' | StationEvent) => {
    const mustStand = before === 'side' || before.carried;
    budget.spend(events.length);
    for (const [index, event] of events.entries()) {
      if (before !== 'side' && (before.bits & event.bits) !== 0) continue;
      if (!(event.carried && mustStand)) add(index, placeUm, true, false);
      eachSum(
        tables.table(mustStand, event.carried),
        event.fromMinUm - placeUm,
        event.fromMaxUm - placeUm,
        (sum) => add(index, placeUm + sum, true, false),
      );
    }
  };
  // Going left from a place where the piece before ends.
  const toLeft = (placeUm: number, after: 'side' | StationEvent) => {
    const mustStand = after === 'side' || after.carried;
    budget.spend(events.length);
    for (const [index, event] of events.entries()) {
      if (after !== 'side' && (after.bits & event.bits) !== 0) continue;
      const nearest = placeUm - event.widthUm;
      if (!(event.carried && mustStand)) add(index, nearest, false, true);
      eachSum(
        tables.table(event.carried, mustStand),
        nearest - event.fromMaxUm,
        nearest - event.fromMinUm,
        (sum) => add(index, nearest - sum, false, true),
      );
    }
  };
  const anchors = anchorPlaces(stretch, fillerMaxUm);
  for (const place of anchors.left) toRight(place, 'side');
  for (const place of anchors.right) toLeft(place, 'side');
  for (const [index, event] of events.entries()) {
    if (!budget.spend(event.bends.length)) break;
    for (const bend of event.bends) add(index, bend, true, true);
  }
  for (let at = 0; at < rightward.length && !budget.isExhausted(); at += 1) {
    const { event, fromUm } = rightward[at]!;
    toRight(fromUm + events[event]!.widthUm + joint, events[event]!);
  }
  for (let at = 0; at < leftward.length && !budget.isExhausted(); at += 1) {
    const { event, fromUm } = leftward[at]!;
    toLeft(fromUm - joint, events[event]!);
  }
  const startsOf = starts.map((set) => Float64Array.from(set).sort());
  const descending = startsOf
    .flatMap((list, event) => [...list].map((fromUm) => ({ event, fromUm })))
    .sort((a, b) => b.fromUm - a.fromUm || a.event - b.event);
  return {
    events,
    startsOf: startsOf.map((list) => [...list]),
    descending,
    liveLeftOf: liveBits(events, lowUm, joint),
  };
};
