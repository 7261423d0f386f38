import type { PieceRules } from './pieceRules.ts';
import type { Station, StationEvent } from './stationEvents.ts';

/*
 * Where hosted pieces that keep distances may have to stand. For a fixed sequence of pieces, their places and the slide
 * of the layout are bound only by differences (a distance, a contact, a host's side) and by fixed values (a wish, a
 * window). In some optimum each of them hangs, by a chain of differences that hold exactly, on a fixed value; the chains
 * are followed here, each at most once through every station.
 */

/** What the contacts of a straight are found from. */
export interface ContactSettings {
  readonly stations: readonly Station[];
  readonly events: readonly StationEvent[];
  readonly rules: PieceRules;
  readonly marginUm: number;
  readonly jointUm: number;
}

/** Starts of hosted stations, by their key. */
export type StartsByStation = ReadonlyMap<number, readonly number[]>;

const inWindow = ({ fromMinUm, fromMaxUm }: Station, fromUm: number): boolean =>
  fromUm >= fromMinUm && fromUm <= fromMaxUm;

const distantHosted = ({ stations, rules }: ContactSettings): readonly Station[] =>
  stations.filter(({ support, item }) => support === 'hosted' && rules.reachUm(item) > 0);

/** The starts on which a chain of distances between hosted stations may hang: wishes and window ends, handed on. */
export const hostedGrounds = (settings: ContactSettings): StartsByStation => {
  const hosted = distantHosted(settings);
  const grounds = new Map(
    hosted.map((station) => {
      const { key, fromMinUm, fromMaxUm, twiceWantedFromUm } = station;
      const wished = [Math.floor(twiceWantedFromUm / 2), Math.ceil(twiceWantedFromUm / 2)];
      return [key, new Set([fromMinUm, fromMaxUm, ...wished].filter((at) => inWindow(station, at)))];
    }),
  );
  for (let round = 1; round < hosted.length; round += 1) {
    for (const station of hosted) {
      for (const other of hosted) {
        const clearUm = settings.rules.clearUm(station.item, other.item);
        if (other === station || clearUm === 0) continue;
        for (const at of [...grounds.get(other.key)!]) {
          for (const fromUm of [at + other.widthUm + clearUm, at - clearUm - station.widthUm]) {
            if (inWindow(station, fromUm)) grounds.get(station.key)!.add(fromUm);
          }
        }
      }
    }
  }
  return new Map([...grounds].map(([key, starts]) => [key, [...starts]]));
};

/** Sums of the widths of every subset of the others on a host. */
const chainSums = (stations: readonly Station[]): readonly number[] => {
  const sums = new Set([0]);
  for (const { widthUm } of stations) for (const sum of [...sums]) sums.add(sum + widthUm);
  return [...sums];
};

/** Places from which a layout may hang by a hosted piece: its host's side, or a piece that it keeps its distance from. */
export const hostedAnchors = (grounds: StartsByStation, settings: ContactSettings): readonly number[] => {
  const { events, rules, jointUm, stations } = settings;
  const anchors = new Set<number>();
  for (const { hosted, widthUm, marginUm } of events) {
    for (const station of hosted) {
      for (const chain of chainSums(hosted.filter((mate) => mate !== station))) {
        for (const at of grounds.get(station.key) ?? []) {
          anchors.add(at - chain - marginUm);
          anchors.add(at + station.widthUm + chain + marginUm - widthUm);
        }
      }
    }
  }
  const items = new Set([...events.map(({ item }) => item), ...stations.map(({ item }) => item)]);
  for (const station of distantHosted(settings)) {
    for (const item of items) {
      const clearUm = rules.clearUm(station.item, item);
      if (clearUm === 0) continue;
      for (const at of grounds.get(station.key)!) {
        anchors.add(at + station.widthUm + clearUm);
        anchors.add(at - clearUm + jointUm);
      }
    }
  }
  return [...anchors];
};

/**
 * The starts to which pieces further left may push each hosted station: just clear of each place that such a piece may
 * take. `fill` are the items that may stand anywhere; `places` are all places of the straight.
 */
export const pushedStarts = (
  grounds: StartsByStation,
  places: readonly number[],
  fill: readonly { readonly id: string; readonly widthUm: number }[],
  settings: ContactSettings,
): StartsByStation => {
  const { events, rules } = settings;
  const hosted = distantHosted(settings);
  const pushed = new Map(hosted.map(({ key }) => [key, new Set<number>()]));
  const push = (item: string, endUm: number) => {
    for (const station of hosted) {
      const clearUm = rules.clearUm(station.item, item);
      if (clearUm > 0 && inWindow(station, endUm + clearUm)) pushed.get(station.key)!.add(endUm + clearUm);
    }
  };
  for (const placeUm of places) {
    for (const { id, widthUm } of fill) push(id, placeUm + widthUm);
    for (const { item, widthUm, marginUm, own, hosted: mates, fromMinUm, fromMaxUm } of events) {
      if (placeUm < fromMinUm || placeUm > fromMaxUm) continue;
      if (own) push(item, placeUm + widthUm);
      for (const mate of mates) {
        push(mate.item, placeUm + marginUm + mate.widthUm);
        push(mate.item, placeUm + widthUm - marginUm);
      }
    }
  }
  for (const station of hosted)
    for (const at of grounds.get(station.key)!) push(station.item, at + station.widthUm);
  for (let round = 1; round < hosted.length; round += 1) {
    for (const station of hosted) {
      for (const at of [...pushed.get(station.key)!]) push(station.item, at + station.widthUm);
    }
  }
  return new Map([...pushed].map(([key, starts]) => [key, [...starts]]));
};
