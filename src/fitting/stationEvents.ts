import { arcFrontOf } from './arcFront.ts';
import type { FillItem } from './fillStock.ts';
import { isNarrowEnough, isShallowEnough } from './fillStock.ts';
import { type HostedPlacement, placeHosted } from './hostedPlacement.ts';
import { micrometres } from './micrometre.ts';
import type { NodeBudget } from './nodeBudget.ts';
import type { FitProblem, StockItem } from './problemSchema.ts';
import { priceUnits } from './scoreVector.ts';
import { wantedItems } from './wantedItems.ts';

/** A wanted station of one straight as the solver sees it; `bit` is its place in that straight's masks. */
export interface Station {
  readonly id: string;
  readonly item: string;
  readonly bit: number;
  /** Its own number on the straight: a wish that either of a pair may answer is one station for each, of one bit. */
  readonly key: number;
  readonly widthUm: number;
  /** Its own width, where that is not what it takes of the front: on an arc. */
  readonly ownUm?: number;
  readonly support: 'standing' | 'carried' | 'hosted';
  readonly price: number;
  readonly fromMinUm: number;
  readonly fromMaxUm: number;
  readonly twiceWantedFromUm: number;
  /** What a micrometre of its displacement counts for: 1, or 0 where only another station's is asked for. */
  readonly weight: 0 | 1;
}

/**
 * A piece whose place matters: a wanted station that takes length, or a standing piece that hosts wanted ones, or
 * both. Its start may lie from `fromMinUm` to `fromMaxUm`.
 */
export interface StationEvent {
  readonly item: string;
  readonly widthUm: number;
  /** Its own width, where that is not what it takes of the front: on an arc. */
  readonly ownUm?: number;
  /** What hosted pieces keep from its sides along the front. */
  readonly marginUm: number;
  readonly carried: boolean;
  readonly own: Station | undefined;
  readonly hosted: readonly Station[];
  readonly bits: number;
  readonly stations: number;
  readonly price: number;
  readonly fromMinUm: number;
  readonly fromMaxUm: number;
  /** Total displacement in half micrometres with the piece's start here; infinite where the hosted ones don't fit. */
  readonly displacementAt: (fromUm: number) => number;
  readonly hostedAt: (fromUm: number) => HostedPlacement | undefined;
  /** The starts at which displacement bends or a window ends: an optimum lies at one of them or at a fixed side. */
  readonly bends: readonly number[];
}

/** More pieces than this on one host are not tried; where that may matter the budget is spent, so it shows. */
const maxHostedTogether = 5;

/**
 * The stations wanted on a straight that are narrow and shallow enough, in the sequence of their ids. With `onlyMoved`
 * only that station's displacement counts.
 */
export const stationsOf = (problem: FitProblem, straight: number, onlyMoved?: string): readonly Station[] => {
  const arc = arcFrontOf(problem, straight);
  const takesLength = ({ support }: StockItem) => support === 'standing' || support === 'carried';
  /** What an item takes of the front; nothing where it can't stand on the arc. */
  const takenUm = (item: StockItem): number | undefined =>
    arc && takesLength(item) ? arc.sectorUm(item.widthMm) : micrometres(item.widthMm);
  return (problem.wanted ?? [])
    .map((wanted) => ({
      wanted,
      items: wantedItems(problem, wanted).filter(
        (item) =>
          isNarrowEnough(problem, item) && isShallowEnough(problem, item) && takenUm(item) !== undefined,
      ),
    }))
    .filter(({ wanted, items }) => wanted.straight === straight && items.length > 0)
    .sort((a, b) => (a.wanted.id < b.wanted.id ? -1 : 1))
    .flatMap(({ wanted, items }, rank) => items.map((item) => ({ wanted, item, rank })))
    .map(({ wanted, item, rank }, key) => {
      const widthUm = takenUm(item)!;
      const nearUm = micrometres(wanted.nearMm);
      const withinUm = micrometres(wanted.withinMm);
      return {
        id: wanted.id,
        item: item.id,
        bit: 2 ** rank,
        key,
        widthUm,
        ...(arc && takesLength(item) ? { ownUm: micrometres(item.widthMm) } : {}),
        support: item.support === 'standing' || item.support === 'carried' ? item.support : 'hosted',
        price: priceUnits(item.price),
        fromMinUm: Math.ceil((2 * (nearUm - withinUm) - widthUm) / 2),
        fromMaxUm: Math.floor((2 * (nearUm + withinUm) - widthUm) / 2),
        twiceWantedFromUm: 2 * nearUm - widthUm,
        weight: onlyMoved === undefined || onlyMoved === wanted.id ? 1 : 0,
      };
    });
};

const wantedStarts = (station: Station): readonly number[] => [
  station.fromMinUm,
  station.fromMaxUm,
  Math.floor(station.twiceWantedFromUm / 2),
  Math.ceil(station.twiceWantedFromUm / 2),
];

/** Sums of widths of every subset. */
const chainSums = (stations: readonly Station[]): readonly number[] => {
  const sums = new Set([0]);
  for (const { widthUm } of stations) for (const sum of [...sums]) sums.add(sum + widthUm);
  return [...sums];
};

/** What can host pieces, or is wanted itself. */
interface EventHost {
  readonly item: string;
  readonly widthUm: number;
  readonly ownUm?: number | undefined;
  readonly carried: boolean;
  readonly price: number;
  readonly own?: Station;
}

/**
 * What hosted pieces keep from the sides of what a host takes of the front. On an arc places on a host are measured along
 * its own face from its middle, and the face is not as long as the arc of its sector.
 */
const marginOn = ({ widthUm, ownUm = widthUm }: EventHost, marginUm: number): number =>
  marginUm + Math.ceil((widthUm - ownUm) / 2);

const makeEvent = (
  host: EventHost,
  hosted: readonly Station[],
  hostMarginUm: number,
): StationEvent | undefined => {
  const { own, widthUm } = host;
  const marginUm = marginOn(host, hostMarginUm);
  let fromMinUm = own ? own.fromMinUm : Number.NEGATIVE_INFINITY;
  let fromMaxUm = own ? own.fromMaxUm : Number.POSITIVE_INFINITY;
  let needUm = 2 * marginUm;
  const bends: number[] = own ? [...wantedStarts(own)] : [];
  for (const station of hosted) {
    needUm += station.widthUm;
    fromMinUm = Math.max(fromMinUm, station.fromMinUm + station.widthUm + marginUm - widthUm);
    fromMaxUm = Math.min(fromMaxUm, station.fromMaxUm - marginUm);
    for (const chain of chainSums(hosted.filter((other) => other !== station))) {
      for (const start of wantedStarts(station)) {
        bends.push(start - chain - marginUm, start + station.widthUm + chain + marginUm - widthUm);
      }
    }
  }
  if (hosted.length > 0 && needUm > widthUm) return undefined;
  if (fromMinUm > fromMaxUm) return undefined;
  bends.push(fromMinUm, fromMaxUm);
  const hostedAt = (fromUm: number) => placeHosted(hosted, fromUm + marginUm, fromUm + widthUm - marginUm);
  const known = new Map<number, number>();
  const hostedDisplacementAt = (fromUm: number): number => {
    const before = known.get(fromUm);
    if (before !== undefined) return before;
    const displacement = hostedAt(fromUm)?.displacement ?? Number.POSITIVE_INFINITY;
    known.set(fromUm, displacement);
    return displacement;
  };
  return {
    item: host.item,
    widthUm,
    ...(host.ownUm === undefined ? {} : { ownUm: host.ownUm }),
    marginUm,
    carried: host.carried,
    own,
    hosted,
    bits: (own?.bit ?? 0) + hosted.reduce((bits, station) => bits + station.bit, 0),
    stations: (own ? 1 : 0) + hosted.length,
    price: host.price + hosted.reduce((sum, station) => sum + station.price, 0),
    fromMinUm,
    fromMaxUm,
    hostedAt,
    displacementAt: (fromUm) =>
      (own ? own.weight * Math.abs(2 * fromUm - own.twiceWantedFromUm) : 0) +
      (hosted.length > 0 ? hostedDisplacementAt(fromUm) : 0),
    bends: [...new Set(bends)].filter((fromUm) => fromUm >= fromMinUm && fromUm <= fromMaxUm),
  };
};

/** Every set of hosted stations that could share one host of this width, the empty set included. */
const hostedSets = (
  hosted: readonly Station[],
  widthUm: number,
  marginUm: number,
  budget: NodeBudget,
): readonly (readonly Station[])[] => {
  const sets: Station[][] = [[]];
  for (const station of hosted) {
    for (const set of [...sets]) {
      const need = set.reduce((sum, other) => sum + other.widthUm, station.widthUm + 2 * marginUm);
      const apart = set.some(
        (other) =>
          Math.max(other.fromMinUm + other.widthUm, station.fromMinUm + station.widthUm) -
            Math.min(other.fromMaxUm, station.fromMaxUm) >
          widthUm - 2 * marginUm,
      );
      const isTwice = set.some((other) => other.bit === station.bit);
      if (need > widthUm || apart || isTwice) continue;
      if (!budget.spend(1)) return sets;
      if (set.length >= maxHostedTogether) {
        budget.giveUpProof();
        return sets;
      }
      sets.push([...set, station]);
    }
  }
  return sets;
};

/** All events of a straight: each station on its own, and each standing piece with each set of hosted stations. */
export const stationEvents = (
  stations: readonly Station[],
  fill: readonly FillItem[],
  marginUm: number,
  budget: NodeBudget,
): readonly StationEvent[] => {
  const hosted = stations.filter((station) => station.support === 'hosted');
  const events: StationEvent[] = [];
  const add = (event: StationEvent | undefined) => {
    if (event !== undefined) events.push(event);
  };
  for (const own of stations) {
    if (own.support === 'hosted') continue;
    const host = {
      item: own.item,
      widthUm: own.widthUm,
      ownUm: own.ownUm,
      carried: own.support === 'carried',
      price: own.price,
      own,
    };
    if (own.support === 'carried') add(makeEvent(host, [], marginUm));
    else {
      const others = hosted.filter(({ bit }) => bit !== own.bit);
      for (const set of hostedSets(others, own.widthUm, marginOn(host, marginUm), budget))
        add(makeEvent(host, set, marginUm));
    }
  }
  for (const item of fill) {
    if (item.carried) continue;
    const { id, widthUm, ownUm, price } = item;
    const host = { item: id, widthUm, ownUm, carried: false, price };
    for (const set of hostedSets(hosted, widthUm, marginOn(host, marginUm), budget)) {
      if (set.length > 0) add(makeEvent(host, set, marginUm));
    }
  }
  return events;
};

/** For a place, the bits of the stations that some event could still put wholly to the left of it. */
export const liveBits = (
  events: readonly StationEvent[],
  lowUm: number,
  jointUm: number,
): ((placeUm: number) => number) => {
  const leftmostEnd = new Map<number, number>();
  for (const event of events) {
    const endUm = Math.max(event.fromMinUm, lowUm) + event.widthUm + jointUm;
    for (const station of [...(event.own ? [event.own] : []), ...event.hosted]) {
      leftmostEnd.set(station.bit, Math.min(leftmostEnd.get(station.bit) ?? endUm, endUm));
    }
  }
  return (placeUm) => {
    let bits = 0;
    for (const [bit, endUm] of leftmostEnd) if (endUm <= placeUm) bits |= bit;
    return bits;
  };
};
