import type { StartsByStation } from './hostedContacts.ts';
import { placeHosted } from './hostedPlacement.ts';
import type { NodeBudget } from './nodeBudget.ts';
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
  pushed: StartsByStation,
): readonly number[] => {
  const { widthUm, item, fromMinUm, fromMaxUm, twiceWantedFromUm } = station;
  const starts = [
    fromMinUm,
    fromMaxUm,
    Math.floor(twiceWantedFromUm / 2),
    Math.ceil(twiceWantedFromUm / 2),
    lowUm,
    highUm - widthUm,
    ...(pushed.get(station.key) ?? []),
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
  pushed: StartsByStation,
): readonly (readonly number[])[] => {
  const inHost = (station: Station, fromUm: number): boolean =>
    fromUm >= Math.max(lowUm, station.fromMinUm) &&
    fromUm <= Math.min(highUm - station.widthUm, station.fromMaxUm);
  const alone = new Map(
    hosted.map((one) => [
      one,
      new Set(startsOf(one, lowUm, highUm, rules, others, pushed).filter((fromUm) => inHost(one, fromUm))),
    ]),
  );
  // Through each mate on the host at most once: a row of them may touch one another.
  for (let round = 1; round < hosted.length; round += 1) {
    for (const station of hosted) {
      for (const mate of hosted) {
        if (mate === station) continue;
        const apartUm = rules.clearUm(station.item, mate.item);
        for (const fromUm of [...alone.get(mate)!]) {
          for (const start of [fromUm + mate.widthUm + apartUm, fromUm - apartUm - station.widthUm]) {
            if (inHost(station, start)) alone.get(station)!.add(start);
          }
        }
      }
    }
  }
  return ruled.map((station) => [...alone.get(station)!]);
};
/**
 * The ways in which an event may stand at a place, clear of `others`. Where none of its hosted pieces keeps a distance
 * there is one way at most. Otherwise each of those is tried at the starts that can be best: `pushed` are those that
 * pieces further left may ask for. A way that no other beats both in displacement and in how far right its pieces are is
 * kept, because what comes to the left only ever asks for more room there. With `pushed` ignored, hosted pieces keep no
 * distances.
 */
export const ruledVariants = (
  event: StationEvent,
  fromUm: number,
  rules: PieceRules,
  others: readonly PlacedItem[],
  pushed: StartsByStation | 'ignored',
  budget: NodeBudget,
): readonly RuledVariant[] => {
  const host: PlacedItem = { item: event.item, fromUm, toUm: fromUm + event.widthUm };
  const isClear = (placed: PlacedItem) => others.every((other) => areClear(rules, placed, other));
  const hostPlaced = rules.reachUm(event.item) > 0 ? [host] : [];
  if (!hostPlaced.every(isClear)) return [];
  const ruled = pushed === 'ignored' ? [] : event.hosted.filter(({ item }) => rules.reachUm(item) > 0);
  if (pushed === 'ignored' || ruled.length === 0) {
    const displacement = event.displacementAt(fromUm);
    return Number.isFinite(displacement) ? [{ event, placed: hostPlaced, displacement }] : [];
  }
  if (ruled.some(({ item }) => rules.clearUm(item, event.item) > 0)) return [];
  const lowUm = fromUm + event.marginUm;
  const highUm = fromUm + event.widthUm - event.marginUm;
  const starts = allStarts(ruled, event.hosted, lowUm, highUm, rules, others, pushed);
  const variants: (RuledVariant & { readonly fromsUm: readonly number[] })[] = [];
  const choose = (chosen: readonly number[]): void => {
    if (!budget.spend(1)) return;
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
    const displacement =
      placement.displacement + (own ? own.weight * Math.abs(2 * fromUm - own.twiceWantedFromUm) : 0);
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
  // By displacement, then from the right: a way stays unless one before it has all its pieces as far right.
  variants.sort(
    (a, b) =>
      a.displacement - b.displacement ||
      b.fromsUm.reduce((sum, at) => sum + at, 0) - a.fromsUm.reduce((sum, at) => sum + at, 0),
  );
  const kept: typeof variants = [];
  for (const variant of variants) {
    budget.spend(1 + (kept.length >> 3));
    if (!kept.some((other) => other.fromsUm.every((at, index) => at >= variant.fromsUm[index]!))) {
      kept.push(variant);
    }
  }
  return kept;
};
