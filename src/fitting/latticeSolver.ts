import { eventWindows } from './eventWindows.ts';
import type { FillItem } from './fillStock.ts';
import type { FillTable } from './fillTable.ts';
import { type LatticePlaces, latticePlaces } from './latticePlaces.ts';
import { compareRests, type LatticeRest, restSequence } from './latticeRest.ts';
import { countLeftovers } from './leftoverVerdict.ts';
import { bitCount, placeableBits, withFewestMissed } from './missedStations.ts';
import { addScores, compareScores, compareSum, type ScoreVector } from './scoreVector.ts';
import type { StationEvent } from './stationEvents.ts';
import { liveBits } from './stationEvents.ts';
import type { Stretch } from './stretch.ts';
import type { FoundSequence, StretchSettings } from './stretchSettings.ts';

const itemScore = (item: FillItem): ScoreVector => [0, 0, 0, 0, 1, 0, item.price];

const leftoverScore = (
  leftUm: number,
  rightUm: number,
  uncertaintyUm: number,
  fillerMaxUm: number,
): ScoreVector => {
  const { madeToMeasure, fillers, madeLengthUm } = countLeftovers(
    leftUm,
    rightUm,
    uncertaintyUm,
    fillerMaxUm,
  );
  return [0, madeToMeasure, leftUm + rightUm, fillers, 0, 0, 0, madeLengthUm];
};

/**
 * Solves a stretch with events piece by piece over all places that a piece may start at. Where widths are so odd that
 * nearly every length can be made, this takes far fewer steps than pairing the places of events as `stretchSolver`
 * does; where they are regular it takes more. Both are exact and agree.
 */
export const solveOnLattice = (
  stretch: Stretch,
  settings: StretchSettings,
): ReadonlyMap<number, FoundSequence> => {
  const lattice = latticePlaces(stretch, settings);
  return withFewestMissed(placeableBits(lattice.events), settings, (mayMiss) =>
    searchLattice(stretch, settings, lattice, mayMiss),
  );
};

const searchLattice = (
  stretch: Stretch,
  settings: StretchSettings,
  { events, places }: LatticePlaces,
  mayMiss: number,
): ReadonlyMap<number, FoundSequence> => {
  const { tables, fill, fillerMaxUm, order, longestIsBest, sharedBits, budget } = settings;
  const joint = tables.jointUm;
  const placeable = placeableBits(events);
  const startingAt = eventWindows(events);
  const leastPlacedInAll = bitCount(placeable) - mayMiss;
  const live = liveBits(events, stretch.leftMinUm, joint);
  const leftFixed = stretch.left !== 'exposed';
  const rightFixed = stretch.right !== 'exposed';
  const open = leftFixed && rightFixed;
  // At most 2^24 sets of stations, twice, times this: below 2^53, so the key is an exact integer.
  const openKinds = stretch.uncertaintyUm + 2;
  const rests = new Map<number, readonly LatticeRest[]>();
  const found = new Map<number, FoundSequence>();
  const best = new Map<number, { rest: LatticeRest; score: ScoreVector; placeUm: number }>();

  for (const placeUm of places) {
    if (!budget.spend(1)) break;
    const keepBits = live(placeUm) | sharedBits;
    // A rest must have placed what nothing can place to its left any more, but for those that may be missed.
    const leastPlaced = bitCount(placeable & ~keepBits) - mayMiss;
    const kept = new Map<number, LatticeRest>();
    // Most rests lose: what they would be is compared before it is made.
    const keep = (
      bits: number,
      openRightUm: number,
      firstCarried: boolean,
      own: ScoreVector,
      rest: ScoreVector,
      event: StationEvent | undefined,
      item: FillItem | undefined,
      next: LatticeRest | undefined,
      gap: LatticeRest['gap'],
    ) => {
      if (-own[0]! - rest[0]! - bitCount(bits) < leastPlaced) return;
      const key = (bits * 2 + (firstCarried ? 1 : 0)) * openKinds + openRightUm + 1;
      const other = kept.get(key);
      const difference = other === undefined ? -1 : compareSum(own, rest, other.score, order);
      if (difference > 0) return;
      const score = addScores(own, rest);
      const made: LatticeRest = { bits, openRightUm, firstCarried, score, event, item, next, gap };
      if (other === undefined || difference < 0 || compareRests(made, other) < 0) kept.set(key, made);
    };
    for (const event of startingAt(placeUm)) {
      const toUm = placeUm + event.widthUm;
      if (toUm > stretch.rightMaxUm) continue;
      const displacement = event.displacementAt(placeUm);
      if (!Number.isFinite(displacement)) continue;
      const own: ScoreVector = [-event.stations, 0, 0, 0, 1, displacement, event.price];
      const finish = (gap: { table: FillTable; index: number } | undefined, endUm: number) => {
        budget.spend(1);
        const rightUm = rightFixed ? stretch.rightUm - endUm : 0;
        if (rightFixed ? rightUm < 0 : endUm < stretch.rightMinUm || endUm > stretch.rightMaxUm) return;
        const mayClose = open && rightUm <= stretch.uncertaintyUm;
        let side: ScoreVector = mayClose
          ? [0, 0, rightUm, 0, 0, 0, 0]
          : leftoverScore(0, rightUm, stretch.uncertaintyUm, fillerMaxUm);
        if (gap) {
          side = addScores(side, [0, 0, 0, 0, gap.table.pieces[gap.index]!, 0, gap.table.prices[gap.index]!]);
        }
        const openRightUm = mayClose ? rightUm : -1;
        keep(event.bits & keepBits, openRightUm, event.carried, own, side, event, undefined, undefined, gap);
      };
      const table = tables.table(event.carried, true);
      let index = table.floorIndex(stretch.rightMaxUm - toUm);
      if (rightFixed && longestIsBest) {
        if (index >= 0) finish({ table, index }, toUm + table.sums[index]!);
        else if (!event.carried) finish(undefined, toUm);
      } else {
        const leastUm = rightFixed ? 0 : stretch.rightMinUm - toUm;
        for (; index >= 0 && table.sums[index]! >= leastUm; index -= 1) {
          finish({ table, index }, toUm + table.sums[index]!);
        }
        if (!event.carried) finish(undefined, toUm);
      }
      for (const next of rests.get(toUm + joint) ?? []) {
        budget.spend(1);
        if ((next.bits & event.bits) !== 0 || (event.carried && next.firstCarried)) continue;
        const bits = (next.bits | event.bits) & keepBits;
        keep(bits, next.openRightUm, event.carried, own, next.score, event, undefined, next, undefined);
      }
    }
    for (const item of fill) {
      const own = itemScore(item);
      for (const next of rests.get(placeUm + item.widthUm + joint) ?? []) {
        budget.spend(1);
        if (item.carried && next.firstCarried) continue;
        const bits = next.bits & keepBits;
        keep(bits, next.openRightUm, item.carried, own, next.score, undefined, item, next, undefined);
      }
    }
    if (kept.size === 0) continue;
    const list = [...kept.values()];
    rests.set(placeUm, list);
    const leftUm = leftFixed ? placeUm - stretch.leftUm : 0;
    if (leftFixed ? leftUm < 0 : placeUm < stretch.leftMinUm || placeUm > stretch.leftMaxUm) continue;
    for (const rest of list) {
      if (rest.firstCarried || -rest.score[0]! < leastPlacedInAll) continue;
      let side: ScoreVector;
      if (rest.openRightUm >= 0) {
        const both = leftoverScore(leftUm, rest.openRightUm, stretch.uncertaintyUm, fillerMaxUm);
        side = [0, both[1]!, leftUm, both[3]!, 0, 0, 0, both[7]!];
      } else side = leftoverScore(leftUm, 0, open ? -1 : stretch.uncertaintyUm, fillerMaxUm);
      const score = addScores(rest.score, side);
      const key = rest.bits & sharedBits;
      const other = best.get(key);
      const difference = other === undefined ? -1 : compareScores(score, other.score, order);
      if (other === undefined || difference < 0 || (difference === 0 && compareRests(rest, other.rest) < 0)) {
        best.set(key, { rest, score, placeUm });
      }
    }
  }
  for (const [key, { rest, score }] of best) found.set(key, { sequence: restSequence(rest), score });
  return found;
};
