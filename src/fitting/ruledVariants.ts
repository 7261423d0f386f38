import { placeHosted } from './hostedPlacement.ts';
import { areClear, type PieceRules } from './pieceRules.ts';
import type { PlacedItem } from './placedItem.ts';
import type { Station, StationEvent } from './stationEvents.ts';

/** An event at one place, with its hosted pieces in places that keep the rules. */
export interface RuledVariant {
  readonly event: StationEvent;
  /** Its pieces that keep a distance from others. */
  readonly placed: readonly PlacedItem[];
  readonly displacement: number;
}

/** Starts that may serve a hosted piece: its wish, its window, its host's sides, and touching what it keeps clear of. */
const startsOf = (
  station: Station,
  lowUm: number,
  highUm: number,
  rules: PieceRules,
  others: readonly PlacedItem[],
): readonly number[] => {
  const { widthUm, item, fromMinUm, fromMaxUm, twiceWantedFromUm } = station;
  const starts = [
    fromMinUm,
    fromMaxUm,
    Math.floor(twiceWantedFromUm / 2),
    Math.ceil(twiceWantedFromUm / 2),
    lowUm,
    highUm - widthUm,
  ];
  for (const other of others) {
    const clearUm = rules.clearUm(item, other.item);
    if (clearUm > 0) starts.push(other.fromUm - clearUm - widthUm, other.toUm + clearUm);
  }
  return starts;
};

/** For each hosted piece with a distance to keep, the starts to try, also touching those that share its host. */
const allStarts = (
  ruled: readonly Station[],
  hosted: readonly Station[],
  lowUm: number,
  highUm: number,
  rules: PieceRules,
  others: readonly PlacedItem[],
): readonly (readonly number[])[] => {
  const alone = new Map(hosted.map((one) => [one, startsOf(one, lowUm, highUm, rules, others)]));
  return ruled.map((station) => {
    const starts = new Set(alone.get(station));
    for (const mate of hosted) {
      if (mate === station) continue;
      const apartUm = rules.clearUm(station.item, mate.item);
      for (const fromUm of alone.get(mate)!) {
        starts.add(fromUm + mate.widthUm + apartUm).add(fromUm - apartUm - station.widthUm);
      }
    }
    return [...starts].filter(
      (fromUm) =>
        fromUm >= Math.max(lowUm, station.fromMinUm) &&
        fromUm <= Math.min(highUm - station.widthUm, station.fromMaxUm),
    );
  });
};

/**
 * The ways in which an event may stand at a place, clear of `others`. Where none of its hosted pieces keeps a distance
 * there is one way at most. Otherwise each of those is tried at the starts that can be best by what is known here: a
 * way that no other beats both in displacement and in how far right its pieces are is kept, because what comes to the
 * left only ever asks for more room there.
 */
export const ruledVariants = (
  event: StationEvent,
  fromUm: number,
  marginUm: number,
  rules: PieceRules,
  others: readonly PlacedItem[],
  ignoreHosted: boolean,
): readonly RuledVariant[] => {
  const host: PlacedItem = { item: event.item, fromUm, toUm: fromUm + event.widthUm };
  const isClear = (placed: PlacedItem) => others.every((other) => areClear(rules, placed, other));
  const hostPlaced = rules.reachUm(event.item) > 0 ? [host] : [];
  if (!hostPlaced.every(isClear)) return [];
  const ruled = ignoreHosted ? [] : event.hosted.filter(({ item }) => rules.reachUm(item) > 0);
  if (ruled.length === 0) {
    const displacement = event.displacementAt(fromUm);
    return Number.isFinite(displacement) ? [{ event, placed: hostPlaced, displacement }] : [];
  }
  if (ruled.some(({ item }) => rules.clearUm(item, event.item) > 0)) return [];
  const lowUm = fromUm + marginUm;
  const highUm = fromUm + event.widthUm - marginUm;
  const starts = allStarts(ruled, event.hosted, lowUm, highUm, rules, others);
  const variants: (RuledVariant & { readonly fromsUm: readonly number[] })[] = [];
  const choose = (chosen: readonly number[]): void => {
    if (chosen.length < ruled.length) {
      const station = ruled[chosen.length]!;
      for (const start of starts[chosen.length]!) {
        const placed = { item: station.item, fromUm: start, toUm: start + station.widthUm };
        if (isClear(placed)) choose([...chosen, start]);
      }
      return;
    }
    const placed = ruled.map(({ item, widthUm }, index) => ({
      item,
      fromUm: chosen[index]!,
      toUm: chosen[index]! + widthUm,
    }));
    if (placed.some((one, at) => placed.some((other, rank) => rank < at && !areClear(rules, one, other))))
      return;
    const wishes = event.hosted.map((station) => {
      const rank = ruled.indexOf(station);
      return rank < 0 ? station : { ...station, fromMinUm: chosen[rank]!, fromMaxUm: chosen[rank]! };
    });
    const placement = placeHosted(wishes, lowUm, highUm);
    if (placement === undefined) return;
    const { own } = event;
    const displacement = placement.displacement + (own ? Math.abs(2 * fromUm - own.twiceWantedFromUm) : 0);
    variants.push({
      event: {
        ...event,
        hostedAt: (atUm) => (atUm === fromUm ? placement : undefined),
        displacementAt: (atUm) => (atUm === fromUm ? displacement : Number.POSITIVE_INFINITY),
      },
      placed: [...hostPlaced, ...placed],
      displacement,
      fromsUm: chosen,
    });
  };
  choose([]);
  return variants.filter(
    (one, at) =>
      !variants.some((other, rank) => {
        if (rank === at) return false;
        if (other.displacement > one.displacement) return false;
        if (other.fromsUm.some((from, index) => from < one.fromsUm[index]!)) return false;
        const isSame =
          other.displacement === one.displacement &&
          other.fromsUm.every((from, index) => from === one.fromsUm[index]);
        return !isSame || rank < at;
      }),
  );
};
