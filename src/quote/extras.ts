import type { FitAlternative } from '../fitting/fitAnswer.ts';
import type { FitProblem } from '../fitting/problemSchema.ts';
import { framesOf } from '../stock/framesOf.ts';
import type { StockRange } from '../stock/stockSchema.ts';
import { frontStretches } from './frontStretches.ts';
import { orderedWidthMm } from './leftoverPrice.ts';
import type { PieceMarks } from './pieceMarks.ts';
import { topJoints } from './topJoints.ts';

export const extraKinds = [
  'frame',
  'end-panel',
  'spacer-bar',
  'top-joint',
  'upstand',
  'shelf',
  'shelf-bracket',
  'included',
] as const;
export type ExtraKind = (typeof extraKinds)[number];

/** Something that a run needs beside its pieces. */
export interface Extra {
  readonly kind: ExtraKind;
  readonly name: string;
  readonly count: number;
  /** Of all of it together, where it is had by length. */
  readonly lengthMm: number | null;
  /** Of all of it together, in the range's currency; null where it comes in the price of the pieces. */
  readonly price: number | null;
  /** Of all of it together; null where the range gives none. */
  readonly massKg: number | null;
  readonly note: string;
}

const cents = (amount: number): number => Math.round(amount * 100) / 100;
const figure = (value: number): string => String(Math.round(value * 1000) / 1000);

const frameCount = (alternative: FitAlternative, range: StockRange): number => {
  const items = new Map(range.items.map((item) => [item.id, item]));
  const byRule = (widthMm: number) => framesOf(range, { widthMm, support: 'standing', frames: undefined });
  const pieces = alternative.pieces.reduce((sum, { item, widenedMm = 0 }) => {
    const known = items.get(item);
    return sum + (known ? framesOf(range, { ...known, widthMm: known.widthMm + widenedMm }) : 0);
  }, 0);
  const corners = alternative.corners.reduce((sum, { item }) => {
    const unit = range.cornerUnits.find(({ id }) => id === item);
    return sum + (unit ? (unit.frames ?? byRule(unit.sizeMm)) : 0);
  }, 0);
  const made = alternative.leftovers.reduce(
    (sum, { verdict, widthMm }) =>
      sum +
      (verdict === 'made-to-measure' && orderedWidthMm(range, widthMm) >= range.madeToMeasure.minMm
        ? byRule(widthMm)
        : 0),
    0,
  );
  return pieces + corners + made;
};

/** What comes with the pieces of a fit, by name, with the marks of the pieces that bring it. */
const includedParts = (
  alternative: FitAlternative,
  range: StockRange,
  marks: PieceMarks,
): readonly Extra[] => {
  const items = new Map(range.items.map((item) => [item.id, item]));
  const parts = new Map<string, { count: number; with: string[] }>();
  for (const [index, { item }] of alternative.pieces.entries())
    for (const { name, count } of items.get(item)?.includes ?? []) {
      const part = parts.get(name) ?? { count: 0, with: [] };
      part.count += count;
      part.with.push(marks.pieces[index] ?? '');
      parts.set(name, part);
    }
  return [...parts]
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([name, part]) => ({
      kind: 'included',
      name,
      count: part.count,
      lengthMm: null,
      price: null,
      massKg: null,
      note: `Comes with ${part.with.sort().join(', ')}`,
    }));
};

/**
 * What a run needs beside its pieces, counted after the range's rules. All of it is common practice, no source:
 *
 * - frames as the range has them by width, for pieces, corner units and made-to-measure modules;
 * - one end panel at each exposed end of the run; it carries the shelf there;
 * - one spacer bar beside each carried piece, which holds its two neighbours at the right distance;
 * - a joint wherever two tops meet;
 * - upstand and shelf along the whole customer front but its openings and blocked zones;
 * - brackets at both ends of each length of shelf and no further apart than the range says, none at an end panel;
 * - wastes, connectors and whatever else comes with a station, in its price.
 *
 * An opening's two sides are counted as plain ends: the fit takes no end panel off there.
 */
export const extrasOfRun = (
  problem: FitProblem,
  alternative: FitAlternative,
  range: StockRange,
  marks: PieceMarks,
): readonly Extra[] => {
  const { extras, frame, heights } = range;
  const items = new Map(range.items.map((item) => [item.id, item]));
  const extra = (
    kind: ExtraKind,
    name: string,
    count: number,
    more: Partial<Pick<Extra, 'lengthMm' | 'price' | 'massKg' | 'note'>> = {},
  ): Extra => ({ kind, name, count, lengthMm: null, price: null, massKg: null, note: '', ...more });

  const frames = frameCount(alternative, range);
  const endPanels = problem.ends.filter(({ kind }) => kind === 'exposed').length;
  const carried = alternative.pieces.filter(({ item }) => items.get(item)?.support === 'carried').length;
  const joints = topJoints(problem, alternative);
  const stretches = frontStretches(problem, alternative);
  const frontMm =
    Math.round(stretches.reduce((sum, { fromMm, toMm }) => sum + toMm - fromMm, 0) * 1000) / 1000;
  const { spacingMm, thicknessMm } = extras.shelfBracket;
  const brackets = stretches.reduce((sum, { fromMm, toMm, exposedEnds }) => {
    const bays = Math.max(1, Math.ceil((toMm - fromMm) / spacingMm - 1e-9));
    return sum + Math.max(0, bays + 1 - exposedEnds);
  }, 0);
  const hasShelf = heights.shelfDepthMm > 0 && heights.shelfThicknessMm > 0;

  return [
    extra('frame', `Frame of ${figure(frame.tubeMm)} mm tube`, frames, {
      note: `${frames * frame.legsPerFrame} legs with adjustable feet; in the price of the pieces`,
    }),
    extra('end-panel', 'End panel', endPanels, {
      price: cents(endPanels * extras.endPanel.price),
      massKg: extras.endPanel.massKg === undefined ? null : endPanels * extras.endPanel.massKg,
    }),
    extra('spacer-bar', 'Spacer bar beside a carried piece', carried, {
      price: cents(carried * extras.spacerBar.price),
    }),
    extra('top-joint', 'Joint between tops', joints, { price: cents(joints * extras.joint.price) }),
    extra(
      'upstand',
      `Upstand ${figure(heights.upstandMm)} mm high`,
      heights.upstandMm > 0 ? stretches.length : 0,
      {
        lengthMm: frontMm,
        price: cents(frontMm * extras.upstandPricePerMm),
      },
    ),
    extra('shelf', `Serving shelf ${figure(heights.shelfDepthMm)} mm deep`, hasShelf ? stretches.length : 0, {
      lengthMm: frontMm,
      price: cents(frontMm * extras.shelfPricePerMm),
    }),
    extra('shelf-bracket', `Flat shelf bracket ${figure(thicknessMm)} mm thick`, hasShelf ? brackets : 0, {
      price: cents(brackets * extras.shelfBracket.price),
    }),
    ...includedParts(alternative, range, marks),
  ].filter(({ count }) => count > 0);
};
