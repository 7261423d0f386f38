import { distantPieces, passesColumns } from './keepsRules.ts';
import type { NodeBudget } from './nodeBudget.ts';
import { areClear } from './pieceRules.ts';
import type { PlacedItem } from './placedItem.ts';
import { columnsIn, contactsWith, ruledPlaces } from './ruledPlaces.ts';
import { clash, type RuledLayout, type RuledSettings, solveRuledStretch } from './ruledStretch.ts';
import { addScores, compareScores, type ScoreVector, zeroScore } from './scoreVector.ts';
import { compareFillings, type StraightFilling } from './straightFilling.ts';
import type { Stretch } from './stretch.ts';
import { placeSequence, type StretchLayout, widthOf } from './stretchLayout.ts';

interface Chain {
  readonly bits: number;
  readonly near: readonly PlacedItem[];
  readonly layouts: readonly StretchLayout[];
  readonly score: ScoreVector;
}

/** More contacts between stretches than this are not tried; then nothing is proven. */
const maxContacts = 3_000;

const stretchKey = (stretch: Stretch): string => Object.values(stretch).join('/');

/** Every place at which a piece that keeps a distance might stand in a stretch. */
const possiblePieces = (
  stretch: Stretch,
  places: readonly number[],
  settings: RuledSettings,
): readonly PlacedItem[] => {
  const found: PlacedItem[] = [];
  const add = (item: string, fromUm: number, widthUm: number) => {
    if (settings.rules.reachUm(item) === 0 || fromUm + widthUm > stretch.rightMaxUm) return;
    found.push({ item, fromUm, toUm: fromUm + widthUm });
  };
  for (const placeUm of places) {
    for (const { id, widthUm } of settings.fill) add(id, placeUm, widthUm);
    for (const { item, own, widthUm, fromMinUm, fromMaxUm } of settings.events) {
      if (own !== undefined && placeUm >= fromMinUm && placeUm <= fromMaxUm) add(item, placeUm, widthUm);
    }
  }
  return found;
};

/**
 * The places of each stretch. A piece of one stretch may be held in place by one of another from which it keeps a
 * distance; such contacts are handed from stretch to stretch until none is new.
 */
const placesOfAll = (
  stretches: readonly Stretch[],
  settings: RuledSettings,
  budget: NodeBudget,
): readonly (readonly number[])[] => {
  let places = stretches.map((stretch) => ruledPlaces(stretch, settings, settings.hostedAnchors, budget));
  if (!settings.rules.hasDistances || stretches.length === 1) return places;
  const items = [
    ...settings.distantFill.map((item) => ({ item, widthUm: 0 })),
    ...[...settings.distantBits.keys()].map((item) => ({ item, widthUm: 0 })),
  ];
  const contacts = stretches.map(() => new Set<number>());
  for (let round = 0; round < stretches.length; round += 1) {
    const pieces = stretches.map((stretch, index) => possiblePieces(stretch, places[index]!, settings));
    let isNew = false;
    for (const [index, { leftMinUm, rightMaxUm }] of stretches.entries()) {
      const others = pieces.flatMap((list, at) => (at === index ? [] : list));
      for (const placeUm of contactsWith(others, items, settings)) {
        if (placeUm < leftMinUm || placeUm > rightMaxUm + settings.jointUm) continue;
        if (contacts[index]!.has(placeUm)) continue;
        if (contacts[index]!.size >= maxContacts) {
          budget.giveUpProof();
          break;
        }
        contacts[index]!.add(placeUm);
        isNew = true;
      }
    }
    if (!isNew || budget.isExhausted()) break;
    places = stretches.map((stretch, index) =>
      ruledPlaces(stretch, settings, [...settings.hostedAnchors, ...contacts[index]!], budget),
    );
  }
  return places;
};

/** Slides each layout to where the score leaves it open (leftovers split equally), as far as the rules let it. */
const settled = (layouts: readonly StretchLayout[], settings: RuledSettings, fillerMaxUm: number) => {
  const result = [...layouts];
  for (const [index, layout] of layouts.entries()) {
    const others = result.flatMap((one, at) => (at === index ? [] : distantPieces(one, settings)));
    if (layout.sequence.length === 0) {
      if (others.length > 0) result[index] = { ...layout, others };
      continue;
    }
    const columns = columnsIn(layout.stretch);
    const contacts: number[] = [];
    let offsetUm = 0;
    for (const piece of layout.sequence) {
      for (const { fromUm, toUm } of columns)
        contacts.push(toUm - offsetUm, fromUm - widthOf(piece) - offsetUm);
      offsetUm += widthOf(piece) + settings.jointUm;
    }
    const isAllowed = (fromUm: number): boolean => {
      if (fromUm === layout.fromUm) return true;
      let atUm = fromUm;
      for (const piece of layout.sequence) {
        if (piece.event && piece.event.hosted.length > 0 && piece.event.hostedAt(atUm) === undefined) {
          return false;
        }
        atUm += widthOf(piece) + settings.jointUm;
      }
      if (!passesColumns({ ...layout, fromUm }, settings)) return false;
      if (!settings.rules.hasDistances) return true;
      const own = distantPieces({ ...layout, fromUm }, settings);
      return own.every((one) => others.every((other) => areClear(settings.rules, one, other)));
    };
    const placed = placeSequence(
      layout.stretch,
      layout.sequence,
      settings.jointUm,
      fillerMaxUm,
      settings.order,
      { starts: [layout.fromUm, ...contacts], isAllowed },
    );
    if (placed === undefined || compareScores(placed.score, layout.score, settings.order) > 0) {
      throw new Error('A layout under rules must keep its score when it is settled.');
    }
    result[index] = others.length > 0 ? { ...placed, others } : placed;
  }
  return result;
};

/**
 * The best fillings of the stretches of one straight, one for each set of shared stations. From right to left, because
 * a piece may have to keep clear of one in another stretch: each set of such pieces is carried on as its own case.
 */
const solveRuledStretches = (
  stretches: readonly Stretch[],
  settings: RuledSettings,
  others: readonly PlacedItem[],
  budget: NodeBudget,
): ReadonlyMap<number, StraightFilling> => {
  const places = placesOfAll(stretches, settings, budget);
  const pushed = settings.pushedStarts === 'ignored' ? 'ignored' : settings.pushedStarts(places.flat());
  let chains: readonly Chain[] = [{ bits: 0, near: others, layouts: [], score: zeroScore }];
  for (const [index, stretch] of [...stretches.entries()].reverse()) {
    const known = new Map<string, readonly RuledLayout[]>();
    const next = new Map<string, Chain>();
    for (const chain of chains) {
      const near = JSON.stringify(chain.near);
      const results =
        known.get(near) ?? solveRuledStretch(stretch, settings, places[index]!, pushed, chain.near, budget);
      known.set(near, results);
      for (const { bits, near: farther, layout } of results) {
        if ((chain.bits & bits) !== 0 || clash(chain.bits | bits, settings)) continue;
        const candidate: Chain = {
          bits: chain.bits | bits,
          near: index === 0 ? [] : farther,
          layouts: [layout, ...chain.layouts],
          score: addScores(chain.score, layout.score),
        };
        const key = `${candidate.bits}/${JSON.stringify(candidate.near)}`;
        const other = next.get(key);
        if (other === undefined || compareFillings(candidate, other, settings.order) < 0)
          next.set(key, candidate);
      }
    }
    chains = [...next.values()];
  }
  const best = new Map<number, StraightFilling>();
  for (const { bits, layouts, score } of chains) {
    best.set(bits, { layouts: settled(layouts, settings, settings.fillerMaxUm), score });
  }
  return best;
};

/** Remembers what it solved: the same stretches between the same pieces elsewhere are solved once. */
export const ruledStretchSolver = (
  settings: RuledSettings,
  newBudget: () => NodeBudget,
  spend: (budget: NodeBudget) => void,
  thins = true,
) => {
  const known = new Map<string, { fillings: ReadonlyMap<number, StraightFilling>; proven: boolean }>();
  return (stretches: readonly Stretch[], others: readonly PlacedItem[] = []) => {
    const key = JSON.stringify([stretches.map(stretchKey), others]);
    const before = known.get(key);
    if (before !== undefined) return before;
    let proven = true;
    let fillings: ReadonlyMap<number, StraightFilling> = new Map();
    // Where the budget does not reach, again with every fourth width of the range, until it does.
    for (let { fill } = settings; ; fill = fill.filter((_, index) => index % 4 === 0)) {
      const budget = newBudget();
      const ids = new Set(fill.map(({ id }) => id));
      const events = settings.events.filter((event) => event.own !== undefined || ids.has(event.item));
      fillings = solveRuledStretches(stretches, { ...settings, fill, events }, others, budget);
      spend(budget);
      proven &&= budget.isProven();
      if (!thins || !budget.isExhausted() || fill.length <= 1) break;
    }
    const result = { fillings, proven };
    known.set(key, result);
    return result;
  };
};
