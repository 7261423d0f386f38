import type { FillItem } from './fillStock.ts';
import type { StartsByStation } from './hostedContacts.ts';
import { countLeftovers } from './leftoverVerdict.ts';
import type { NodeBudget } from './nodeBudget.ts';
import { areClear, mayEnd } from './pieceRules.ts';
import type { PlacedItem } from './placedItem.ts';
import { columnsIn, type PlaceSettings } from './ruledPlaces.ts';
import { compareRuledRests, type RuledRest, restKey, ruledSequence } from './ruledRest.ts';
import { type RuledVariant, ruledVariants } from './ruledVariants.ts';
import { addScores, compareScores, type ScoreSequence, type ScoreVector } from './scoreVector.ts';
import { liveBits, type StationEvent } from './stationEvents.ts';
import type { Stretch } from './stretch.ts';
import { compareSequences, emptyLayout, type SequencePiece, type StretchLayout } from './stretchLayout.ts';
import { eventsIn } from './stretchNodes.ts';

/** What the ruled stretches of one straight have in common. */
export interface RuledSettings extends PlaceSettings {
  readonly order: ScoreSequence;
  readonly sharedBits: number;
  readonly marginUm: number;
  readonly depthUmOf: (item: string) => number;
  /** Bits of stations that could stand wholly to the left of a place on this straight, by any event. */
  readonly couldStandLeftOf: (placeUm: number) => number;
  /** Items of fill that keep a distance. */
  readonly distantFill: readonly string[];
  /** The bits of the stations of each item that keeps a distance. */
  readonly distantBits: ReadonlyMap<string, number>;
  /** Bits of each two stations that can't both be placed. */
  readonly exclusive: readonly number[];
  /** Places from which a layout may hang by a hosted piece that keeps a distance. */
  readonly hostedAnchors: readonly number[];
  /** Where pieces further left may push hosted ones, by the places of the straight, or that their distances are ignored:
   * no layout that keeps them can be better than what is found then. */
  readonly pushedStarts: ((places: readonly number[]) => StartsByStation) | 'ignored';
  readonly allPushedStarts: (places: readonly number[]) => StartsByStation;
}

/** The best layout of a stretch for one set of shared stations and one row of pieces to keep clear of. */
export interface RuledLayout {
  readonly bits: number;
  readonly near: readonly PlacedItem[];
  readonly layout: StretchLayout;
}

/** One way for a piece to stand at a place. */
interface Standing {
  readonly piece: SequencePiece;
  readonly bits: number;
  readonly carried: boolean;
  readonly score: ScoreVector;
  readonly placed: readonly PlacedItem[];
}

const noStarts: StartsByStation = new Map();

/** Whether a set of stations has two that can't both be placed. */
export const clash = (bits: number, { exclusive }: Pick<RuledSettings, 'exclusive'>): boolean =>
  exclusive.some((pair) => (bits & pair) === pair);

const itemOf = (piece: SequencePiece): string => (piece.event ? piece.event.item : piece.item.id);

/** The ids in one place, the piece that takes length and those in or on it, ignoring sequence. */
const idsIn = ({ piece }: Standing): readonly string[] =>
  piece.event ? [piece.event.item, ...piece.event.hosted.map(({ item }) => item)] : [piece.item.id];

/**
 * The best layouts of one stretch under the rules between pieces and at columns, piece by piece from the right over
 * all `places` (see `ruledPlaces`). `others` are pieces elsewhere on the straight to keep clear of; what pieces further
 * left must keep clear of is a part of the result. Exact over the given places; without distances of hosted pieces the
 * places hold an optimum.
 */
export const solveRuledStretch = (
  stretch: Stretch,
  settings: RuledSettings,
  places: readonly number[],
  pushed: StartsByStation | 'ignored',
  others: readonly PlacedItem[],
  budget: NodeBudget,
): readonly RuledLayout[] => {
  const { rules, fill, jointUm, fillerMaxUm, order, sharedBits } = settings;
  const columns = columnsIn(stretch);
  const events = eventsIn(stretch, settings.events);
  const live = liveBits(events, stretch.leftMinUm, jointUm);
  const leftFixed = stretch.left !== 'exposed';
  const rightFixed = stretch.right !== 'exposed';
  const open = leftFixed && rightFixed;
  const rests = new Map<number, readonly RuledRest[]>();
  const best = new Map<
    string,
    { readonly rest: RuledRest; readonly score: ScoreVector; readonly fromUm: number }
  >();

  const passesColumns = (item: string, fromUm: number, toUm: number): boolean =>
    columns.every(
      (column) =>
        toUm <= column.fromUm || fromUm >= column.toUm || settings.depthUmOf(item) <= column.depthUm,
    );
  /** What to the left of a place must still be kept clear of: the nearest of each item, while any partner can come. */
  const nearLeftOf = (
    placeUm: number,
    bits: number,
    placed: readonly PlacedItem[],
    before: readonly PlacedItem[],
  ): readonly PlacedItem[] => {
    if (placed.length + before.length === 0) return [];
    const partners = new Set(settings.distantFill);
    const free = settings.couldStandLeftOf(placeUm) & ~bits;
    for (const [item, itemBits] of settings.distantBits) if ((itemBits & free) !== 0) partners.add(item);
    const nearest = new Map<string, PlacedItem>();
    for (const one of [...before, ...placed]) {
      const reachUm = Math.max(0, ...[...partners].map((partner) => rules.clearUm(one.item, partner)));
      if (one.fromUm - placeUm >= reachUm) continue;
      const known = nearest.get(one.item);
      if (known === undefined || one.fromUm < known.fromUm) nearest.set(one.item, one);
    }
    return [...nearest.values()].sort((a, b) => (a.item < b.item ? -1 : 1));
  };
  const standingsOf = (
    event: StationEvent,
    fromUm: number,
    near: readonly PlacedItem[],
    isPushed: boolean,
  ): readonly Standing[] =>
    ruledVariants(
      event,
      fromUm,
      rules,
      near,
      pushed === 'ignored' || isPushed ? pushed : noStarts,
      budget,
    ).map(({ event: one, placed, displacement }: RuledVariant) => ({
      piece: { event: one },
      bits: event.bits,
      carried: event.carried,
      score: [-event.stations, 0, 0, 0, 1, displacement, event.price],
      placed,
    }));
  /** Whether something that a hosted piece of the event keeps clear of could still come to its left. */
  const mayBePushed = (event: StationEvent, placeUm: number, bits: number): boolean => {
    if (pushed === 'ignored' || pushed.size === 0 || event.hosted.length === 0) return false;
    const free = settings.couldStandLeftOf(placeUm + event.widthUm) & ~(bits | event.bits);
    return event.hosted.some(
      ({ item }) =>
        settings.distantFill.some((other) => rules.clearUm(item, other) > 0) ||
        [...settings.distantBits].some(
          ([other, itemBits]) => (itemBits & free) !== 0 && rules.clearUm(item, other) > 0,
        ),
    );
  };
  const standingOfFill = (item: FillItem, fromUm: number): Standing => ({
    piece: { item },
    bits: 0,
    carried: item.carried,
    score: [0, 0, 0, 0, 1, 0, item.price],
    placed: rules.reachUm(item.id) > 0 ? [{ item: item.id, fromUm, toUm: fromUm + item.widthUm }] : [],
  });
  /** The items of a place that need a neighbour on the left, or nothing where one on the right goes without. */
  const pendingOf = (standing: Standing, next: RuledRest | undefined): readonly string[] | undefined => {
    const ids = idsIn(standing);
    for (const id of next?.pending ?? []) {
      if (!ids.some((own) => rules.besideOf(id)!.has(own))) return undefined;
    }
    const pending = new Set<string>();
    for (const [at, id] of ids.entries()) {
      const needs = rules.besideOf(id);
      if (needs === undefined) continue;
      if (ids.some((mate, index) => index !== at && needs.has(mate))) continue;
      if (next?.offers.some((offer) => needs.has(offer))) continue;
      pending.add(id);
    }
    return [...pending].sort();
  };
  const offersOf = (standing: Standing): readonly string[] =>
    [...new Set(idsIn(standing).filter((id) => rules.isNeeded(id)))].sort();
  const leftoverScore = (leftUm: number, rightUm: number, uncertaintyUm: number): ScoreVector => {
    const counted = countLeftovers(leftUm, rightUm, uncertaintyUm, fillerMaxUm);
    return [0, counted.madeToMeasure, leftUm + rightUm, counted.fillers, 0, 0, 0, counted.madeLengthUm];
  };

  for (const placeUm of places) {
    if (!budget.spend(1 + (events.length >> 3))) break;
    const keepBits = live(placeUm) | sharedBits;
    const kept = new Map<string, RuledRest>();
    const keep = (
      standing: Standing,
      next: RuledRest | undefined,
      openRightUm: number,
      score: ScoreVector,
    ): void => {
      budget.spend(1);
      const pending = pendingOf(standing, next);
      if (pending === undefined) return;
      const allBits = standing.bits | (next?.bits ?? 0);
      const binding = {
        bits: allBits & keepBits,
        openRightUm,
        firstCarried: standing.carried,
        mustFollow: !mayEnd(rules, itemOf(standing.piece), stretch, 'start'),
        pending,
        offers: offersOf(standing),
        near: nearLeftOf(placeUm, allBits, standing.placed, next?.near ?? others),
      };
      const rest: RuledRest = { ...binding, score, piece: standing.piece, next };
      const key = restKey(binding);
      const other = kept.get(key);
      const difference = other === undefined ? -1 : compareScores(score, other.score, order);
      if (other === undefined || difference < 0 || (difference === 0 && compareRuledRests(rest, other) < 0)) {
        kept.set(key, rest);
      }
    };
    const stand = (standing: Standing, toUm: number): void => {
      if (standing.carried || !mayEnd(rules, itemOf(standing.piece), stretch, 'end')) return;
      const rightUm = rightFixed ? stretch.rightUm - toUm : 0;
      if (rightFixed ? rightUm < 0 : toUm < stretch.rightMinUm || toUm > stretch.rightMaxUm) return;
      const mayClose = open && rightUm <= stretch.uncertaintyUm;
      const side: ScoreVector = mayClose
        ? [0, 0, rightUm, 0, 0, 0, 0]
        : leftoverScore(0, rightUm, stretch.uncertaintyUm);
      keep(standing, undefined, mayClose ? rightUm : -1, addScores(standing.score, side));
    };
    const standBefore = (standing: Standing, next: RuledRest): void => {
      if (standing.carried && next.firstCarried) return;
      if ((next.bits & standing.bits) !== 0 || clash(next.bits | standing.bits, settings)) return;
      keep(standing, next, next.openRightUm, addScores(standing.score, next.score));
    };
    for (const event of events) {
      if (placeUm < event.fromMinUm || placeUm > event.fromMaxUm) continue;
      const toUm = placeUm + event.widthUm;
      if (clash(event.bits, settings)) continue;
      if (toUm > stretch.rightMaxUm || !passesColumns(event.item, placeUm, toUm)) continue;
      for (const standing of standingsOf(event, placeUm, others, mayBePushed(event, placeUm, 0))) {
        stand(standing, toUm);
      }
      const known = new Map<string, readonly Standing[]>();
      for (const next of rests.get(toUm + jointUm) ?? []) {
        budget.spend(1);
        const isPushed = mayBePushed(event, placeUm, next.bits);
        const key = `${isPushed}${next.near.map(({ item, fromUm }) => `${item}@${fromUm}`).join()}`;
        const standings = known.get(key) ?? standingsOf(event, placeUm, [...next.near, ...others], isPushed);
        known.set(key, standings);
        for (const standing of standings) standBefore(standing, next);
      }
    }
    for (const item of fill) {
      const toUm = placeUm + item.widthUm;
      if (toUm > stretch.rightMaxUm || !passesColumns(item.id, placeUm, toUm)) continue;
      const standing = standingOfFill(item, placeUm);
      const isClearOf = (some: readonly PlacedItem[]) =>
        standing.placed.every((own) => some.every((other) => areClear(rules, own, other)));
      if (!isClearOf(others)) continue;
      stand(standing, toUm);
      for (const next of rests.get(toUm + jointUm) ?? []) {
        budget.spend(1);
        if (isClearOf(next.near)) standBefore(standing, next);
      }
    }
    if (kept.size === 0) continue;
    const list = [...kept.values()];
    rests.set(placeUm, list);
    const leftUm = leftFixed ? placeUm - stretch.leftUm : 0;
    if (leftFixed ? leftUm < 0 : placeUm < stretch.leftMinUm || placeUm > stretch.leftMaxUm) continue;
    for (const rest of list) {
      if (rest.firstCarried || rest.pending.length > 0 || rest.mustFollow) continue;
      let side: ScoreVector;
      if (rest.openRightUm >= 0) {
        const both = leftoverScore(leftUm, rest.openRightUm, stretch.uncertaintyUm);
        side = [0, both[1]!, leftUm, both[3]!, 0, 0, 0, both[7]!];
      } else side = leftoverScore(leftUm, 0, open ? -1 : stretch.uncertaintyUm);
      const score = addScores(rest.score, side);
      const near = rest.near.map(({ item, fromUm }) => `${item}@${fromUm}`).join();
      const key = `${rest.bits & sharedBits}/${near}`;
      const other = best.get(key);
      const difference = other === undefined ? -1 : compareScores(score, other.score, order);
      if (
        other === undefined ||
        difference < 0 ||
        (difference === 0 && compareRuledRests(rest, other.rest) < 0)
      ) {
        best.set(key, { rest, score, fromUm: placeUm });
      }
    }
  }

  const layouts: RuledLayout[] = [...best.values()].map(({ rest, score, fromUm }) => {
    const sequence = ruledSequence(rest);
    const lengthUm = sequence.reduce(
      (sum, { event, item }) => sum + (event?.widthUm ?? item!.widthUm) + jointUm,
      -jointUm,
    );
    return {
      bits: rest.bits & sharedBits,
      near: rest.near,
      layout: {
        stretch,
        sequence,
        fromUm,
        leftUm: leftFixed ? fromUm - stretch.leftUm : 0,
        rightUm: rightFixed ? stretch.rightUm - fromUm - lengthUm : 0,
        score,
      },
    };
  });
  const empty = emptyLayout(stretch, fillerMaxUm);
  if (empty !== undefined) {
    const near = nearLeftOf(stretch.leftMinUm, 0, [], others);
    const key = JSON.stringify(near);
    const same = layouts.findIndex((one) => one.bits === 0 && JSON.stringify(one.near) === key);
    const other = layouts[same]?.layout;
    if (other === undefined) layouts.push({ bits: 0, near, layout: empty });
    else if ((compareScores(empty.score, other.score, order) || compareSequences([], other.sequence)) < 0) {
      layouts[same] = { bits: 0, near, layout: empty };
    }
  }
  return layouts;
};
