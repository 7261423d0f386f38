import { type ScoreSequence, UNPLACED } from './scoreVector.ts';
import type { StationEvent } from './stationEvents.ts';

/** How many bits are set, of the lowest 31. */
export const bitCount = (bits: number): number => {
  let count = 0;
  for (let rest = bits; rest !== 0; rest &= rest - 1) count += 1;
  return count;
};

/** The bits of all stations that some of these events place. */
export const placeableBits = (events: readonly StationEvent[]): number =>
  events.reduce((bits, event) => bits | event.bits, 0);

/**
 * Runs a search that may miss ever more stations until it finds something. Where fewest stations left out leads the
 * order, as it does in every order of a problem, what is found first is best; and a rest of a layout that has missed too many already need not be followed, which
 * spares most of the work where all can be placed. Where stations may stand in other stretches too, missing one here
 * proves nothing: then the search may miss any number from the start.
 */
export const withFewestMissed = <Found>(
  placeable: number,
  { sharedBits, order }: { readonly sharedBits: number; readonly order: ScoreSequence },
  search: (mayMiss: number) => ReadonlyMap<number, Found>,
): ReadonlyMap<number, Found> => {
  const all = bitCount(placeable);
  if ((placeable & sharedBits) !== 0 || order[0] !== UNPLACED) return search(all);
  for (let mayMiss = 0; mayMiss < Math.min(all, triedOneByOne); mayMiss += 1) {
    const found = search(mayMiss);
    if (found.size > 0) return found;
  }
  return search(all);
};

/** After so many searches that found nothing any number may be missed. */
const triedOneByOne = 3;
