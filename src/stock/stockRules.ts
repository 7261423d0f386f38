import { figure } from './stockCells.ts';
import type { StockRange } from './stockSchema.ts';

/** What a rule of a range is: which unit it is typed in, and how it is shown. */
export type StockRuleKind =
  | 'length'
  | 'price'
  | 'price-per-mm'
  | 'days'
  | 'count'
  | 'mass'
  | 'frames-by-width';

/** One rule of a stock range that can be typed anew. */
export interface StockRule {
  /** Where it stands in the range, joined by dots. */
  readonly path: string;
  readonly words: string;
  readonly kind: StockRuleKind;
  /** May be left empty. */
  readonly isOptional?: true;
}

export interface StockRuleGroup {
  readonly title: string;
  readonly rules: readonly StockRule[];
}

const rule = (path: string, words: string, kind: StockRuleKind, isOptional?: true): StockRule => ({
  path,
  words,
  kind,
  ...(isOptional ? { isOptional } : {}),
});

/** Every rule of a range beside its pieces, in groups, in the order that they are shown and typed. */
export const stockRuleGroups: readonly StockRuleGroup[] = [
  {
    title: 'Fillers',
    rules: [
      rule('fillers.maxMm', 'Widest filler', 'length'),
      rule('fillers.price', 'Price each', 'price', true),
      rule('fillers.pricePerMm', 'and per mm', 'price-per-mm', true),
      rule('fillers.leadTimeDays', 'Lead time', 'days', true),
    ],
  },
  {
    title: 'Made to measure',
    rules: [
      rule('madeToMeasure.minMm', 'Narrowest', 'length'),
      rule('madeToMeasure.maxMm', 'Widest', 'length'),
      rule('madeToMeasure.stepMm', 'In steps of', 'length'),
      rule('madeToMeasure.price', 'Price each', 'price'),
      rule('madeToMeasure.pricePerMm', 'and per mm', 'price-per-mm'),
      rule('madeToMeasure.leadTimeDays', 'Lead time', 'days'),
      rule('madeToMeasure.wideningMaxMm', 'A stock module made wider by up to', 'length'),
      rule('madeToMeasure.wideningPrice', 'for its price and', 'price'),
      rule('madeToMeasure.overhangMaxMm', 'A curved top overhangs by up to', 'length', true),
    ],
  },
  {
    title: 'Heights and shelf',
    rules: [
      rule('heights.topMm', 'Working top', 'length'),
      rule('heights.topThicknessMm', 'Top thickness', 'length'),
      rule('heights.upstandMm', 'Upstand', 'length'),
      rule('heights.shelfMm', 'Serving shelf, upper face', 'length'),
      rule('heights.shelfDepthMm', 'Shelf depth', 'length'),
      rule('heights.shelfThicknessMm', 'Shelf thickness', 'length'),
      rule('heights.feetMm', 'Feet', 'length'),
      rule('heights.feetAdjustMm', 'Feet turn by, each way', 'length'),
      rule('heights.lowSectionTopMm', 'Top of a low section', 'length'),
    ],
  },
  {
    title: 'Frames',
    rules: [
      rule('frame.tubeMm', 'Tube', 'length'),
      rule('frame.legsPerFrame', 'Legs a frame', 'count'),
      rule('frame.countByWidth', 'Frames by width', 'frames-by-width'),
    ],
  },
  {
    title: 'Allowances of a new run',
    rules: [
      rule('allowances.jointMm', 'Each joint', 'length'),
      rule('allowances.scribeMm', 'Scribe at walls', 'length'),
      rule('allowances.endPanelMm', 'End panel', 'length'),
      rule('allowances.claddingMm', 'Cladding', 'length'),
      rule('servicesGapMm', 'Services gap behind the frames', 'length'),
      rule('hostMarginMm', 'Margin round a drop-in piece', 'length'),
    ],
  },
  {
    title: 'Extras',
    rules: [
      rule('extras.endPanel.price', 'End panel', 'price'),
      rule('extras.endPanel.massKg', 'End panel, mass', 'mass', true),
      rule('extras.joint.price', 'Top joint', 'price'),
      rule('extras.spacerBar.price', 'Spacer bar', 'price'),
      rule('extras.shelfBracket.price', 'Shelf bracket', 'price'),
      rule('extras.shelfBracket.thicknessMm', 'Bracket thickness', 'length'),
      rule('extras.shelfBracket.spacingMm', 'Brackets no further apart than', 'length'),
      rule('extras.shelfPricePerMm', 'Shelf, per mm', 'price-per-mm'),
      rule('extras.bayTopPricePerMm', 'Top over a bay, per mm', 'price-per-mm', true),
      rule('extras.upstandPricePerMm', 'Upstand, per mm', 'price-per-mm'),
    ],
  },
];

export const stockRules: readonly StockRule[] = stockRuleGroups.flatMap(({ rules }) => rules);

const valueAt = (range: StockRange, path: string): unknown =>
  path
    .split('.')
    .reduce<unknown>((value, key) => (value as Readonly<Record<string, unknown>> | undefined)?.[key], range);

/** A rule of a range as it is typed: a figure, nothing where it is left out, frames as `1800:2 | 3000:3`. */
export const ruleText = (range: StockRange, { path, kind }: StockRule): string => {
  if (kind === 'frames-by-width')
    return range.frame.countByWidth.map(({ upToMm, frames }) => `${figure(upToMm)}:${frames}`).join(' | ');
  const value = valueAt(range, path);
  return typeof value === 'number' ? figure(value) : '';
};
