import type { StationEvent } from './stationEvents.ts';

/**
 * The events that may start at a place, or end so that the next piece starts there, without looking at each of them:
 * between two window ends they are always the same ones, in the sequence given.
 */
export const eventWindows = (
  events: readonly StationEvent[],
  shiftUmOf: (event: StationEvent) => number = () => 0,
): ((placeUm: number) => readonly StationEvent[]) => {
  const windows = events.map((event) => {
    const shiftUm = shiftUmOf(event);
    return { event, lowUm: event.fromMinUm + shiftUm, highUm: event.fromMaxUm + shiftUm };
  });
  const edges = [...new Set(windows.flatMap(({ lowUm, highUm }) => [lowUm, highUm + 1]))].sort(
    (a, b) => a - b,
  );
  const within = edges.map((edge) =>
    windows.filter(({ lowUm, highUm }) => edge >= lowUm && edge <= highUm).map(({ event }) => event),
  );
  const none: readonly StationEvent[] = [];
  return (placeUm) => {
    let low = 0;
    let high = edges.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (edges[middle]! <= placeUm) low = middle + 1;
      else high = middle;
    }
    return low === 0 ? none : within[low - 1]!;
  };
};
