import type { FillItem } from './fillStock.ts';
import { micrometres } from './micrometre.ts';
import type { PlacedItem } from './placedItem.ts';
import type { FitProblem } from './problemSchema.ts';
import type { Station } from './stationEvents.ts';
import type { Stretch, StretchSide } from './stretch.ts';
import { freeSideOf } from './wantedItems.ts';

/** The rules between the pieces that can stand on one straight. */
export interface PieceRules {
  /** The distance that two items keep, in micrometres; 0 where there is none to keep. */
  readonly clearUm: (item: string, other: string) => number;
  /** The greatest distance that an item keeps from any that can stand on the straight; 0 where none. */
  readonly reachUm: (item: string) => number;
  /** Items of which one must stand next to this one, or nothing. */
  readonly besideOf: (item: string) => ReadonlySet<string> | undefined;
  /** Whether another item may need this one next to it. */
  readonly isNeeded: (item: string) => boolean;
  /** The side, along the front, at which an item must be free, or nothing. */
  readonly freeSideOf: (item: string) => 'start' | 'end' | undefined;
  /** Whether a distance is to be kept at all on this straight. */
  readonly hasDistances: boolean;
  /** Whether a wanted piece that stands in or on another keeps a distance. */
  readonly hasHostedDistances: boolean;
  /** Whether any rule applies on this straight. */
  readonly isEmpty: boolean;
}

/** The rules that can matter on a straight with this fill and these wanted stations. */
export const pieceRules = (
  problem: FitProblem,
  fill: readonly FillItem[],
  stations: readonly Station[],
): PieceRules => {
  const present = new Set([...fill.map(({ id }) => id), ...stations.map(({ item }) => item)]);
  const beside = new Map<string, ReadonlySet<string>>();
  const needed = new Set<string>();
  const clear = new Map<string, Map<string, number>>();
  const keep = (item: string, other: string, distanceUm: number) => {
    let others = clear.get(item);
    if (others === undefined) {
      others = new Map();
      clear.set(item, others);
    }
    others.set(other, Math.max(others.get(other) ?? 0, distanceUm));
  };
  const freeSides = new Map<string, 'start' | 'end'>();
  for (const item of problem.stock) {
    if (!present.has(item.id)) continue;
    const side = freeSideOf(problem, item);
    if (side !== undefined) freeSides.set(item.id, side);
    if (item.beside !== undefined) {
      beside.set(item.id, new Set(item.beside));
      for (const other of item.beside) needed.add(other);
    }
    for (const { item: other, distanceMm } of item.clearOf ?? []) {
      if (!present.has(other) || distanceMm === 0) continue;
      keep(item.id, other, micrometres(distanceMm));
      keep(other, item.id, micrometres(distanceMm));
    }
  }
  const reachUm = (item: string) => Math.max(0, ...(clear.get(item)?.values() ?? []));
  return {
    clearUm: (item, other) => clear.get(item)?.get(other) ?? 0,
    reachUm,
    besideOf: (item) => beside.get(item),
    isNeeded: (item) => needed.has(item),
    freeSideOf: (item) => freeSides.get(item),
    hasDistances: clear.size > 0,
    hasHostedDistances: stations.some(({ support, item }) => support === 'hosted' && reachUm(item) > 0),
    isEmpty: clear.size === 0 && beside.size === 0 && freeSides.size === 0,
  };
};

/** Whether two pieces keep the distance between them that the rules ask for. */
export const areClear = (rules: PieceRules, one: PlacedItem, other: PlacedItem): boolean =>
  Math.max(one.fromUm - other.toUm, other.fromUm - one.toUm, 0) >= rules.clearUm(one.item, other.item);

const openSides: ReadonlySet<StretchSide> = new Set(['exposed', 'opening', 'bay']);

/** Whether an item may be the last of a stretch at its start or its end, as far as the side goes at which it is free. */
export const mayEnd = (rules: PieceRules, item: string, stretch: Stretch, side: 'start' | 'end'): boolean =>
  rules.freeSideOf(item) !== side || openSides.has(side === 'start' ? stretch.left : stretch.right);
