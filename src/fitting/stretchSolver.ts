import type { FillTable } from './fillTable.ts';
import { solveOnLattice } from './latticeSolver.ts';
import { countLeftovers } from './leftoverVerdict.ts';
import { bitCount, placeableBits, withFewestMissed } from './missedStations.ts';
import { nodeBudget } from './nodeBudget.ts';
import { addScores, compareScores, LEFTOVER, type ScoreSequence, type ScoreVector } from './scoreVector.ts';
import type { StationEvent } from './stationEvents.ts';
import type { Stretch } from './stretch.ts';
import {
  compareSequences,
  emptyLayout,
  placeSequence,
  type SequencePiece,
  type StretchLayout,
} from './stretchLayout.ts';
import { type StretchNodes, stretchNodes } from './stretchNodes.ts';
import type { FoundSequence, StretchSettings } from './stretchSettings.ts';

/** The rest of a stretch from one event to its right side: the best of its kind. */
interface Tail {
  readonly event: StationEvent;
  readonly bits: number;
  /** The right leftover where left and right together may still close; -1 where it is counted already. */
  readonly openRightUm: number;
  readonly score: ScoreVector;
  readonly gap: { readonly table: FillTable; readonly index: number } | undefined;
  readonly next: Tail | undefined;
}

const tailSequence = (tail: Tail): readonly SequencePiece[] => {
  const sequence: SequencePiece[] = [];
  for (let at: Tail | undefined = tail; at !== undefined; at = at.next) {
    sequence.push({ event: at.event });
    if (at.gap) for (const item of at.gap.table.itemsAt(at.gap.index)) sequence.push({ item });
  }
  return sequence;
};

const leftoverScore = (
  leftUm: number,
  rightUm: number,
  stretch: Stretch,
  fillerMaxUm: number,
): ScoreVector => {
  const { madeToMeasure, fillers, madeLengthUm } = countLeftovers(
    leftUm,
    rightUm,
    stretch.uncertaintyUm,
    fillerMaxUm,
  );
  return [0, madeToMeasure, leftUm + rightUm, fillers, 0, 0, 0, madeLengthUm];
};

const gapScore = (table: FillTable, index: number): ScoreVector => [
  0,
  0,
  0,
  0,
  table.pieces[index]!,
  0,
  table.prices[index]!,
];

/** The score of fill of this length without events: what it leaves over takes the form that counts least. */
const plainScore = (
  stretch: Stretch,
  lengthUm: number,
  pieces: number,
  price: number,
  fillerMaxUm: number,
  order: ScoreSequence,
): ScoreVector | undefined => {
  const leftUm = Math.max(0, stretch.rightMinUm - stretch.leftMaxUm - lengthUm);
  const open = stretch.left !== 'exposed' && stretch.right !== 'exposed';
  if (leftUm > 0 && stretch.left === 'exposed' && stretch.right === 'exposed') return undefined;
  const scored = (onePartUm: number): ScoreVector => {
    const counted = countLeftovers(leftUm - onePartUm, onePartUm, stretch.uncertaintyUm, fillerMaxUm);
    return [0, counted.madeToMeasure, leftUm, counted.fillers, pieces, 0, price, counted.madeLengthUm];
  };
  const whole = scored(0);
  if (!open || leftUm <= fillerMaxUm) return whole;
  // With a filler's most at one side the other part is a filler too, or as little made to measure as can be.
  const split = scored(fillerMaxUm);
  return compareScores(split, whole, order) < 0 ? split : whole;
};

/** The best layout without an event: fill only, or nothing. */
const plainLayout = (stretch: Stretch, settings: StretchSettings): StretchLayout | undefined => {
  const { tables, fillerMaxUm, order, longestIsBest, budget } = settings;
  let best = emptyLayout(stretch, fillerMaxUm);
  const table = tables.table(true, true);
  const joint = tables.jointUm;
  for (let index = table.floorIndex(stretch.rightMaxUm - stretch.leftMinUm + joint); index >= 0; index -= 1) {
    if (!budget.spend(1)) break;
    const lengthUm = table.sums[index]! - joint;
    const score = plainScore(
      stretch,
      lengthUm,
      table.pieces[index]!,
      table.prices[index]!,
      fillerMaxUm,
      order,
    );
    if (score === undefined) break;
    // Shorter sums only leave more over.
    if (best !== undefined && longestIsBest && score[LEFTOVER]! > best.score[LEFTOVER]!) break;
    if (best !== undefined && compareScores(score, best.score, order) > 0) continue;
    const sequence = table.itemsAt(index).map((item) => ({ item }));
    const layout = placeSequence(stretch, sequence, joint, fillerMaxUm, order);
    if (layout === undefined) continue;
    if (compareScores(layout.score, score, order) !== 0) {
      throw new Error('Fill must score as its length, pieces and price say.');
    }
    if (
      best === undefined ||
      (compareScores(score, best.score, order) || compareSequences(sequence, best.sequence)) < 0
    ) {
      best = layout;
    }
  }
  return best;
};

/**
 * The best layout of one stretch for each set of shared stations that it places (key: their bits). Exact: the nodes
 * of `stretchNodes` hold every place at which an event stands in some optimal layout, and over them the best tail
 * from each event to the right side is found from right to left, per set of stations that may still be wanted on the
 * left. Scores add and are compared place by place, so a best whole has best tails. Station counts are negative in
 * `score[0]`: placed ones, not missing ones.
 */
export const solveStretch = (
  stretch: Stretch,
  settings: StretchSettings,
): ReadonlyMap<number, StretchLayout> => {
  const best = new Map<number, StretchLayout>();
  const plain = plainLayout(stretch, settings);
  if (plain !== undefined) best.set(0, plain);
  if (settings.events.length === 0) return best;
  const pairing = nodeBudget(settings.pairingSteps);
  const paired = solveWithEvents(stretch, { ...settings, budget: pairing });
  settings.budget.spend(pairing.spent());
  const found = pairing.isExhausted() ? solveThinned(stretch, settings) : paired;
  for (const [key, { sequence, score }] of found) {
    const layout = placeSequence(
      stretch,
      sequence,
      settings.tables.jointUm,
      settings.fillerMaxUm,
      settings.order,
    );
    if (layout === undefined || compareScores(layout.score, score, settings.order) > 0) {
      throw new Error('A sequence found over its places must keep its score when it is placed.');
    }
    const other = best.get(key);
    if (
      other === undefined ||
      (compareScores(layout.score, other.score, settings.order) ||
        compareSequences(sequence, other.sequence)) < 0
    ) {
      best.set(key, layout);
    }
  }
  return best;
};

/**
 * Solves piece by piece; where the range has so many or so odd widths that the budget does not reach, again with every
 * fourth width of it, until it does. Then the budget stays spent, and the answer says `stopped`.
 */
const solveThinned = (stretch: Stretch, settings: StretchSettings): ReadonlyMap<number, FoundSequence> => {
  const steps = settings.budget.remaining();
  for (let fill = settings.fill; ; fill = fill.filter((_, index) => index % 4 === 0)) {
    const hosts = new Set(fill.map((item) => item.id));
    const events = settings.events.filter((event) => event.own !== undefined || hosts.has(event.item));
    const budget = nodeBudget(steps);
    const found = solveOnLattice(stretch, { ...settings, fill, events, budget });
    settings.budget.spend(budget.spent());
    if (!budget.isExhausted() || fill.length <= 1) return found;
    settings.budget.giveUpProof();
  }
};

const solveWithEvents = (stretch: Stretch, settings: StretchSettings): ReadonlyMap<number, FoundSequence> => {
  const nodes = stretchNodes(stretch, settings);
  return withFewestMissed(placeableBits(nodes.events), settings, (mayMiss) =>
    searchPairs(stretch, settings, nodes, mayMiss),
  );
};

const searchPairs = (
  stretch: Stretch,
  settings: StretchSettings,
  nodes: StretchNodes,
  mayMiss: number,
): ReadonlyMap<number, FoundSequence> => {
  const { tables, fillerMaxUm, order, longestIsBest, sharedBits, budget } = settings;
  const joint = tables.jointUm;
  const placeable = placeableBits(nodes.events);
  const leastPlacedInAll = bitCount(placeable) - mayMiss;
  const { events } = nodes;
  const leftFixed = stretch.left !== 'exposed';
  const rightFixed = stretch.right !== 'exposed';
  const open = leftFixed && rightFixed;
  const tails = events.map(() => new Map<number, Tail[]>());
  const found = new Map<number, { tail: Tail; score: ScoreVector; head: readonly SequencePiece[] }>();

  const keep = (list: Map<number, Map<number, Tail>>, key: number, tail: Tail, leastPlaced: number) => {
    if (-tail.score[0]! - bitCount(key) < leastPlaced) return;
    let byOpen = list.get(key);
    if (byOpen === undefined) {
      byOpen = new Map();
      list.set(key, byOpen);
    }
    const other = byOpen.get(tail.openRightUm);
    if (other === undefined) {
      byOpen.set(tail.openRightUm, tail);
      return;
    }
    const difference = compareScores(tail.score, other.score, order);
    if (
      difference < 0 ||
      (difference === 0 && compareSequences(tailSequence(tail), tailSequence(other)) < 0)
    ) {
      byOpen.set(tail.openRightUm, tail);
    }
  };

  for (const node of nodes.descending) {
    const event = events[node.event]!;
    const { fromUm } = node;
    if (!budget.spend(1 + (events.length >> 3))) break;
    const own: ScoreVector = [-event.stations, 0, 0, 0, 1, event.displacementAt(fromUm), event.price];
    const liveBits = nodes.liveLeftOf(fromUm) | sharedBits;
    const kept = new Map<number, Map<number, Tail>>();
    const leastPlaced = bitCount(placeable & ~liveBits) - mayMiss;
    const toUm = fromUm + event.widthUm;
    // To the right side.
    const finish = (gap: Tail['gap'], endUm: number) => {
      const rightUm = rightFixed ? stretch.rightUm - endUm : 0;
      if (rightFixed ? rightUm < 0 : endUm < stretch.rightMinUm || endUm > stretch.rightMaxUm) return;
      const mayClose = open && rightUm <= stretch.uncertaintyUm;
      const side: ScoreVector = mayClose
        ? [0, 0, rightUm, 0, 0, 0, 0]
        : leftoverScore(0, rightUm, stretch, fillerMaxUm);
      let score = addScores(own, side);
      if (gap) score = addScores(score, gapScore(gap.table, gap.index));
      const bits = event.bits & liveBits;
      keep(
        kept,
        bits,
        {
          event,
          bits,
          openRightUm: mayClose ? rightUm : -1,
          score,
          gap,
          next: undefined,
        },
        leastPlaced,
      );
    };
    const endTable = tables.table(event.carried, true);
    let index = endTable.floorIndex(stretch.rightMaxUm - toUm);
    if (rightFixed && longestIsBest) {
      if (index >= 0) finish({ table: endTable, index }, toUm + endTable.sums[index]!);
      else if (!event.carried) finish(undefined, toUm);
    } else {
      for (
        ;
        index >= 0 && toUm + endTable.sums[index]! >= (rightFixed ? 0 : stretch.rightMinUm);
        index -= 1
      ) {
        budget.spend(1);
        finish({ table: endTable, index }, toUm + endTable.sums[index]!);
      }
      if (!event.carried) finish(undefined, toUm);
    }
    // To the next event.
    for (const [nextEvent, startsUm] of nodes.startsOf.entries()) {
      const next = events[nextEvent]!;
      if ((next.bits & event.bits) !== 0 || next.fromMaxUm < toUm + joint) continue;
      const table = tables.table(event.carried, next.carried);
      for (let at = startsUm.length - 1; at >= 0; at -= 1) {
        const gapUm = startsUm[at]! - toUm - joint;
        if (gapUm < 0) break;
        if (!budget.spend(1)) break;
        let gap: Tail['gap'];
        if (gapUm === 0) {
          if (event.carried && next.carried) continue;
        } else {
          const found = table.indexOf(gapUm);
          if (found < 0) continue;
          gap = { table, index: found };
        }
        let head = own;
        if (gap) head = addScores(head, gapScore(gap.table, gap.index));
        for (const tail of tails[nextEvent]!.get(startsUm[at]!) ?? []) {
          if ((tail.bits & event.bits) !== 0) continue;
          const bits = (tail.bits | event.bits) & liveBits;
          keep(
            kept,
            bits,
            {
              event,
              bits,
              openRightUm: tail.openRightUm,
              score: addScores(head, tail.score),
              gap,
              next: tail,
            },
            leastPlaced,
          );
        }
      }
    }
    const list = [...kept.values()].flatMap((byOpen) => [...byOpen.values()]);
    if (list.length === 0) continue;
    tails[node.event]!.set(fromUm, list);
    // From the left side.
    const start = (gap: { table: FillTable; index: number } | undefined, startUm: number) => {
      const leftUm = leftFixed ? startUm - stretch.leftUm : 0;
      if (leftFixed ? leftUm < 0 : startUm < stretch.leftMinUm || startUm > stretch.leftMaxUm) return;
      for (const tail of list) {
        if (-tail.score[0]! < leastPlacedInAll) continue;
        let side: ScoreVector;
        if (tail.openRightUm >= 0) {
          const both = leftoverScore(leftUm, tail.openRightUm, stretch, fillerMaxUm);
          side = [0, both[1]!, leftUm, both[3]!, 0, 0, 0, both[7]!];
        } else if (leftUm > 0 && open) {
          // The right part alone is above the uncertainty, so nothing closes here.
          const { madeToMeasure, fillers, madeLengthUm } = countLeftovers(leftUm, 0, -1, fillerMaxUm);
          side = [0, madeToMeasure, leftUm, fillers, 0, 0, 0, madeLengthUm];
        } else side = leftoverScore(leftUm, 0, stretch, fillerMaxUm);
        let score = addScores(tail.score, side);
        if (gap) score = addScores(score, gapScore(gap.table, gap.index));
        const key = tail.bits & sharedBits;
        const other = found.get(key);
        const difference = other === undefined ? -1 : compareScores(score, other.score, order);
        if (difference > 0) continue;
        const head = gap ? gap.table.itemsAt(gap.index).map((item) => ({ item })) : [];
        if (
          other === undefined ||
          difference < 0 ||
          compareSequences([...head, ...tailSequence(tail)], [...other.head, ...tailSequence(other.tail)]) < 0
        ) {
          found.set(key, { tail, score, head });
        }
      }
    };
    const startTable = tables.table(true, event.carried);
    let first = startTable.floorIndex(fromUm - stretch.leftMinUm);
    if (leftFixed && longestIsBest) {
      if (first >= 0) start({ table: startTable, index: first }, fromUm - startTable.sums[first]!);
      else if (!event.carried) start(undefined, fromUm);
    } else {
      for (; first >= 0; first -= 1) {
        const startUm = fromUm - startTable.sums[first]!;
        if (!leftFixed && startUm > stretch.leftMaxUm) break;
        budget.spend(1);
        start({ table: startTable, index: first }, startUm);
      }
      if (!event.carried) start(undefined, fromUm);
    }
  }

  return new Map(
    [...found].map(([key, { tail, score, head }]) => [
      key,
      { sequence: [...head, ...tailSequence(tail)], score },
    ]),
  );
};
